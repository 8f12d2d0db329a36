"""Numbers as a builder types them, with or without a unit, and dates."""

from __future__ import annotations

from datetime import datetime
from math import isfinite
from typing import Any

from hardstand.cli.refusal import Refusal


def quantity(text: str | None, unit: str, what: str) -> Any:
    """A number in `unit`, a suffix of the table of units; None where nothing was given.

    `what` names it in the refusal. Whole numbers stay whole.

    >>> quantity("5", "g", "--resolution"), quantity("2 in", "mm", "--stand"), quantity(None, "g", "")
    (5, 50.8, None)
    """
    from hardstand.asbuilt.measuring import MeasureError, in_unit

    if text is None:
        return None
    number = number_from(text)
    if isinstance(number, float) and not isfinite(number):
        raise Refusal(f"{what}: {text} is no number that can be measured.")
    if isinstance(number, list):
        raise Refusal(f"{what} takes one number, and {text} is a list.")
    try:
        return in_unit(number, f"value_{unit}")
    except MeasureError as error:
        raise Refusal(f"{what}: {error}", error.hint if "value_" not in error.hint else "") from None


def number_from(text: str) -> Any:
    """A number or a list as it is typed; what is neither stays text.

    >>> number_from("90"), number_from("1.5"), number_from("[1, 2]"), number_from("14.5 oz")
    (90, 1.5, [1, 2], '14.5 oz')
    """
    from hardstand.cli.edit import value_from

    found = value_from(text)
    return found if isinstance(found, int | float | list) and not isinstance(found, bool) else text


def day(text: str | None) -> str:
    """A day as it was typed, year first; today where nothing was given.

    >>> day("2026-4-18")
    '2026-04-18'
    """
    now = datetime.now().astimezone()
    if text is None:
        return now.date().isoformat()
    try:
        return datetime.strptime(text, "%Y-%m-%d").replace(tzinfo=now.tzinfo).date().isoformat()
    except ValueError:
        raise Refusal(f"{text} is no day.", "Write it as year, month, day: 2026-04-18.") from None
