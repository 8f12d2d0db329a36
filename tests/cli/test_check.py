from __future__ import annotations

import json
import subprocess
import sys
from pathlib import Path

from tests.small_aeroplane import TEXT, laid_out, ran

NO_GO = TEXT.replace("cg_range_mm = [150, 250]", "cg_range_mm = [10, 20]")


def test_status_follows_the_verdict(tmp_path: Path) -> None:
    """0 without a no-go, 1 with one, and 0 again where the builder's range allows it."""
    assert ran("check", laid_out(tmp_path / "good"))[0] == 0
    status, out, _ = ran("check", laid_out(tmp_path / "bad", NO_GO))
    assert status == 1
    assert "■" in out
    assert "no-go" in out


def test_json_and_page_say_the_same(tmp_path: Path) -> None:
    """Every finding and stage of the JSON stands on the page, in the same order."""
    folder = laid_out(tmp_path / "jet", NO_GO)
    form = json.loads(ran("check", folder, "--json")[1])
    page = ran("check", folder)[1]
    places = [page.find(one["code"]) for one in form["findings"]]
    assert -1 not in places
    assert set(form["stages"]) >= {"fit", "balance", "power", "flight"}
    assert all(name in page for name in form["stages"])
    order = ["no-go", "measure", "caution", "note"]
    ranks = [order.index(one["severity"]) for one in form["findings"]]
    assert ranks == sorted(ranks)


def test_a_second_check_is_remembered_and_the_same(tmp_path: Path) -> None:
    """An unchanged folder is shown from memory, byte for byte the same, with no engine imported."""
    folder = laid_out(tmp_path / "jet", NO_GO)
    first = ran("check", folder)
    assert list((folder / ".hardstand" / "remembered").glob("*.json"))
    code = (
        f"import sys; from hardstand.cli import run; status = run(['check', {str(folder)!r}]); "
        "sys.exit(9 if {'numpy', 'pydantic', 'scipy'} & set(sys.modules) else status)"
    )
    second = subprocess.run(
        [sys.executable, "-X", "utf8", "-c", code], capture_output=True, check=False
    )
    assert second.returncode == first[0] == 1
    assert second.stdout.decode() == first[1]
    assert ran("check", folder, "--anew") == first


def test_an_edit_is_seen(tmp_path: Path) -> None:
    """A changed file is assessed again."""
    folder = laid_out(tmp_path / "jet")
    assert ran("check", folder)[0] == 0
    laid_out(folder, NO_GO)
    assert ran("check", folder)[0] == 1


def test_an_outside_edit_becomes_a_revision(tmp_path: Path) -> None:
    """What another program wrote is in the history once it was checked, and can be taken back."""
    folder = laid_out(tmp_path / "jet")
    ran("check", folder)
    laid_out(folder, NO_GO)
    ran("check", folder)
    revisions = json.loads(ran("history", folder, "--json")[1])["revisions"]
    assert [one["name"] for one in revisions] == ["r1", "r2"]
    ran("undo", folder)
    assert (folder / "aeroplane.toml").read_text(encoding="utf-8") == TEXT


def test_anew_leaves_nothing_behind(tmp_path: Path) -> None:
    """`--anew` neither remembers nor records."""
    folder = laid_out(tmp_path / "jet")
    assert ran("check", folder, "--anew")[0] == 0
    assert not list(folder.rglob("*.json"))
    assert json.loads(ran("history", folder, "--json")[1])["revisions"] == []


def test_an_option_is_laid_over(tmp_path: Path) -> None:
    """`--option` is named on the page and in the JSON; an unknown one is a located problem."""
    folder = laid_out(tmp_path / "jet")
    assert "with the option aft" in ran("check", folder, "--option", "aft")[1]
    assert json.loads(ran("check", folder, "--option", "aft", "--json")[1])["options"] == ["aft"]
    status, _, err = ran("check", folder, "--option", "atf")
    assert status == 2
    assert "aft" in err


def test_damaged_memory_is_passed_over(tmp_path: Path) -> None:
    """Whatever stands in the remembered files, the check says the truth."""
    folder = laid_out(tmp_path / "jet", NO_GO)
    first = ran("check", folder)
    for content in ("", "{", "[]", '{"form": {}}', '{"sha256": "x", "form": {"findings": []}}'):
        for one in (folder / ".hardstand" / "remembered").glob("*.json"):
            one.write_text(content)
        assert ran("check", folder) == first


def test_what_an_option_leaves_behind_is_named(tmp_path: Path) -> None:
    """A measurement of an item that the option takes out: on the page with its reason, and in the JSON."""
    out = TEXT + '\n[[option]]\nid = "bare"\nremove = ["item.rx"]\n'
    folder = laid_out(tmp_path / "jet", out)
    assert ran("measure", "item.rx.mass_g", "19", folder)[0] == 0
    status, page, _ = ran("check", folder, "--option", "bare")
    assert status == 0
    assert "measurement rx-mass of item.rx.mass_g (there is no item rx)" in " ".join(page.split())
    (row,) = json.loads(ran("check", folder, "--option", "bare", "--json")[1])["set_aside"]
    assert (row["table"], row["id"]) == ("measurement", "rx-mass")
    assert "Set aside" not in ran("check", folder)[1]
