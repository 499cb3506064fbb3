"""A project small enough to set up in no time."""

from __future__ import annotations

import shutil
from pathlib import Path

import pytest

DEPLOY = Path(__file__).resolve().parents[2] / "deploy"
STAND_IN = """#!/bin/sh
printf '%s\\n' "$*"
exit 7
"""


@pytest.fixture
def small(tmp_path: Path) -> Path:
    """A project with the real set-up commands and an environment whose Python is a stand-in.

    The stand-in prints what it is asked to run and exits with 7.
    """
    shutil.copytree(DEPLOY, tmp_path / "deploy", ignore=shutil.ignore_patterns("__pycache__"))
    (tmp_path / "pyproject.toml").write_text('[project]\nname = "small"\n', encoding="utf-8")
    (tmp_path / "deploy" / "requirements.txt").write_text("one==1\n", encoding="utf-8")
    (tmp_path / "deploy" / "requirements-dev.txt").write_text("one==1\n", encoding="utf-8")
    put_stand_in(tmp_path)
    return tmp_path


def put_stand_in(root: Path) -> None:
    """Lay the stand-in where the environment's Python is."""
    python = root / ".venv" / "bin" / "python"
    python.parent.mkdir(parents=True, exist_ok=True)
    python.write_text(STAND_IN, encoding="utf-8")
    python.chmod(0o755)
