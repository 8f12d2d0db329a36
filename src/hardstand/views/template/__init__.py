"""A tray as a template at its true size: for paper, for a cutter, for another drawing program.

`template` makes the one value (`value.Template`): what is cut, what is engraved, what is only shown,
in the aeroplane's own x and y in millimetres, seen from above. `tiles` spreads it over sheets,
`pages` draws those, `dxf` and `svg` write it for machines. Nothing is judged here: whether leads go
through an opening was found by the fit engine.
"""

from hardstand.views.template.make import template
from hardstand.views.template.value import Template, TemplateError

__all__ = ["Template", "TemplateError", "template"]
