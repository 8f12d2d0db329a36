"""Numbers as a person reads them, from the plain data that every view works on."""

from __future__ import annotations

from collections.abc import Mapping
from typing import Any

from hardstand.standards.units import UNITS, System, show


def shown(value: float, unit: str, u: float | None = None, system: System = "metric") -> str:
    """A value with its unit; one whose unit is no suffix of the table keeps its own word.

    >>> shown(249.7, "mm", 1.5), shown(0.05, ""), shown(802.0, "kg_m3")
    ('250 ± 3 mm', '0.05', '802 kg/m³')
    """
    if unit in UNITS:
        return show(value, unit, u, system)
    after = f" ± {2.0 * u:.2g}" if u else ""
    words = {"kg_m3": " kg/m³"}.get(unit, f" {unit.replace('_', '/')}" if unit else "")
    return f"{value:.6g}{after}{words}".replace("-", "−")


def figure_shown(figure: Mapping[str, Any], system: System = "metric") -> str:
    """A figure in its JSON form with ± where it has an uncertainty.

    >>> figure_shown({"value": 249.7, "unit": "mm", "u": 1.5})
    '250 ± 3 mm'
    """
    return shown(figure["value"], figure["unit"], figure.get("u") or None, system)


def limit_shown(limit: Mapping[str, Any], system: System = "metric") -> str:
    """A limit in its JSON form, in words.

    >>> limit_shown({"low": 243.0, "high": 260.0, "unit": "mm"})
    'range 243.0 mm to 260.0 mm'
    >>> limit_shown({"low": 3.0, "high": None, "unit": "mm"})
    'at least 3.0 mm'
    """
    low, high, unit = limit["low"], limit["high"], limit["unit"]
    if low is not None and high is not None:
        return f"range {shown(low, unit, None, system)} to {shown(high, unit, None, system)}"
    if low is not None:
        return f"at least {shown(low, unit, None, system)}"
    return f"at most {shown(high, unit, None, system)}" if high is not None else "no bound"


def limit_said(limit: Mapping[str, Any], system: System = "metric") -> str:
    """A limit as it follows its figure on a drawing.

    >>> limit_said({"low": 3.0, "high": None, "unit": "mm"})
    'needs 3.0 mm'
    >>> limit_said({"low": None, "high": 3.0, "unit": "deg"})
    'limit 3.0°'
    """
    low, high, unit = limit["low"], limit["high"], limit["unit"]
    if low is not None and high is not None:
        return limit_shown(limit, system)
    if low is not None:
        return f"needs {shown(low, unit, None, system)}"
    return f"limit {shown(high, unit, None, system)}" if high is not None else ""


def value_in_file(value: Any) -> str:
    """A value as it would be written in the file.

    >>> value_in_file([1045.0, "a", True]), value_in_file(None)
    ('[1045, "a", true]', '(absent)')
    """
    if value is None:
        return "(absent)"
    if isinstance(value, bool):
        return "true" if value else "false"
    if isinstance(value, str):
        return f'"{value}"'
    if isinstance(value, list | tuple):
        return f"[{', '.join(value_in_file(one) for one in value)}]"
    if isinstance(value, Mapping):
        return f"{{{', '.join(f'{key} = {value_in_file(one)}' for key, one in value.items())}}}"
    return f"{value:g}" if isinstance(value, float) and abs(value) < 1e6 else str(value)
