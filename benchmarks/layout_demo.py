"""The demo aeroplane as the placement problem that `hardstand place` solves."""

from __future__ import annotations

from hardstand.asbuilt import build
from hardstand.assessment import assess
from hardstand.cli.begin import demo_texts
from hardstand.description.read import read_texts
from hardstand.engines.fit.layout.problem import Problem
from hardstand.engines.fit.placement import freedoms, translate
from hardstand.stages import stages


def demo_problem(moment: str = "as-built") -> Problem:
    """Everything on the demo's trays that may move, as the program itself translates it."""
    asbuilt = build(read_texts(demo_texts(moment), ()).description)
    results = assess(asbuilt, stages()).results
    free = freedoms(asbuilt)[0]
    return translate(asbuilt, results["fit.solids"], results["balance.headline"], free).problem
