"""The house rules that no linter knows: small rooms, and a sentence on everything that is shown."""

from __future__ import annotations

import ast
import statistics
from collections.abc import Iterator
from pathlib import Path

import pytest

ROOT = Path(__file__).resolve().parent.parent
SOURCES = sorted((ROOT / "src" / "hardstand").rglob("*.py"))
TESTS = sorted((ROOT / "tests").rglob("test_*.py"))
LONGEST_FUNCTION_LINES = 60
LONGEST_MEDIAN_MODULE_LINES = 120

Function = ast.FunctionDef | ast.AsyncFunctionDef


def named(path: Path) -> str:
    """Path as a person names it, from the top of the checkout."""
    return path.relative_to(ROOT).as_posix()


def tree(path: Path) -> ast.Module:
    """The module's syntax tree."""
    return ast.parse(path.read_text(encoding="utf-8"), str(path))


def functions(path: Path) -> Iterator[Function]:
    """Every function and method of a module, inner ones too."""
    return (node for node in ast.walk(tree(path)) if isinstance(node, Function))


def public(module: ast.Module | ast.ClassDef) -> Iterator[Function | ast.ClassDef]:
    """Functions, classes and methods that another module may use: none begins with an underscore."""
    for node in module.body:
        if isinstance(node, Function | ast.ClassDef) and not node.name.startswith("_"):
            yield node
            if isinstance(node, ast.ClassDef):
                yield from public(node)


def test_a_module_is_a_small_room() -> None:
    """Half of the modules are shorter than 120 lines."""
    lines = [len(path.read_text(encoding="utf-8").splitlines()) for path in SOURCES]
    assert statistics.median(lines) < LONGEST_MEDIAN_MODULE_LINES


@pytest.mark.parametrize("path", [*SOURCES, ROOT / "go.py"], ids=named)
def test_a_function_fits_on_a_page(path: Path) -> None:
    """No function is longer than sixty lines without its docstring."""
    long = {}
    for function in functions(path):
        first = function.body[1] if ast.get_docstring(function) and function.body[1:] else function
        lines = (function.end_lineno or 0) - first.lineno + 1
        if lines >= LONGEST_FUNCTION_LINES:
            long[function.name] = lines
    assert not long


@pytest.mark.parametrize("path", [*SOURCES, ROOT / "go.py"], ids=named)
def test_what_is_public_is_explained(path: Path) -> None:
    """Each module, and each public function, class and method in it, has a docstring."""
    module = tree(path)
    assert ast.get_docstring(module), "the module has no docstring"
    assert [node.name for node in public(module) if not ast.get_docstring(node)] == []


@pytest.mark.parametrize("path", TESTS, ids=named)
def test_a_test_says_what_holds(path: Path) -> None:
    """Each test has a docstring that begins with a sentence; sources may follow in a paragraph."""
    without = []
    for function in functions(path):
        if function.name.startswith("test_"):
            first = (ast.get_docstring(function) or "").split("\n\n")[0]
            if not first.endswith((".", ".)")):
                without.append(function.name)
    assert without == []


def test_a_file_of_tests_tests_something() -> None:
    """Each file of tests holds at least one test."""
    empty = [
        named(path)
        for path in TESTS
        if not any(function.name.startswith("test_") for function in functions(path))
    ]
    assert empty == []
