"""Contacts by generic class: what one pair of contacts resists, and what it carries all the time."""

from __future__ import annotations

from dataclasses import dataclass

MEMORY = "value from memory"
# FAA AC 43.13-1B, paragraphs 11-188 and 11-189: what a sound bond has at most; seen.
BOND_MOST_MOHM = 3.0


@dataclass(frozen=True, slots=True)
class Contact:
    """A class of connector: `resistance_mohm` of one mated contact, `current_a` all the time, `most_mohm` when worn.

    A plus and a minus contact are two in series: see `loop_mohm`. `poles` is None where they differ.
    """

    name: str
    resistance_mohm: float
    most_mohm: float
    current_a: float
    poles: int | None = None
    source: str = MEMORY


CONTACTS = {
    one.name: one
    for one in (
        Contact("3-pin 2.54 mm", 6.0, 20.0, 3.0, 3),
        Contact("2-pole, small", 6.0, 20.0, 3.0, 2),
        Contact("2-pole", 2.0, 6.0, 10.0, 2),
        Contact("2-pole, 30 A class", 0.8, 2.5, 30.0, 2),
        Contact("2-pole, 60 A class", 0.6, 2.0, 60.0, 2),
        Contact("2-pole, 90 A class", 0.4, 1.5, 90.0, 2),
        Contact("4-pole, locked", 3.0, 10.0, 5.0, 4),
        Contact("6-pole, locked", 2.0, 6.0, 8.0, 6),
        Contact("12-pole, locked", 5.0, 15.0, 3.0, 12),
        Contact("multi-pole", 6.0, 20.0, 2.0),
        Contact("ribbon", 20.0, 60.0, 1.0),
    )
}


def loop_mohm(connector: str, worn: bool = False, parallel: int = 1) -> float:
    """Resistance in milliohms that a mated connector adds to a loop: a plus and a minus contact.

    Assumptions and validity: clean, fully mated; `worn` takes the highest value that is still sound;
    `parallel`, how many contacts share each pole.

    Raises KeyError for a class that is not known.

    >>> loop_mohm("2-pole, 60 A class"), loop_mohm("6-pole, locked", parallel=2)
    (1.2, 2.0)

    Source: values from memory; a sound contact is a few milliohms at most, FAA AC 43.13-1B,
    paragraph 11-189.
    """
    contact = CONTACTS[connector]
    return 2.0 * (contact.most_mohm if worn else contact.resistance_mohm) / parallel
