"""Former ids that cannot be: of no kind of row, or given to another row since."""

from __future__ import annotations

from collections.abc import Iterator

from hardstand.description.model import ROWS
from hardstand.description.problems import Problem, cut, listed, nearest
from hardstand.description.raw import Raw

NOT_RENAMED = ("limit", "port", "alias")  # the program's ids, a part's own, and no row's
RENAMED = tuple(kind for kind in ROWS if kind not in NOT_RENAMED)


def former_problems(raw: Raw) -> Iterator[Problem]:
    """Every alias of no kind, and every one whose id a row has again: since no record would be sure."""
    ids = raw.ids()
    for index, row in enumerate(raw.rows.get("alias", [])):
        former = row.get("id")
        kind, point, old = former.partition(".") if isinstance(former, str) else ("", "", "")
        if not point:
            continue  # told of by its model
        if kind not in RENAMED:
            near = nearest(kind, RENAMED)
            told = (f"there is no kind of row {cut(kind).strip(chr(34))}",
                    f"one of {listed(RENAMED, 40)}", f"did you mean {near}?" if near else "")
        elif old in ids[kind]:
            words = kind.replace("_", "-")
            what = f"the {words} {row.get('now')} was called {old} before and keeps what was recorded so"
            told = (what, "an id that no row has", f"give the {words} {old} another id")
        else:
            continue
        file, line = raw.line("alias", index, "id")
        yield Problem(file, line, f"alias {cut(former).strip(chr(34))}", told[0], cut(former),
                      told[1], told[2], f"alias.{former}.id")
