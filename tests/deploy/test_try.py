"""`try.py` sets up once, then gives way to the program."""

from __future__ import annotations

import subprocess
import sys
import time
from pathlib import Path

import pytest

import environment


@pytest.fixture
def ready(small: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    """A small project that is set up."""
    with monkeypatch.context() as still:
        still.setattr(environment, "run_quietly", lambda *_: None)
        environment.prepare(small, tests=False)
    return small


def start(root: Path, *arguments: str) -> subprocess.CompletedProcess[str]:
    """Start the command from another folder, as a person may."""
    command = [sys.executable, str(root / "deploy" / "try.py"), *arguments]
    return subprocess.run(command, cwd=root.parent, capture_output=True, text=True, check=False)


@pytest.mark.parametrize(
    ("arguments", "becomes"),
    [
        ([], "serve --demo"),
        (["--port", "9000"], "serve --demo --port 9000"),
        (["--", "size", "request.json"], "size request.json"),
        (["--", "talk", "--", "-"], "talk -- -"),
    ],
)
def test_it_becomes_the_program(ready: Path, arguments: list[str], becomes: str) -> None:
    """Without arguments the demo is served; what stands after -- is the program's."""
    done = start(ready, *arguments)
    assert done.stdout == f"-P -m bot {becomes}\n"
    assert done.stderr == ""


TELLS = """#!/bin/sh
printf '%s\\n' "${CAGEWRIGHT_DATABASE-none} ${CAGEWRIGHT_KEY_FILE-none}"
"""


@pytest.mark.parametrize(
    ("arguments", "named", "told"),
    [
        ([], {}, "{root}/local/workshop/workshop.db {root}/local/key"),
        ([], {"CAGEWRIGHT_DATABASE": "/x/w.db"}, "/x/w.db none"),
        (["--", "doctor"], {}, "none none"),
        (["--", "doctor"], {"CAGEWRIGHT_DATABASE": "/x/w.db"}, "/x/w.db none"),
    ],
)
def test_only_the_demo_has_a_database_of_its_own(
    ready: Path, monkeypatch: pytest.MonkeyPatch, arguments: list[str], named: dict[str, str],
    told: str,
) -> None:  # fmt: skip
    """Every command of the program looks where the program itself looks."""
    for name in ("CAGEWRIGHT_DATABASE", "CAGEWRIGHT_KEY_FILE"):
        monkeypatch.delenv(name, raising=False)
    for name, value in named.items():
        monkeypatch.setenv(name, value)
    (ready / ".venv" / "bin" / "python").write_text(TELLS, encoding="utf-8")
    assert start(ready, *arguments).stdout == told.format(root=ready) + "\n"


def test_the_exit_code_is_the_programs(ready: Path) -> None:
    """Who calls it can tell a clear no from a yes."""
    assert start(ready, "--", "size").returncode == 7


def test_no_start_installs_and_starts_nothing(ready: Path) -> None:
    """With --no-start nothing comes out, nothing is made, and the exit code is 0."""
    before = set(ready.iterdir())
    done = start(ready, "--no-start")
    assert (done.returncode, done.stdout, done.stderr) == (0, "", "")
    assert set(ready.iterdir()) == before


def test_a_second_run_is_at_its_work_within_a_second(ready: Path) -> None:
    """Unchanged pins cost less than a second before the work itself."""
    began = time.monotonic()
    start(ready, "--no-start")
    assert time.monotonic() - began < 1


def test_an_unknown_option_is_named(ready: Path) -> None:
    """A slip of the keys exits with 2 and names what was not understood."""
    done = start(ready, "--prot", "9000")
    assert done.returncode == 2
    assert "--prot" in done.stderr
