"""One finding: mark and severity word, code and subjects, the sentence, the way out."""

from __future__ import annotations

from collections.abc import Mapping
from typing import Any

from hardstand.standards.units import System
from hardstand.views.flow import flow
from hardstand.views.in_other_units import in_units
from hardstand.views.ink import Ink, Line, Span, indented, line, printable
from hardstand.views.words import sentence

# Shape and word carry the severity; weight follows them. A solid square, a bar pointed at both
# ends like a dimension, a triangle, a thin circle: as on the sheets.
MARKS: dict[str, str] = {"no-go": "■", "measure": "↔", "caution": "▲", "note": "○"}
INKS: dict[str, Ink] = {
    "no-go": "reversed", "measure": "strong", "caution": "strong", "note": "plain",
}
_WORD_CELLS = 7
TEXT_AT = 5
_CODE_AT = TEXT_AT + 2 + _WORD_CELLS + 2


def severity(word: str) -> tuple[Span, Span]:
    """Mark and word of a severity in seven cells, the word reversed for a no-go.

    >>> severity("measure"), severity("no-go")
    ((('↔ ', 'strong'), ('measure', 'strong')), (('■ ', 'strong'), (' no-go ', 'reversed')))
    """
    ink = INKS.get(word, "plain")
    mark: Ink = "strong" if ink == "reversed" else ink
    label = f" {word} " if ink == "reversed" else word
    return (f"{MARKS.get(word, '?')} ", mark), (f"{label:<{_WORD_CELLS}}", ink)


def finding_lines(finding: Mapping[str, Any], number: int, measure: int,
                  system: System = "metric") -> list[Line]:
    """A finding in its JSON form, set under its number.

    >>> from hardstand.views.ink import text_of
    >>> found = {"code": "fit.box-gap", "severity": "caution", "about": ["hub", "rx"],
    ...          "text": "The boxes are 1.2 mm apart.", "remedy": None, "accepted": None}
    >>> for one in finding_lines(found, 3, 60): print(text_of(one))
      3  ▲ caution  fit.box-gap  hub, rx
         The boxes are 1.2 mm apart.
    """
    mark, word = severity(finding["severity"])
    subjects = printable(", ".join(finding["about"]))
    first, *more = flow(line((f"{finding['code']}\u00a0", "strong"), " ", subjects),
                        measure - _CODE_AT)
    head = [line(f"{number:>{TEXT_AT - 2}}  ", mark, word, "  ", *first), *indented(more, _CODE_AT)]
    body = flow(in_units(finding["text"], system), measure - TEXT_AT)
    if finding.get("accepted"):
        body += flow(line(("Accepted: ", "quiet"), finding["accepted"]), measure - TEXT_AT, hang=2)
    if finding.get("remedy"):
        body += _remedy(finding["remedy"], measure - TEXT_AT, system)
    return [*head, *indented(body, TEXT_AT)]


def _remedy(remedy: Mapping[str, Any], measure: int, system: System) -> list[Line]:
    """The way out, and what it costs elsewhere."""
    made = flow(line(("Remedy: ", "quiet"), in_units(sentence(remedy["text"]), system)), measure, hang=2)
    if remedy["effects"]:
        effects = sentence(in_units("; ".join(remedy["effects"]), system))
        made += flow(line(("With it: ", "quiet"), effects), measure, hang=2)
    return made
