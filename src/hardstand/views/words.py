"""Words as sentences."""

from __future__ import annotations


def sentence(words: str) -> str:
    """Words as a sentence: a capital first and a full stop last; names in figures stay as they are.

    >>> sentence("there is no tray frnt"), sentence("turn_deg is missing")
    ('There is no tray frnt.', 'turn_deg is missing.')
    """
    first = words.split(" ", 1)[0]
    plain_word = first.isalpha() and first.islower()
    text = words[:1].upper() + words[1:] if plain_word else words
    return text if text.endswith((".", "?", "!", "…")) else f"{text}."
