"""The service unit starts the program that is there, with little it may touch."""

from __future__ import annotations

import configparser
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
    assert found["ExecStart"].endswith("-m bot serve")
    assert int(found["TimeoutStopSec"]) > 10


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
