"""The service unit starts the program that is there, with little it may touch."""

from __future__ import annotations

import configparser
import shlex
import shutil
import subprocess
from pathlib import Path

UNIT = Path(__file__).parents[2] / "deploy" / "cagewright.service"


def settings() -> dict[str, str]:
    """The section of the service; of what stands twice, the last."""
    unit = configparser.ConfigParser(strict=False, interpolation=None)
    unit.optionxform = str  # type: ignore[assignment, method-assign]
    unit.read(UNIT, encoding="utf-8")
    return dict(unit["Service"])


def test_it_starts_serve_and_waits_longer_than_the_program_drains() -> None:
    """SIGTERM has 10 s (the contract of `serve`)."""
    found = settings()
    assert "-m bot serve" in found["ExecStart"]
    assert int(found["TimeoutStopSec"]) > 10


def test_the_sign_in_link_stands_in_a_file_of_its_own_and_not_in_the_journal(
    tmp_path: Path,
) -> None:
    """What the unit starts prints nothing: it all goes into a folder nobody else may enter."""
    found = settings()
    assert (found["RuntimeDirectory"], found["RuntimeDirectoryMode"]) == ("cagewright", "0700")
    shell, dash, line = shlex.split(found["ExecStart"])
    program = tmp_path / ".venv" / "bin" / "python"
    program.parent.mkdir(parents=True)
    program.write_text("#!/bin/sh\necho link $*\n", encoding="utf-8")
    program.chmod(0o755)
    line = line.replace("/run/cagewright", str(tmp_path))
    done = subprocess.run([shell, dash, line], cwd=tmp_path, capture_output=True, check=True)
    assert (done.stdout, done.stderr) == (b"", b"")
    assert (tmp_path / "sign-in").read_text("utf-8") == "link -P -m bot serve\n"


def test_a_command_of_the_runbook_uses_the_service_s_database_and_key() -> None:
    """The same two files, under the name the service runs under."""
    unit, runbook = UNIT.read_text("utf-8"), UNIT.with_name("RUNBOOK.md").read_text("utf-8")
    line = next(line for line in runbook.splitlines() if line.strip().startswith("systemd-run"))
    for name in ("CAGEWRIGHT_DATABASE", "CAGEWRIGHT_KEY_FILE"):
        value = next(one for one in unit.splitlines() if one.startswith(f"Environment={name}="))
        assert value.removeprefix("Environment=") in shlex.split(line)
    assert f"User={UNIT.stem}" in shlex.split(line)


def test_key_and_database_lie_in_different_folders() -> None:
    """A copy of one must not carry the other."""
    text = UNIT.read_text(encoding="utf-8")
    assert "CAGEWRIGHT_DATABASE=/var/lib/cagewright/workshop.db" in text
    assert "CAGEWRIGHT_KEY_FILE=/var/lib/cagewright-key/key" in text


def test_it_may_touch_little() -> None:
    """By systemd's own reckoning where it is here, else by the lines that matter most."""
    found = settings()
    for name in ("DynamicUser", "NoNewPrivileges", "PrivateTmp", "ProtectHome", "PrivateDevices"):
        assert found[name] == "yes", name
    assert found["CapabilityBoundingSet"] == ""
    analyze = shutil.which("systemd-analyze")
    if analyze is not None:
        done = subprocess.run(
            [analyze, "security", "--offline=true", "--threshold=15", str(UNIT)],
            capture_output=True, text=True, check=False, timeout=30,
        )  # fmt: skip
        assert done.returncode == 0, done.stdout[-300:]
