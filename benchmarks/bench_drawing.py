"""Every sheet of the demo, and those of an aeroplane ten times as large: seconds of the processor.

Run it as a script, alone on the machine. Each figure is the median of several runs. The demo's sheets
keep to a limit each; for the big one no sheet may take longer than a second, however many items it has.
"""

from __future__ import annotations

from pathlib import Path
from statistics import median
from tempfile import TemporaryDirectory
from time import process_time

from benchmarks.ten_times import demo_folder, lay_out
from hardstand.cli import one_thread

RUNS = 5
DEMO_S, TEN_S = 0.5, 1.0


def measured(folder: Path, runs: int) -> dict[str, float]:
    """Seconds of the processor for each sheet of an aeroplane, by medium and sheet."""
    from hardstand.asbuilt import build
    from hardstand.assessment import assess
    from hardstand.description.read import read_folder
    from hardstand.stages import stages
    from hardstand.views.drawing import DRAWINGS, Wanted, sheet_set

    asbuilt = build(read_folder(folder).description)
    assessment = assess(asbuilt, stages())
    found: dict[str, float] = {}
    media = {"wide": Wanted(), "phone": Wanted(width_px=390.0), "A4": Wanted(paper="A4")}
    for medium, wanted in media.items():
        for one in sheet_set(asbuilt, assessment, wanted, ["whole", "trays", "balance", "section"]):
            times = []
            for _ in range(runs):
                start = process_time()
                DRAWINGS[one.name].make(asbuilt, assessment, one.wanted)
                times.append(process_time() - start)
            found[f"{medium} {one.stem}"] = median(times)
    return found


def main() -> None:
    """Prints the figures and holds them to their limits."""
    with TemporaryDirectory() as scratch:
        big = Path(scratch) / "big"
        lay_out(big)
        cases = (("demo", demo_folder(), DEMO_S, RUNS), ("ten times", big, TEN_S, 1))
        for name, folder, limit_s, runs in cases:
            times = measured(folder, runs)
            for sheet, seconds in times.items():
                print(f"{name:10} {sheet:20} {seconds:6.3f} s  (at most {limit_s})")
            assert max(times.values()) <= limit_s


if __name__ == "__main__":
    one_thread()
    main()
