"""The project's own files, read once for all tests of this folder."""

from __future__ import annotations

import ast
from collections.abc import Iterator
from pathlib import Path

import pytest

ROOT = Path(__file__).resolve().parents[2]
NOT_OURS = {"__pycache__", "local"}


def walk(folder: Path) -> Iterator[Path]:
    """Every file of the project below `folder`: no caches, no environment, nothing local."""
    for path in sorted(folder.iterdir()):
        if not path.is_dir():
            yield path.relative_to(ROOT)
        elif path.name not in NOT_OURS and (path.name == ".ci" or path.name[0] != "."):
            yield from walk(path)


@pytest.fixture(scope="session")
def root() -> Path:
    """The folder of the whole project."""
    return ROOT


@pytest.fixture(scope="session")
def files() -> list[Path]:
    """All files, as paths from the root."""
    return list(walk(ROOT))


@pytest.fixture(scope="session")
def trees(files: list[Path]) -> dict[Path, ast.Module]:
    """All Python files, parsed."""
    python = [path for path in files if path.suffix == ".py"]
    return {path: ast.parse((ROOT / path).read_text(encoding="utf-8")) for path in python}
