from __future__ import annotations

from pathlib import Path

import pytest

from hardstand.changes import Change
from hardstand.description.problems import UnreadableError
from hardstand.description.write import StaleChange
from hardstand.standing import stand_of
from hardstand.workspace import open_folder, set_field
from tests.small_aeroplane import TEXT, laid_out


def test_a_change_is_written_and_recorded(tmp_path: Path) -> None:
    """A change alters its value alone and becomes a revision with its reason."""
    workspace = open_folder(laid_out(tmp_path / "jet"))
    edited = workspace.change([set_field(workspace, "mass.wing.mass_g", 900)], "weighed again")
    assert edited.revision is not None
    assert edited.revision.why == "weighed again"
    assert (tmp_path / "jet" / "aeroplane.toml").read_text() == TEXT.replace(
        "mass_g = 800", "mass_g = 900"
    )


@pytest.mark.parametrize(
    "change, error",
    [
        (Change("mass.wing.mass_g", 801, 900), StaleChange),
        (Change("mass.wing.mass_g", 800, -1), UnreadableError),
        (Change("item.rx.on", "front", "nowhere"), UnreadableError),
    ],
)
def test_a_refused_change_writes_nothing(
    change: Change, error: type[Exception], tmp_path: Path
) -> None:
    """What no longer holds, or would leave the aeroplane unreadable, leaves no trace in the file."""
    workspace = open_folder(laid_out(tmp_path / "jet"))
    with pytest.raises(error):
        workspace.change([change], "wrong")
    assert (tmp_path / "jet" / "aeroplane.toml").read_text() == TEXT


def test_values_are_those_with_the_options_laid_over(tmp_path: Path) -> None:
    """An option's value is what stands at the address while it is laid over."""
    folder = laid_out(tmp_path / "jet")
    assert open_folder(folder).value_at("item.rx.at_mm") == [260, 0]
    assert open_folder(folder, ["aft"]).value_at("item.rx.at_mm") == [300, 0]
    assert open_folder(folder).value_at("cg_mark.name") == "wing leading edge at the root"
    assert open_folder(folder).value_at("stability.speed_m_s") is None


def test_an_address_is_found_in_its_file(tmp_path: Path) -> None:
    """Rows and single tables lead to their line, the catalogue's parts to words."""
    raw = open_folder(laid_out(tmp_path / "jet")).read.raw
    lines = TEXT.split("\n")
    for address, begins in (
        ("mass.wing.mass_g", "mass_g = 800"),
        ("cg_mark.at_mm.x", "at_mm = [400"),
        ("tray.front.top_z_mm", "top_z_mm"),
    ):
        assert lines[stand_of(raw, address)["line"] - 1].startswith(begins)
    assert (
        stand_of(raw, "part.receiver-12-channel.mass_g")["words"]
        == "catalogue part receiver-12-channel"
    )
    assert stand_of(raw, "nonsense")["file"] is None
