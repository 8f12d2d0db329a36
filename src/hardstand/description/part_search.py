"""Finding parts by words, and names near a mistyped one."""

from __future__ import annotations

import re
from collections.abc import Iterable
from difflib import get_close_matches

from hardstand.description.parts import Part, PartKind
from hardstand.description.problems import nearest

_WORD = re.compile(r"[a-z0-9]+")
_PIECE = re.compile(r"(\d+)")


def near_names(name: str, known: Iterable[str], most: int = 3) -> tuple[str, ...]:
    """The known names most like a mistyped one, best first; none when nothing is near.

    >>> near_names("reciever-6-chanel", ["receiver-6-channel", "servo-mini-6v"])
    ('receiver-6-channel',)
    """
    return tuple(get_close_matches(name, sorted(known), n=most, cutoff=0.6))


def by_number(part_id: str) -> tuple[tuple[int, str], ...]:
    """A key that sorts ids as a person would, 6 before 12.

    >>> sorted(["receiver-12-channel", "receiver-6-channel"], key=by_number)
    ['receiver-6-channel', 'receiver-12-channel']
    """
    pieces = _PIECE.split(part_id)
    return tuple((int(one), "") if one.isdigit() else (-1, one) for one in pieces)


def _words(part: Part) -> set[str]:
    """The words that a part is found by."""
    return set(_WORD.findall(f"{part.id} {part.name} {part.kind} {part.note}".lower()))


def _fits(wanted: str, words: Iterable[str]) -> bool:
    """Whether a word is there: letters as the beginning of a word, numbers only whole."""
    if wanted.isalpha():
        return any(word.startswith(wanted) for word in words)
    return wanted in words


def search_parts(words: str, parts: Iterable[Part], kind: PartKind | None = None) -> list[Part]:
    """Parts that every word fits, in id, name, kind or note, in the order of their ids.

    Letters fit the beginning of a word ("rec"), numbers only the whole ("12" is not 125). A word
    that fits no part of the kind is taken as a slip for the nearest one that does.

    >>> parts = [Part(id="tank-500", kind="tank", size_mm=(160, 70, 55), mass_g=68)]
    >>> [part.id for part in search_parts("tnk", parts)]
    ['tank-500']
    """
    candidates = {
        part.id: (part, _words(part)) for part in parts if kind is None or part.kind == kind
    }
    vocabulary = set().union(*(found for _, found in candidates.values()))
    wanted = [
        word if _fits(word, vocabulary) else nearest(word, sorted(vocabulary))
        for word in _WORD.findall(words.lower())
    ]
    if "" in wanted:
        return []
    return [
        candidates[part_id][0] for part_id in sorted(candidates, key=by_number)
        if all(_fits(word, candidates[part_id][1]) for word in wanted)
    ]
