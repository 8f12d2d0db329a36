"""The stages that this program can assess, in the order of the sheets."""

from __future__ import annotations

from importlib import import_module
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from hardstand.engines.node import Stage
    from hardstand.findings import Rule

ENGINES = ("fit", "balance", "power", "harness", "fuel")


def stages() -> tuple[Stage, ...]:
    """Every stage with its nodes and rules; the engines are imported here and not before.

    >>> [stage.name for stage in stages()]
    ['fit', 'balance', 'power', 'harness', 'fuel']
    """
    return tuple(import_module(f"hardstand.engines.{name}.stage").STAGE for name in ENGINES)


def rules() -> dict[str, Rule]:
    """Every rule by its code, in the order of the codes.

    >>> all(code == rule.code for code, rule in rules().items())
    True
    """
    found = {rule.code: rule for stage in stages() for rule in stage.rules}
    return dict(sorted(found.items()))
