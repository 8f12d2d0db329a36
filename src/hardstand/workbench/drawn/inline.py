"""A drawing inside a page: without styles of its own, and with its things in reach of the keyboard."""

from __future__ import annotations

from collections.abc import Collection
from xml.etree import ElementTree as ET

from markupsafe import Markup

from hardstand.views.drawing.svg import Sheet, element

_SIZE = "font-size:"


def inline(sheet: Sheet, prefix: str, handles: Collection[str] = (), part: str = "plan") -> Markup:
    """The drawing as markup for a page that has the style sheets.

    The page's policy allows no style in the markup, so heights of lettering become classes. `handles`
    are the addresses of things that can be taken by keyboard: their group in the view `part` becomes
    a button.
    """
    root = element(sheet, prefix)
    root.set("role", "group")
    root.set("class", f"{root.get('class', '')} {prefix}")
    for name in ("width", "height"):
        root.attrib.pop(name)
    for one in root.iter():
        style = one.attrib.pop("style", "")
        if style.startswith(_SIZE):
            size = style.removeprefix(_SIZE).removesuffix("px").replace(".", "-")
            one.set("class", f"{one.get('class', '')} f-{size}".strip())
        if one.get("data-part") == part and one.get("data-about") in handles:
            one.set("role", "button")
            one.set("tabindex", "0")
    # it is our own element tree, escaped as it is written
    return Markup(ET.tostring(root, encoding="unicode", short_empty_elements=True))  # noqa: S704
