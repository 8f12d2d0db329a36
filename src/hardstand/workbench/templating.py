"""Templates: found in this package, escaped by default, and with nothing undefined in them."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from functools import cache
from typing import Any
from urllib.parse import quote

from jinja2 import Environment, PackageLoader, StrictUndefined

from hardstand.standards.units import System
from hardstand.views.in_other_units import in_units
from hardstand.views.number import figure_shown, limit_said, shown, value_in_file
from hardstand.views.words import sentence
from hardstand.workbench.long.value import elapsed
from hardstand.workbench.static_files import stamped

OUTSIDE = ("unreadable.html", "missing.html", "text.html")  # pages that need no readable aeroplane


@cache
def environment() -> Environment:
    """The one environment, with the words that templates use."""
    made = Environment(
        loader=PackageLoader("hardstand.workbench", "templates"), autoescape=True,
        undefined=StrictUndefined, trim_blocks=True, lstrip_blocks=True,
    )  # fmt: skip
    made.filters |= {
        "figure": figure_shown, "limit": limit_said, "in_units": said, "in_file": value_in_file,
        "quantity": quantity, "bare": bare, "about": about, "share": share, "under_way": under_way,
        "address": lambda text: quote(text, safe="@"),
    }  # fmt: skip
    made.globals |= {"stamped": stamped, "sentence": sentence, "elapsed": elapsed}
    return made


def said(text: str, units: System) -> str:
    """An engine's words as a sentence, with figures in the preferred units.

    >>> said("the gap is 1.0 mm", "metric")
    'The gap is 1.0 mm.'
    """
    return sentence(in_units(text, units))


def quantity(value: float, unit: str, units: System = "metric") -> str:
    """A value with its unit."""
    return shown(value, unit, None, units)


def bare(value: float, unit: str, units: System = "metric") -> str:
    """A value without its unit, for a column whose head has it.

    >>> bare(330.0, "mm"), bare(138.0, "mm", "imperial")
    ('330.0', '5.433')
    """
    return shown(value, unit, None, units).rpartition(" ")[0]


def under_way(words: str) -> str:
    """What long work tells of itself, as a sentence; a bound of nothing is no bound yet.

    >>> under_way("layout of 47400 mm, none under 0 mm")
    'Layout of 47400 mm, no bound yet.'
    """
    return sentence(words.replace(", none under 0 mm", ", no bound yet"))


def share(part: float) -> str:
    """A part of a whole, as a person reads it.

    >>> share(0.553), share(0.002)
    ('55 %', 'under 1 %')
    """
    return "under 1 %" if 0.0 < part < 0.01 else f"{part:.0%}".replace("%", " %")


def about(ids: Sequence[str]) -> str:
    """The ids that a finding is about, as the page's script compares them."""
    return " ".join(ids)


def rendered(template: str, page: Mapping[str, Any]) -> str:
    """A whole page."""
    return environment().get_template(template).render(page)


def parts(template: str, page: Mapping[str, Any], names: Sequence[str]) -> str:
    """Some blocks of a page, each to take its old self's place; those of the frame hold the page's own."""
    found = environment().get_template(template)
    context = found.new_context({**page, "swapped": True})
    frame = environment().get_template("outside.html" if template in OUTSIDE else "base.html")
    for name, block in frame.blocks.items():
        context.blocks.setdefault(name, []).append(block)
    return "\n".join("".join(context.blocks[name][0](context)) for name in names)
