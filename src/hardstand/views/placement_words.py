"""What a placement says in sentences: how it ended, what it saves, what stops it."""

from __future__ import annotations

from collections.abc import Mapping
from typing import Any

Form = Mapping[str, Any]


def ending_words(form: Form) -> str:
    """How the search ended, with bound and gap.

    >>> ending_words({"ending": "proven", "layouts": [{"cost_mm": 4.0, "gap_mm": 0.0}]})
    'This layout is the best there is on whole millimetres: proven.'
    """
    if not form["layouts"]:
        if form["refused"]:
            return ("No layout that was found passes the checks in three dimensions, so none is "
                    "given. The last one brings:")
        return "No layout was found with this work, and none was excluded: allow more (--work)."
    best = form["layouts"][0]
    if form["ending"] == "proven" and best["gap_mm"] < 1e-6:
        return "This layout is the best there is on whole millimetres: proven."
    cut = {"cancelled": "The search was cut off: this is the best so far. "}.get(form["ending"], "")
    if not form["bound_mm"]:
        return f"{cut}How much better a layout could be is not known yet: allow more work (--work)."
    return (
        f"{cut}No layout costs less than {form['bound_mm']:.0f} mm: proven. The best found costs "
        f"{best['cost_mm']:.0f} mm, {best['gap_mm']:.0f} mm or {best['gap_pct']:.1f} % more."
    )


def saved_words(form: Form, layout: Form) -> str:
    """What a layout saves beside the present one, and what it costs more."""
    whole = form["start"]["cost_mm"] - layout["cost_mm"]
    less, more = list[str](), list[str]()
    for was, now in zip(form["start"]["cost"], layout["cost"], strict=True):
        by = was["value"] - now["value"]
        digits = 1 if was["what"].startswith("cg-") else 0
        if round(abs(by), digits):
            words = f"{was['words']} {abs(by):.{digits}f} {was['unit']}"
            (less if by > 0 else more).append(words)
    said = f"It is worth {whole:.0f} mm of thin lead" if whole >= 0.5 else "It saves nothing"
    said = f"On the whole it costs {-whole:.0f} mm of thin lead more" if whole <= -0.5 else said
    said += f". Less: {'; '.join(less)}" if less else ""
    said += f". More: {'; '.join(more)}" if more else ""
    return f"{said}.{_cg_words(form, layout)}{_start_words(form)}"


def _cg_words(form: Form, layout: Form) -> str:
    was, now, target = form["start"]["cg_aft_mm"], layout["cg_aft_mm"], form["target"]
    if was is None or now is None or target is None:
        return ""
    inside = target["low_mm"] <= now <= target["high_mm"]
    wish = f"{target['low_mm']:g} to {target['high_mm']:g} mm"
    end = (f"within {wish}, so no ballast is needed for it" if inside
           else f"and {wish} is wished for: the rest takes other packs or ballast")
    return f" In state {target['state']} the CG comes from {was:.1f} to {now:.1f} mm, {end}."


def _start_words(form: Form) -> str:
    if form["start"]["legal"]:
        return ""
    return " As it is now it does not keep every distance, or not on whole millimetres."




def stop_words(one: Form) -> str:
    """What stops one item.

    >>> stop_words({"item": "hub", "way": "aft", "saves_mm_per_mm": 3.25,
    ...             "by": [{"what": "collision", "about": ["pump"]}, {"what": "place", "about": ["t"]}]})
    'hub 1 mm further aft would save 3.2 mm: pump is in the way, and it would leave its range'
    """
    said = {
        "outside": "it would leave {}", "headroom": "it would be too high on {}",
        "place": "it would leave its range", "collision": "{} is in the way",
        "keep-out": "{} is in the way",
    }  # fmt: skip
    ways = [said[fault["what"]].format(" and ".join(fault["about"])) for fault in one["by"]]
    saves = one["saves_mm_per_mm"]
    return f"{one['item']} 1 mm further {one['way']} would save {saves:.1f} mm: {', and '.join(ways)}"


def turn_words(turn_deg: float, was_deg: float) -> str:
    """A turn, marked where it changes.

    >>> turn_words(90.0, 0.0), turn_words(0.0, 360.0)
    ('90° (turned)', '0°')
    """
    changed = " (turned)" if turn_deg % 360.0 != was_deg % 360.0 else ""
    return f"{turn_deg % 360.0:g}°{changed}"
