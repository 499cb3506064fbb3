"""`staff`: codes for who comes, and an end for who leaves."""

from __future__ import annotations

from pathlib import Path

import pytest

from bot.commands import staff
from bot.desk.staff import sign_in
from bot.settings import load_settings
from bot.wiring import open_workshop


@pytest.fixture
def place(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    """Where the database is, or will be."""
    monkeypatch.setenv("CAGEWRIGHT_KEY_FILE", str(tmp_path / "key"))
    return tmp_path / "data" / "w.db"


def test_a_code_signs_in_and_the_list_says_so(
    place: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    """Invited, then here, then left."""
    assert staff.add("maria", role="desk", database=place) == 0
    shown = capsys.readouterr().out
    code = shown.split("/start ")[1].strip()
    assert f"http://127.0.0.1:8765/desk/in/{code}\n" in shown
    assert staff.listed(database=place) == 0
    assert capsys.readouterr().out == "maria: desk, invited\n"
    with open_workshop(load_settings(database=place)) as workshop:
        assert sign_in(workshop.database, code, workshop.clock.now()) == "maria"
    staff.listed(database=place)
    assert capsys.readouterr().out == "maria: desk, here\n"
    assert staff.remove("maria", database=place) == 0
    capsys.readouterr()
    staff.listed(database=place)
    assert capsys.readouterr().out == "maria: desk, left\n"


def test_a_new_code_changes_no_role(place: Path, capsys: pytest.CaptureFixture[str]) -> None:
    """Exit code 2 for another role; the same role gets a new code."""
    assert staff.add("maria", role="desk", database=place) == 0
    assert staff.add("maria", role="bench", database=place) == 2
    assert "role: desk" in capsys.readouterr().err
    assert staff.add("maria", role="desk", database=place) == 0


def test_nobody_of_that_name_is_a_clear_no(place: Path, capsys: pytest.CaptureFixture[str]) -> None:
    """Exit code 1."""
    assert staff.remove("nobody", database=place) == 1
    assert "nobody" in capsys.readouterr().out


@pytest.mark.parametrize(
    ("name", "role", "field"),
    [("maria", "queen", "role"), ("a.b", "desk", "name"), (" ", "desk", "name")],
)
def test_what_cannot_be_used_is_named(
    place: Path, capsys: pytest.CaptureFixture[str], name: str, role: str, field: str
) -> None:
    """Exit code 2, one line."""
    assert staff.add(name, role=role, database=place) == 2
    shown = capsys.readouterr()
    assert shown.out == ""
    assert shown.err.startswith(f"cagewright staff: {field}: ")


def test_while_the_program_serves_the_desk_page_is_named(
    place: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    """Exit code 1: another process has the database."""
    with open_workshop(load_settings(database=place)):
        assert staff.add("maria", role="desk", database=place) == 1
    assert "desk page" in capsys.readouterr().err
