"""The command line as a person or a program meets it: a new process each time."""

from __future__ import annotations

import subprocess
import sys

import pytest


def run(*arguments: str, text: str | None = None) -> subprocess.CompletedProcess[str]:
    """The program with these arguments."""
    return subprocess.run(
        [sys.executable, "-m", "bot", *arguments],
        input=text, capture_output=True, text=True, check=False, timeout=60,
    )  # fmt: skip


COMMANDS = (
    (),
    ("read",),
    ("size",),
    ("talk",),
    ("serve",),
    ("orders",),
    ("orders", "list"),
    ("orders", "show"),
    ("papers",),
    ("doctor",),
    ("staff",),
    ("staff", "add"),
    ("staff", "list"),
    ("staff", "remove"),
)


@pytest.mark.parametrize("command", COMMANDS, ids=" ".join)
def test_every_command_has_help_with_an_example(command: tuple[str, ...]) -> None:
    """--help ends with an example that begins with the name of the program."""
    shown = run(*command, "--help")
    assert shown.returncode == 0
    assert f"Example: cagewright {command[0] if command else ''}".rstrip() in shown.stdout
    assert shown.stderr == ""


def test_without_a_command_the_help_is_shown() -> None:
    """A person who types the bare name sees what there is."""
    shown = run()
    assert shown.returncode == 0
    assert "Commands:" in shown.stdout


@pytest.mark.parametrize(
    ("arguments", "named"),
    [
        (("frobnicate",), "frobnicate"),
        (("size", "--frob"), "--frob"),
        (("read", "36,1"), "--measure"),
        (("talk", "--seed", "many", "-"), "--seed"),
    ],
)
def test_what_cannot_be_used_is_named_in_one_line(arguments: tuple[str, ...], named: str) -> None:
    """Exit code 2, nothing on stdout, and one line on stderr that names the field."""
    refused = run(*arguments)
    assert refused.returncode == 2
    assert refused.stdout == ""
    assert len(refused.stderr.strip().splitlines()) == 1
    assert named in refused.stderr


def test_help_read_and_size_import_nothing_heavy() -> None:
    """They start at once because channels, storage and pictures stay unimported."""
    heavy = ("sqlite_utils", "starlette", "uvicorn", "typst", "cryptography", "PIL", "rich.table")
    program = (
        "import sys; from bot import cli\n"
        "try:\n    cli.cagewright.main(sys.argv[1:], prog_name='cagewright')\n"
        "except SystemExit: pass\n"
        f"print([name for name in {heavy!r} if name in sys.modules], file=sys.stderr)"
    )
    request = (
        '{"purpose": "isolate", "frame": {"side_to_side": 360, "top_to_bottom": 260,'
        ' "lug_to_lug": 391}}'
    )
    for arguments in (["--help"], ["read", "--measure", "side_to_side", "363"], ["size", "-"]):
        ran = subprocess.run(
            [sys.executable, "-c", program, *arguments],
            input=request, capture_output=True, text=True, check=True, timeout=60,
        )  # fmt: skip
        assert ran.stderr.strip() == "[]", arguments
