"""Whatever is plugged in wherever: the harness says what it finds, and its remedies can be made."""

from __future__ import annotations

from random import Random

from hypothesis import given, settings
from hypothesis import strategies as st

from hardstand.description.problems import UnreadableError
from hardstand.description.read import read_texts
from hardstand.description.write import apply_to_texts
from tests.engines.harness.wired import CHANNELS, LEADS, findings, texts

ENDS = [
    *sorted({end for start, goal, *_ in LEADS.values() for end in (start, goal)}), "hub-a.out-7",
    "hub-b.out-8", "rx-a.out-1", "rx-b.out-2", "lights.out-2", "gear.leg-2", "nowhere", "unknown",
]  # fmt: skip
MORE = ("", 'to_pins = ["plus", "minus"]', 'to_pins = ["minus", "signal", "plus"]', "to_poles = 5",
        'from_gender = "pin"', 'shield = "both ends"', "fuse_a = 30", 'label = "A1"')  # fmt: skip


def shuffled(seed: int, many: int) -> dict[str, str]:
    """The small aeroplane with some leads' ends and plugs, and some channels' outputs, by chance."""
    chance = Random(seed)  # noqa: S311 to be had again
    files = texts()
    main = files["aeroplane.toml"]
    for name in chance.sample(sorted(LEADS), many):
        start, goal, *_ = LEADS[name]
        one, other = chance.sample(ENDS, 2)
        more = chance.choice(MORE)
        old = f'id = "{name}"\nfrom = "{start}"\nto = "{goal}"\n'
        assert old in main
        own = more + "\n" if more and name not in ("R2", "R3") else ""  # those say their pins already
        main = main.replace(old, f'id = "{name}"\nfrom = "{one}"\nto = "{other}"\n{own}')
    for name in chance.sample(sorted(CHANNELS), 2):
        main = main.replace(f'at = ["{CHANNELS[name][2]}"]', f'at = ["{chance.choice(ENDS[:30])}"]')
    return files | {"aeroplane.toml": main if chance.random() < 0.3 else main.replace("branch_of", "# branch_of")}


@settings(max_examples=15, deadline=None)
@given(st.integers(0, 10**9), st.integers(1, len(LEADS)))
def test_nothing_breaks_and_every_remedy_can_be_made(seed: int, many: int) -> None:
    """Every finding is a sentence about something, and its changes find what they expect to stand."""
    files = shuffled(seed, many)
    try:
        read_texts(files)
    except UnreadableError:
        return  # a branch that no longer begins where its lead does
    for one in findings(files):
        assert one.about
        assert one.text.endswith(".")
        if one.remedy is not None and one.remedy.changes:
            mended = files | apply_to_texts(files, one.remedy.changes)
            assert mended != files
            read_texts(mended)
