"""The environment is made once, kept up to its pins, and mended when half made."""

from __future__ import annotations

import ast
import importlib.util
import json
import subprocess
import sys
from pathlib import Path

import pytest

import environment

DEPLOY = Path(environment.__file__).parent


@pytest.fixture
def steps(monkeypatch: pytest.MonkeyPatch) -> list[str]:
    """What a set-up does, step by step, without doing it."""
    done: list[str] = []

    def note(_command: list[str], step: str, _held: tuple[int, ...] = ()) -> None:
        done.append(step)

    monkeypatch.setattr(environment, "run_quietly", note)
    return done


MAKES = "Making the environment"
INSTALLS = ["Installing the packages", "Installing Cagewright"]


def test_a_first_run_makes_and_installs_and_a_second_does_nothing(
    small: Path, steps: list[str]
) -> None:
    """A fresh copy gets its environment; the next run finds it as it must be."""
    assert environment.prepare(small, tests=False) == small / ".venv" / "bin" / "python"
    assert steps == [MAKES, *INSTALLS]
    environment.prepare(small, tests=False)
    assert steps == [MAKES, *INSTALLS]


def test_the_test_pins_serve_the_program_too(small: Path, steps: list[str]) -> None:
    """After the checks have set up, starting the program installs nothing; not so the reverse."""
    environment.prepare(small, tests=False)
    environment.prepare(small, tests=True)
    assert steps == [MAKES, *INSTALLS, *INSTALLS]
    environment.prepare(small, tests=False)
    assert steps == [MAKES, *INSTALLS, *INSTALLS]


@pytest.mark.parametrize("changed", ["deploy/requirements.txt", "pyproject.toml"])
def test_changed_pins_are_installed_into_the_same_environment(
    small: Path, steps: list[str], changed: str
) -> None:
    """Another pin or another requirement is put in; the environment is not made anew."""
    environment.prepare(small, tests=False)
    file = small / changed
    file.write_text(file.read_text("utf-8").replace("one", "two").replace("small", "large"))
    environment.prepare(small, tests=False)
    assert steps == [MAKES, *INSTALLS, *INSTALLS]


def test_settings_of_tools_install_nothing(small: Path, steps: list[str]) -> None:
    """A change of lint or test settings does not touch the environment."""
    environment.prepare(small, tests=False)
    with (small / "pyproject.toml").open("a", encoding="utf-8") as file:
        file.write("[tool.ruff]\nline-length = 90\n")
    environment.prepare(small, tests=False)
    assert steps == [MAKES, *INSTALLS]


def test_an_environment_left_half_made_is_made_anew(
    small: Path, steps: list[str], monkeypatch: pytest.MonkeyPatch
) -> None:
    """A run that ends while packages change leaves nothing that a later run takes for whole."""
    environment.prepare(small, tests=False)
    (small / "deploy" / "requirements.txt").write_text("two==2\n", encoding="utf-8")

    def end_here(*_: object) -> None:
        raise KeyboardInterrupt

    with monkeypatch.context() as cut:
        cut.setattr(environment, "run_quietly", end_here)
        with pytest.raises(KeyboardInterrupt):
            environment.prepare(small, tests=False)
    steps.clear()
    environment.prepare(small, tests=False)
    assert steps == [MAKES, *INSTALLS]


def test_an_environment_that_could_not_follow_its_pins_is_kept(
    small: Path, steps: list[str], monkeypatch: pytest.MonkeyPatch
) -> None:
    """Without a network new pins fail, and the packages that are there stay."""
    environment.prepare(small, tests=False)
    (small / "deploy" / "requirements.txt").write_text("two==2\n", encoding="utf-8")

    def fail(_command: list[str], step: str, _held: tuple[int, ...]) -> None:
        raise environment.SetUpError(step, ["no network"])

    with monkeypatch.context() as cut:
        cut.setattr(environment, "run_quietly", fail)
        with pytest.raises(environment.SetUpError):
            environment.prepare(small, tests=False)
    steps.clear()
    environment.prepare(small, tests=False)
    assert steps == INSTALLS


def test_an_environment_made_elsewhere_is_made_anew(small: Path, steps: list[str]) -> None:
    """After the project's folder was moved the old scripts would start nothing."""
    environment.prepare(small, tests=False)
    stamp = small / ".venv" / "set-up.json"
    told = json.loads(stamp.read_text("utf-8"))
    told["made_for"][0] = "another folder"
    stamp.write_text(json.dumps(told), encoding="utf-8")
    steps.clear()
    environment.prepare(small, tests=False)
    assert steps == [MAKES, *INSTALLS]


def test_a_damaged_stamp_counts_as_none(small: Path, steps: list[str]) -> None:
    """A stamp cut short by a full disk does not stop the set-up."""
    (small / ".venv" / "set-up.json").write_text('{"made_for', encoding="utf-8")
    environment.prepare(small, tests=False)
    assert steps == [MAKES, *INSTALLS]


def test_a_failing_step_shows_its_last_lines() -> None:
    """What a step said last is what a person sees, with the step's name."""
    command = ["sh", "-c", "seq 1 50; exit 3"]
    with pytest.raises(environment.SetUpError) as caught:
        environment.run_quietly(command, "Counting")
    shown = environment.explain(caught.value).splitlines()
    assert shown[0] == "31"
    assert shown[-1] == "Counting did not work; its last lines are above."


def test_a_working_step_says_nothing(capfd: pytest.CaptureFixture[str]) -> None:
    """Output of installing is hidden, and a log gets no progress lines."""
    environment.run_quietly(["sh", "-c", "echo Collecting one; echo two >&2"], "Counting")
    assert capfd.readouterr() == ("", "")


def test_this_python_will_do() -> None:
    """The Python that runs the tests lacks nothing."""
    assert environment.what_to_install() is None


def test_an_old_python_is_named_with_what_to_install(monkeypatch: pytest.MonkeyPatch) -> None:
    """Too old: one line that names the version needed."""
    monkeypatch.setattr(sys, "version_info", (3, 9, 2, "final", 0))
    line = environment.what_to_install()
    assert line is not None
    assert "3.11" in line
    assert "\n" not in line


def test_a_python_without_venv_is_told_what_to_install(monkeypatch: pytest.MonkeyPatch) -> None:
    """Debian ships the two parts that make environments in a package of their own."""

    def found(name: str) -> object:
        return None if name == "ensurepip" else object()

    monkeypatch.setattr(importlib.util, "find_spec", found)
    line = environment.what_to_install()
    assert line is not None
    assert line.endswith("-venv, then start again.")


@pytest.mark.parametrize("script", ["try.py", "check.py", "environment.py"])
def test_the_set_up_can_be_read_by_an_old_python(script: str) -> None:
    """Python 3.6 can read these files far enough to say that it is too old."""
    tree = ast.parse((DEPLOY / script).read_text("utf-8"), feature_version=(3, 6))
    evaluated = [
        node.annotation
        for node in ast.walk(tree)
        if isinstance(node, ast.arg) and node.annotation is not None
    ]
    newer = [ast.unparse(each) for each in evaluated if isinstance(each, ast.Subscript | ast.BinOp)]
    assert newer == []


@pytest.mark.parametrize("script", ["try.py", "check.py"])
def test_an_unfit_python_exits_with_2_and_one_line(small: Path, script: str) -> None:
    """Nothing but the line comes out, and nothing is made."""
    unfit = (
        "import runpy, sys; sys.version_info = (3, 9); sys.path.insert(0, 'deploy'); "
        f"sys.argv = ['{script}']; runpy.run_path('deploy/{script}', run_name='__main__')"
    )
    done = subprocess.run(
        [sys.executable, "-c", unfit], cwd=small, capture_output=True, text=True, check=False
    )
    assert done.returncode == 2
    assert done.stdout == ""
    assert done.stderr.count("\n") == 1
    assert not (small / ".venv" / "set-up.json").exists()
