"""The smallest class of connector that carries a lead's lasting current and has poles for its wires."""

from __future__ import annotations

from hardstand.standards.contacts import CONTACTS


def smallest_class(current_a: float, conductors: int) -> str:
    """The class with the fewest poles, then the least current, that does; empty where none does.

    Assumptions and validity: plus and minus share what poles the other wires leave, as many each; a
    class without a stated number of poles is not proposed.

    >>> smallest_class(2.5, 3), smallest_class(7.0, 3), smallest_class(18.0, 2)
    ('3-pin 2.54 mm', '6-pole, locked', '2-pole, 30 A class')

    Source: `standards.contacts`, values from memory.
    """
    fitting = [
        (one.poles, one.current_a, one.name)
        for one in CONTACTS.values()
        if one.poles and one.poles >= conductors
        and one.current_a * ((one.poles - max(conductors - 2, 0)) // 2) >= current_a
    ]  # fmt: skip
    return min(fitting)[2] if fitting else ""
