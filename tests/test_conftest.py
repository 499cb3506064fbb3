"""What the common rules of the tests promise."""

from __future__ import annotations

import shutil
import subprocess
import sys
from pathlib import Path

import pytest

SKIPPED = """
import pytest

def test_that_is_skipped():
    pytest.skip("no reason")
"""
SKIPPED_FILE = """
import pytest

pytest.skip("no reason", allow_module_level=True)
"""


def outcome(folder: Path, source: str, ci: str) -> str:
    """The closing line of pytest over one file with our rules in force."""
    shutil.copy(Path(__file__).with_name("conftest.py"), folder)
    (folder / "test_one.py").write_text(source, encoding="utf-8")
    command = [sys.executable, "-m", "pytest", "-q", "-p", "no:cacheprovider", str(folder)]
    done = subprocess.run(
        command, cwd=folder, env={"CI": ci}, capture_output=True, text=True, check=False
    )
    return done.stdout.splitlines()[-1]


@pytest.mark.parametrize("source", [SKIPPED, SKIPPED_FILE], ids=["test", "file"])
def test_a_skip_fails_in_ci_and_only_there(tmp_path: Path, source: str) -> None:
    """A skipped test or file is counted as such on a developer's machine and fails in CI."""
    assert "1 skipped" in outcome(tmp_path, source, ci="")
    in_ci = outcome(tmp_path, source, ci="true")
    assert "skipped" not in in_ci
    assert "1 failed" in in_ci or "1 error" in in_ci
