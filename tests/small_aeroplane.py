"""A small aeroplane that is read and assessed in a moment, for the tests of the outer rooms."""

from __future__ import annotations

import io
from collections.abc import Sequence
from pathlib import Path

from hardstand.cli import run

TEXT = """\
# A small one for the tests.
format = 1

[aeroplane]
name = "Heron"
cg_range_mm = [150, 250]
cg_range_state = "empty"

[cg_mark]
name = "wing leading edge at the root"
at_mm = [400, 60, 0]   # touched with a ruler

[[state]]
id = "empty"

[[mass]]
id = "shell"
mass_g = 1000
at_mm = [600, 0, 0]

[[mass]]
id = "wing"
mass_g = 800   # both panels
mass_tol_g = 4
at_mm = [580, 0, 0]

[[tray]]
id = "front"
outline_mm = [[100, -60], [400, -60], [400, 60], [100, 60]]
top_z_mm = -10

[[item]]
id = "rx"
part = "receiver-12-channel"
on = "front"
at_mm = [260, 0]

[[option]]
id = "aft"
name = "receiver further aft"

[option.set]
"item.rx.at_mm" = [300, 0]
"""


def laid_out(folder: Path, text: str = TEXT) -> Path:
    """The small aeroplane in a folder, which is returned."""
    folder.mkdir(exist_ok=True)
    (folder / "aeroplane.toml").write_text(text, encoding="utf-8")
    return folder


def ran(*words: str | Path) -> tuple[int, str, str]:
    """A command run in this process: exit status, standard output, standard error."""
    out, err = io.StringIO(), io.StringIO()
    status = run([str(word) for word in words], out, err)
    return status, out.getvalue(), err.getvalue()


def printed(lines: Sequence[tuple[tuple[str, str], ...]]) -> list[str]:
    """The characters of a view's lines."""
    return ["".join(text for text, _ in one) for one in lines]
