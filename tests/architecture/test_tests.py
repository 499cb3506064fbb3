"""What a test has to be: a sentence that can turn out wrong."""

from __future__ import annotations

import ast
from collections.abc import Iterator
from pathlib import Path

CHECKING = ("check", "expect", "assert_", "raises", "warns", "fail")
"""Beginnings of the names of functions that assert."""
WORDS_OF_A_SENTENCE = 4

Function = ast.FunctionDef | ast.AsyncFunctionDef


def test_every_test_can_fail(trees: dict[Path, ast.Module]) -> None:
    """Every test asserts something, itself or through a helper named for it."""
    idle = [where for where, test in every_test(trees) if not asserts(test)]
    assert idle == []


def test_every_test_says_a_sentence(trees: dict[Path, ast.Module]) -> None:
    """Every test says what must be true, in its docstring or in its name."""
    silent = [
        where
        for where, test in every_test(trees)
        if not ast.get_docstring(test) and test.name.count("_") < WORDS_OF_A_SENTENCE
    ]
    assert silent == []


def every_test(trees: dict[Path, ast.Module]) -> Iterator[tuple[str, Function]]:
    """Every test function with the place where it stands."""
    for path, tree in trees.items():
        if path.parts[0] == "tests" and path.name.startswith("test_"):
            for node in ast.walk(tree):
                if isinstance(node, Function) and node.name.startswith("test_"):
                    yield f"{path}:{node.name}", node


def asserts(test: Function) -> bool:
    """Whether something in the test can fail it."""
    for node in ast.walk(test):
        if isinstance(node, ast.Assert):
            return True
        if isinstance(node, ast.Call):
            called = node.func.attr if isinstance(node.func, ast.Attribute) else node.func
            name = called if isinstance(called, str) else getattr(called, "id", "")
            if name.startswith(CHECKING):
                return True
    return False
