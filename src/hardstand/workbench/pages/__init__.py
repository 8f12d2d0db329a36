"""The pages by their addresses: the template of each, and what makes its content.

A page is made from what is asked (`Asked`) as one frozen value, which its template lays out; nothing
is computed on the way. A stage joins with a line here for a page of its own.
"""

from __future__ import annotations

from collections.abc import Callable, Mapping
from typing import Any

from hardstand.workbench.asked import Asked
from hardstand.workbench.pages.balance import balance
from hardstand.workbench.pages.description import description
from hardstand.workbench.pages.first import first
from hardstand.workbench.pages.history import history
from hardstand.workbench.pages.layouts import layouts
from hardstand.workbench.pages.options import options
from hardstand.workbench.pages.rule import rule
from hardstand.workbench.pages.stage import stage
from hardstand.workbench.pages.text import text
from hardstand.workbench.pages.trace import trace
from hardstand.workbench.pages.trays import trays
from hardstand.workbench.pages.weigh_in import weigh_in

PAGES: Mapping[str, tuple[str, Callable[[Asked], Any]]] = {
    "/": ("first.html", first),
    "/trays": ("trays.html", trays),
    "/layouts": ("layouts.html", layouts),
    "/balance": ("balance.html", balance),
    "/weigh-in": ("weigh_in.html", weigh_in),
    "/options": ("options.html", options),
    "/stage": ("stage.html", stage),
    "/description": ("description.html", description),
    "/text": ("text.html", text),
    "/history": ("history.html", history),
    "/trace": ("trace.html", trace),
    "/rule": ("rule.html", rule),
}
