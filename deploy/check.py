"""Every check of the project, in one command: lint, form, types, imports, tests.

    python3 deploy/check.py                    all of it
    python3 deploy/check.py --fast             without the slow tests
    python3 deploy/check.py -- -k wires        arguments after -- go to pytest

It stops at the first check that fails. With CI=true it installs the Debian packages
the tests need, and a skipped test is a failed one. Standard library only.
"""

import argparse
import os
import shutil
import subprocess
import sys
from pathlib import Path

import environment

CHECKED = ["bot", "sizing", "conversations", "tests", "deploy"]
SYSTEM_PROGRAMS = {"chromium": "chromium"}
"""Programs the tests drive, each with the Debian package that brings it."""


def main(arguments: "list[str]") -> int:
    """Run every check; the exit code is that of the first one that fails."""
    missing = environment.what_to_install()
    if missing is not None:
        sys.stderr.write(missing + "\n")
        return 2
    end = arguments.index("--") if "--" in arguments else len(arguments)
    options, for_pytest = _read(arguments[:end]), arguments[end + 1 :]
    try:
        python = environment.prepare(environment.ROOT, tests=True)
        _system_programs()
        return _checks(python, options.fast, for_pytest)
    except environment.SetUpError as error:
        sys.stderr.write(environment.explain(error) + "\n")
        return 1
    except KeyboardInterrupt:
        return environment.STOPPED + 2


def _read(arguments: "list[str]") -> argparse.Namespace:
    parser = argparse.ArgumentParser(
        prog="check.py",
        description="Run every check of the project and stop at the first that fails.",
        epilog="Arguments after -- go to pytest: python3 deploy/check.py -- -k wires",
    )
    parser.add_argument("--fast", action="store_true", help="leave out the slow tests")
    return parser.parse_args(arguments)


def _system_programs() -> None:
    """In CI install what the tests drive; elsewhere only say what is not there."""
    lacking = [name for name in SYSTEM_PROGRAMS if shutil.which(name) is None]
    packages = [SYSTEM_PROGRAMS[name] for name in lacking]
    if not lacking:
        return
    if os.environ.get("CI") != "true":
        _say(
            f"Not here: {', '.join(lacking)}. The tests that need it are skipped; "
            f"Debian has it as: apt-get install {' '.join(packages)}"
        )
        return
    os.environ["DEBIAN_FRONTEND"] = "noninteractive"
    environment.run_quietly(["apt-get", "update"], "Reading the package lists")
    install = ["apt-get", "install", "--yes", "--no-install-recommends", *packages]
    environment.run_quietly(install, "Installing the Debian packages")


def _checks(python: Path, fast: bool, for_pytest: "list[str]") -> int:
    steps = {
        "lint": [str(python), "-m", "ruff", "check", *CHECKED],
        "form": [str(python), "-m", "ruff", "format", "--check", *CHECKED],
        "types": [str(python), "-m", "mypy", *CHECKED],
        "imports": [str(python.with_name("lint-imports")), "--no-logo"],
    }
    for name, command in steps.items():
        done = subprocess.run(
            command,
            cwd=environment.ROOT,
            stdout=subprocess.PIPE,
            stderr=subprocess.STDOUT,
            text=True,
            check=False,
        )
        if done.returncode:
            _say(done.stdout.rstrip())
            _say(f"Stopped at: {name}")
            return 1
        _say(f"{name}: ok")
    pytest = [str(python), "-m", "pytest", *(["-m", "not slow"] if fast else []), *for_pytest]
    return subprocess.run(pytest, cwd=environment.ROOT, check=False).returncode


def _say(text: str) -> None:
    sys.stdout.write(text + "\n")
    sys.stdout.flush()


if __name__ == "__main__":
    sys.exit(main(sys.argv[1:]))
