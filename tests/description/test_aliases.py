from __future__ import annotations

import pytest

from hardstand.description.problems import UnreadableError
from hardstand.description.read import read_texts
from tests.small_aeroplane import TEXT

ALIAS = '\n[[alias]]\nid = "item.receiver"\nnow = "rx"\n'
MEASURED = """\
[[measurement]]
id = "m1"
address = "item.receiver.mass_g"
value = 20
"""


def told(main: str, measured: str = "") -> list[str]:
    """What is wrong with an aeroplane, each with its hint."""
    with pytest.raises(UnreadableError) as found:
        read_texts({"aeroplane.toml": main, "measurements.toml": measured})
    return [f"{one.what}; {one.hint}" for one in found.value.problems]


def test_a_measurement_under_a_former_id_is_found() -> None:
    """It is read at the row's present id; without the alias there is no such row."""
    texts = {"aeroplane.toml": TEXT + ALIAS, "measurements.toml": MEASURED}
    assert read_texts(texts).description.measurement[0].address == "item.rx.mass_g"
    assert "there is no item receiver" in told(TEXT, MEASURED)[0]


def test_a_former_id_in_the_file_names_the_present_one() -> None:
    """A reference by a former id is refused with the id that the row has now."""
    main = TEXT + ALIAS + '\n[[state]]\nid = "bare"\nwithout = ["receiver"]\n'
    assert told(main) == ["there is no item or mass receiver; did you mean rx?"]


@pytest.mark.parametrize(
    "alias, says",
    [
        (ALIAS.replace("item.receiver", "mass.wing"), "was called wing before"),
        (ALIAS.replace("item.receiver", "itm.receiver"), "did you mean item?"),
        (ALIAS.replace("item.receiver", "receiver"), "cannot stand here"),
        (ALIAS.replace("item.receiver", "limit.receiver"), "no kind of row limit"),
        (ALIAS + ALIAS, "already an alias"),
    ],
)
def test_an_alias_that_cannot_be(alias: str, says: str) -> None:
    """A former id of no kind, or that a row has again, or given twice, is a problem of the file."""
    assert says in " ".join(told(TEXT + alias))
