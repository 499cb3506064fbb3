"""`check.py` runs every check in order and stops at the first that fails."""

from __future__ import annotations

import shutil
import subprocess
from collections.abc import Callable
from types import SimpleNamespace

import pytest

import check
import environment

Ran = list[str]


@pytest.fixture
def run(monkeypatch: pytest.MonkeyPatch) -> Callable[..., tuple[int, Ran]]:
    """Run the checks with none of their programs; one of them, by name, may fail."""

    def start(*arguments: str, failing: str = "", lacking: tuple[str, ...] = ()) -> tuple[int, Ran]:
        ran: Ran = []

        def fake_run(command: list[str], **_: object) -> SimpleNamespace:
            ran.append(" ".join(command[1:]))
            fails = bool(failing) and failing in " ".join(command)
            return SimpleNamespace(returncode=int(fails), stdout="its words\n")

        def quietly(command: list[str], *_: object) -> None:
            ran.append(" ".join(command))

        def found(name: str) -> str | None:
            return None if name in lacking else name

        monkeypatch.setattr(environment, "prepare", lambda root, **_: root / "python")
        monkeypatch.setattr(environment, "run_quietly", quietly)
        monkeypatch.setattr(subprocess, "run", fake_run)
        monkeypatch.setattr(shutil, "which", found)
        return check.main(list(arguments)), ran

    return start


def test_every_check_runs_and_pytest_is_last(run: Callable[..., tuple[int, Ran]]) -> None:
    """Lint, form, types, imports, then the tests, so that pytest has the last word."""
    code, ran = run()
    assert code == 0
    assert [words.split(" bot ")[0] for words in ran] == [
        "-m ruff check", "-m ruff format --check", "-m mypy", "--no-logo", "-m pytest",
    ]  # fmt: skip


@pytest.mark.parametrize("failing", ["ruff check", "ruff format", "mypy", "lint-imports"])
def test_it_stops_at_the_first_check_that_fails(
    run: Callable[..., tuple[int, Ran]], failing: str, capsys: pytest.CaptureFixture[str]
) -> None:
    """What the failing check said is shown, then its name; later ones do not run."""
    code, ran = run(failing=failing)
    assert code == 1
    assert "pytest" not in ran[-1]
    shown = capsys.readouterr().out.splitlines()
    assert shown[-2] == "its words"
    assert shown[-1].startswith("Stopped at: ")


def test_failing_tests_fail_the_whole(run: Callable[..., tuple[int, Ran]]) -> None:
    """The exit code of pytest is that of the command."""
    assert run(failing="pytest")[0] == 1


def test_fast_leaves_out_the_slow_tests(run: Callable[..., tuple[int, Ran]]) -> None:
    """--fast is for pytest's slow mark; the rest after -- goes to pytest as it is."""
    assert run("--fast", "--", "-k", "wires")[1][-1] == "-m pytest -m not slow -k wires"


def test_ci_installs_what_the_tests_drive(
    run: Callable[..., tuple[int, Ran]], monkeypatch: pytest.MonkeyPatch
) -> None:
    """In CI a missing program is installed without a question."""
    monkeypatch.setenv("CI", "true")
    monkeypatch.setenv("DEBIAN_FRONTEND", "before")
    ran = run(lacking=("chromium",))[1]
    assert ran[:2] == [
        "apt-get update",
        "apt-get install --yes --no-install-recommends chromium",
    ]


def test_elsewhere_a_missing_program_is_only_named(
    run: Callable[..., tuple[int, Ran]],
    monkeypatch: pytest.MonkeyPatch,
    capsys: pytest.CaptureFixture[str],
) -> None:
    """On a person's machine nothing is installed; the line says what is missing."""
    monkeypatch.delenv("CI", raising=False)
    ran = run(lacking=("chromium",))[1]
    assert not any("apt-get" in words for words in ran)
    assert "apt-get install chromium" in capsys.readouterr().out
