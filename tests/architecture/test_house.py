"""Where things lie: the root, the folders and their pages, no trace of one machine."""

from __future__ import annotations

import ast
import re
from pathlib import Path

PACKAGES = ("bot", "conversations", "sizing")
IN_ROOT = {"README.md", "DEVELOPERS.md", "pyproject.toml", "tests", "deploy", *PACKAGES}
ONE_SCREEN = 60

Function = ast.FunctionDef | ast.AsyncFunctionDef

# Put together here, so that this file does not name them itself.
REGISTRIES = [".".join(parts) for parts in (
    ("pypi", "org"), ("pythonhosted", "org"), ("npmjs", "org"), ("npmjs", "com"),
    ("debian", "org/debian"), ("crates", "io"),
)]  # fmt: skip
MACHINE_PATH = re.compile(r"(?<![\w.~:/-])/(?:work|home|root|Users)/\w")

WITHOUT_MIRROR = {
    "bot/__main__.py": "one call of the command line, which tests/bot/test_cli.py starts",
}
"""Modules in which something runs but without a test file of their own, each with the reason."""


def test_the_root_holds_nothing_but_the_house(files: list[Path]) -> None:
    """The root has the pages, the packages, tests, deploy and dotfiles, nothing else."""
    first = {path.parts[0] for path in files}
    assert {name for name in first if not name.startswith(".")} == IN_ROOT


def test_every_folder_has_a_page_of_one_screen(files: list[Path], root: Path) -> None:
    """A folder with Python files, and each room of the tests, says what lives in it."""
    # Below tests/bot and the like the folders mirror those that have a page.
    folders = {path.parent for path in files if path.suffix == ".py" and path.parts[0] != "tests"}
    folders |= {Path(*path.parts[:2]) for path in files if path.parts[0] == "tests"}
    folders = {folder for folder in folders if (root / folder).is_dir()}
    pages = {folder: root / folder / "README.md" for folder in folders}
    missing = sorted(str(folder) for folder, page in pages.items() if not page.exists())
    assert missing == []
    lines = {str(folder): page.read_text("utf-8").count("\n") for folder, page in pages.items()}
    assert {folder: count for folder, count in lines.items() if count > ONE_SCREEN} == {}


def test_every_module_has_its_mirror(files: list[Path], trees: dict[Path, ast.Module]) -> None:
    """`sizing/units.py` is tested by `tests/sizing/test_units.py`, and so on for each module."""
    tests = {str(path) for path in files if path.parts[0] == "tests"}
    missing = []
    for path, tree in trees.items():
        if path.parts[0] not in PACKAGES or only_declares(tree):
            continue
        module = path.parent if path.name == "__init__.py" else path
        mirror = str(Path("tests", module.parent, f"test_{module.stem}.py"))
        if mirror not in tests and str(path) not in WITHOUT_MIRROR:
            missing.append(mirror)
    assert missing == []


def only_declares(tree: ast.Module) -> bool:
    """Whether nothing runs in a file: names, types, protocols, errors with their fields."""
    functions = [node for node in ast.walk(tree) if isinstance(node, Function | ast.Lambda)]
    return all(isinstance(node, Function) and declares(node) for node in functions)


def declares(function: Function) -> bool:
    """Whether a function is the `__init__` of an error or has no body but its docstring."""
    says = ast.get_docstring(function) is not None
    return function.name == "__init__" or (says and len(function.body) == 1)


def test_no_file_names_a_registry_or_a_place_on_one_machine(files: list[Path], root: Path) -> None:
    """Pins and pages work anywhere: no host of a package registry, no absolute path."""
    found = []
    for path in files:
        text = (root / path).read_bytes().decode("utf-8", errors="ignore")
        found += [f"{path}: {host}" for host in REGISTRIES if host in text]
        found += [f"{path}: {match[0]}" for match in MACHINE_PATH.finditer(text)]
    assert found == []
