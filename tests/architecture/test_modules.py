"""What a module may be: short, pure where it has to be, and plain about its units."""

from __future__ import annotations

import ast
import re
import sys
from collections.abc import Iterator
from pathlib import Path

OURS = ("bot", "conversations", "sizing", "deploy")
MODULE_LINES = 400
FUNCTION_LINES = 60

Function = ast.FunctionDef | ast.AsyncFunctionDef


def functions(tree: ast.AST) -> Iterator[Function]:
    """Every function and method, however deep."""
    return (node for node in ast.walk(tree) if isinstance(node, Function))


def test_modules_are_short(trees: dict[Path, ast.Module], root: Path) -> None:
    """No module is longer than what can be held in mind."""
    lines = {
        str(path): (root / path).read_text(encoding="utf-8").count("\n")
        for path in trees
        if path.parts[0] in OURS
    }
    assert {path: count for path, count in lines.items() if count > MODULE_LINES} == {}


def test_functions_are_short(trees: dict[Path, ast.Module]) -> None:
    """No function is longer than a screen."""
    long = {}
    for path, tree in trees.items():
        for function in functions(tree) if path.parts[0] in OURS else ():
            lines = (function.end_lineno or function.lineno) - function.lineno + 1
            if lines > FUNCTION_LINES:
                long[f"{path}:{function.name}"] = lines
    assert long == {}


def test_sizing_needs_nothing_but_python(trees: dict[Path, ast.Module]) -> None:
    """`sizing` imports itself and the standard library; it starts at once and runs anywhere."""
    allowed = {"sizing", *sys.stdlib_module_names}
    outside = [
        f"{path}: {name}"
        for path, tree in trees.items()
        if path.parts[0] == "sizing"
        for name in imported(tree)
        if name.partition(".")[0] not in allowed
    ]
    assert outside == []


def imported(tree: ast.Module) -> Iterator[str]:
    """The names of the modules a file imports."""
    for node in ast.walk(tree):
        if isinstance(node, ast.Import):
            yield from (alias.name for alias in node.names)
        elif isinstance(node, ast.ImportFrom) and node.module:
            yield node.module


def test_public_functions_of_sizing_say_their_unit(trees: dict[Path, ast.Module]) -> None:
    """What takes or gives a length says `[mm]`, what takes or gives another number its unit."""
    silent = []
    for path, tree in trees.items():
        if path.parts[0] != "sizing":
            continue
        for function in (node for node in tree.body if isinstance(node, Function)):
            arguments = function.args
            every = [*arguments.posonlyargs, *arguments.args, *arguments.kwonlyargs]
            types = [node.annotation for node in every] + [function.returns]
            said = " ".join(ast.unparse(type_) for type_ in types if type_)
            says = re.findall(r"\[[^\]]+\]", ast.get_docstring(function) or "")
            lengths = re.search(r"\bMm\b", said) and not any(
                re.search(r"\bmm\b", one) for one in says
            )
            numbers = re.search(r"\b(?:Fraction|float)\b", said) and not says
            if (lengths or numbers) and not function.name.startswith("_"):
                silent.append(f"{path}: {function.name}")
    assert silent == []
