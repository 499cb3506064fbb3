"""`lock.py` writes pins that name no host, and says what it needs."""

from __future__ import annotations

import shutil
import subprocess
from pathlib import Path
from types import SimpleNamespace

import pytest

import lock


def test_addresses_are_found_in_a_lock() -> None:
    """An index, a link or a file address would tie the pins to one place."""
    text = "--index-url https://one.example/simple\none==1 \\\n    # via file:///two\n"
    assert lock.hosts_in(text) == ["https://one.example", "file://"]


def test_plain_pins_name_no_address() -> None:
    """Versions, hashes and where a requirement comes from are no addresses."""
    assert lock.hosts_in("one==1 \\\n    --hash=sha256:ab\n    # via -c deploy/a.txt\n") == []


def test_without_uv_it_says_what_to_install(
    monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]
) -> None:
    """One line, exit code 2."""
    monkeypatch.setattr(shutil, "which", lambda _: None)
    assert lock.main([]) == 2
    assert capsys.readouterr().err.count("\n") == 1


@pytest.mark.parametrize(("written", "code"), [("one==1\n", 0), ("-i https://one.example\n", 1)])
def test_a_lock_that_names_a_host_is_refused(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch, written: str, code: int
) -> None:
    """Both files are written; an address in one of them is an error."""
    (tmp_path / "deploy").mkdir()
    ran = []

    def compile_(command: list[str], cwd: Path, **_: object) -> SimpleNamespace:
        ran.append(command[command.index("-o") + 1])
        (cwd / ran[-1]).write_text(written, encoding="utf-8")
        return SimpleNamespace(returncode=0)

    monkeypatch.setattr(lock, "ROOT", tmp_path)
    monkeypatch.setattr(shutil, "which", lambda name: name)
    monkeypatch.setattr(subprocess, "run", compile_)
    assert lock.main([]) == code
    assert ran == list(lock.LOCKS)[: 2 - code]
