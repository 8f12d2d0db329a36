"""One stage as plain data: how far it got, its findings, its figures, and its own tables."""

from __future__ import annotations

from typing import TYPE_CHECKING, Any

from hardstand.views.balance_form import balance_form
from hardstand.views.fit_form import fit_form
from hardstand.views.harness_form import harness_form
from hardstand.views.power_form import power_form

if TYPE_CHECKING:
    from collections.abc import Callable

    from hardstand.asbuilt import AsBuilt
    from hardstand.assessment import Assessment

TABLES: dict[str, Callable[[Assessment, AsBuilt], dict[str, Any]]] = {
    "balance": balance_form, "fit": fit_form, "harness": harness_form,
    "power": power_form,
}


def stage_form(assessment: Assessment, asbuilt: AsBuilt, stage: str) -> dict[str, Any]:
    """What `show STAGE --json` prints. A stage that is not assessed has neither figures nor tables.

    `numbers` of the findings are those of `check`, so that `apply NUMBER` means the same.
    """
    state = next(one for one in assessment.stages if one.name == stage)
    findings = [{"number": number, **one.as_json()}
                for number, one in enumerate(assessment.findings, 1) if one.stage == stage]
    form: dict[str, Any] = {"format": 1, "aeroplane": assessment.name, "stage": stage,
                            **state.as_json(), "findings": findings, "figures": []}
    if state.standing == "not assessed":
        return form
    form["figures"] = [assessment.figure(one).as_json() for one in assessment.addresses()
                       if one.startswith(f"{stage}.")]
    if stage in TABLES:
        form[stage] = TABLES[stage](assessment, asbuilt)
    return form
