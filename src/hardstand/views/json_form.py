"""The JSON forms, stable and documented in docs/json.md. A view is composed from these alone."""

from __future__ import annotations

from collections.abc import Sequence
from typing import TYPE_CHECKING, Any

from hardstand.views.notice import NOTICE, counts

if TYPE_CHECKING:
    from hardstand.assessment import Assessment


def assessment_form(assessment: Assessment, options: Sequence[str]) -> dict[str, Any]:
    """What `check --json` prints: findings worst first, stages, counts, options, the notice."""
    form = assessment.as_json()
    return {**form, "options": list(options), "counts": counts(form), "notice": NOTICE}
