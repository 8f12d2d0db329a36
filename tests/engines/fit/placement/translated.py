"""Translations to test on: of a text, and of the demo's."""

from __future__ import annotations

from hardstand.asbuilt import AsBuilt, build
from hardstand.assessment import Assessment, Memory, assess
from hardstand.description.read import read_texts
from hardstand.engines.fit.placement import Translation, freedoms, translate
from hardstand.stages import stages

MEMORY = Memory()


def assessed(texts: dict[str, str]) -> tuple[AsBuilt, Assessment]:
    """An aeroplane and every stage's results."""
    asbuilt = build(read_texts(texts, ()).description)
    return asbuilt, assess(asbuilt, stages(), MEMORY)


def translated(texts: dict[str, str]) -> Translation:
    """An aeroplane with all that may move as a layout problem."""
    asbuilt, assessment = assessed(texts)
    results = assessment.results
    free = freedoms(asbuilt)[0]
    return translate(asbuilt, results["fit.solids"], results.get("balance.headline"), free)
