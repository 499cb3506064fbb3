"""`talk` as a command: scripts it can't read, and databases it must not touch."""

from __future__ import annotations

import io
import json
import sys
from pathlib import Path
from typing import Any

import pytest

from bot.commands import talk

LINE = json.dumps({"from": "anna", "language": "en", "text": "hello"}) + "\n"


@pytest.fixture(autouse=True)
def key(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    """A key of this test alone."""
    monkeypatch.setenv("CAGEWRIGHT_KEY_FILE", str(tmp_path / "keys" / "key"))


def run(script: str | None, **told: Any) -> int:
    """The command with everything else as it is by default."""
    asked: dict[str, Any] = {"database": None, "name": "you", "language": None, "pictures": None}
    return talk.run(**{**asked, "seed": 0, **told}, script=script)


def test_a_script_that_is_not_there_is_named(capsys: pytest.CaptureFixture[str]) -> None:
    """Exit 2, one line that says what would do, nothing on stdout."""
    assert run("nowhere.jsonl") == 2
    shown = capsys.readouterr()
    assert shown.out == ""
    assert "nowhere.jsonl" in shown.err
    assert len(shown.err.splitlines()) == 1


def test_a_script_in_a_file_is_played(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    """One message, then the line that says this input is done."""
    script = tmp_path / "script.jsonl"
    script.write_text(LINE, encoding="utf-8")
    assert run(str(script)) == 0
    out = [json.loads(line) for line in capsys.readouterr().out.splitlines()]
    assert [row.get("question") for row in out] == ["language", None]
    assert out[-1] == {"done": 1}


def test_a_script_without_a_database_leaves_nothing_behind(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]
) -> None:
    """It is played on a fresh database that goes away with it."""
    monkeypatch.setattr(sys, "stdin", io.StringIO(LINE))
    monkeypatch.setattr("tempfile.tempdir", str(tmp_path / "temporary"))
    (tmp_path / "temporary").mkdir()
    assert run("-") == 0
    assert '{"done": 1}' in capsys.readouterr().out
    assert list((tmp_path / "temporary").iterdir()) == []


def test_a_database_that_cannot_be_used_is_named(
    tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    """A file that is no database of this program is left alone; one line says so."""
    other = tmp_path / "letters" / "letter.txt"
    other.parent.mkdir()
    other.write_text("Dear workshop, " * 100, encoding="utf-8")
    before = other.read_bytes()
    script = tmp_path / "script.jsonl"
    script.write_text(LINE, encoding="utf-8")
    assert run(str(script), database=other) == 2
    shown = capsys.readouterr()
    assert (shown.out, len(shown.err.splitlines())) == ("", 1)
    assert other.read_bytes() == before
