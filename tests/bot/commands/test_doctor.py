"""`doctor` says of each thing whether it is ok, or what to do."""

from __future__ import annotations

import stat
from datetime import UTC, datetime, timedelta
from pathlib import Path

import pytest
from bot_api import TOKEN, BotApi, Running

from bot.commands import doctor
from bot.settings import load_settings
from bot.storage import telegram as kept
from bot.wiring import open_workshop


@pytest.fixture
def place(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    """A workshop that was opened once; its database."""
    monkeypatch.setenv("CAGEWRIGHT_KEY_FILE", str(tmp_path / "key"))
    monkeypatch.setenv("CAGEWRIGHT_PORT", "0")
    database = tmp_path / "data" / "w.db"
    open_workshop(load_settings(database=database)).close()
    return database


def lines(capsys: pytest.CaptureFixture[str]) -> dict[str, tuple[str, str]]:
    """Each thing with its state and its words."""
    found = {}
    for line in capsys.readouterr().out.splitlines():
        state, name, words = line[:6].strip(), *line[7:].split(": ", 1)
        found[name] = (state, words)
    return found


def test_a_workshop_in_order_is_ok_in_every_line(
    place: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    """Exit code 0."""
    assert doctor.run(database=place) == 0
    found = lines(capsys)
    assert {state for state, _ in found.values()} == {"ok"}
    assert set(found) == {
        "settings",
        "figures",
        "database and key",
        "clock",
        "pictures",
        "pages",
        "telegram",
    }


def test_before_the_first_start_nothing_is_wrong(
    tmp_path: Path, place: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    """A database that is not there yet will be made."""
    assert doctor.run(database=tmp_path / "other" / "w.db") == 0
    assert "none yet" in lines(capsys)["database and key"][1]


def test_another_key_is_found(
    tmp_path: Path, place: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    """It names the file, and what would do."""
    key = tmp_path / "key"
    key.write_bytes(bytes(32))
    key.chmod(stat.S_IRUSR | stat.S_IWUSR)
    assert doctor.run(database=place) == 1
    state, words = lines(capsys)["database and key"]
    assert state == "to do"
    assert str(key) in words


def test_a_setting_that_cannot_be_used_is_named(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]
) -> None:
    """And nothing else is looked at."""
    monkeypatch.setenv("CAGEWRIGHT_PORT", "many")
    assert doctor.run(database=tmp_path / "w.db") == 1
    assert list(lines(capsys)) == ["settings"]


@pytest.mark.parametrize(
    ("token", "conflict", "fine", "said"),
    [
        (TOKEN, False, True, "@cages_bot"),
        ("1:wrong", False, False, "token of a bot that exists"),
        (TOKEN, True, False, "stop the other program"),
    ],
)
def test_telegram_is_asked_who_it_is(
    place: Path, monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str],
    token: str, conflict: bool, fine: bool, said: str,
) -> None:  # fmt: skip
    """A refused token, and somebody else polling, are said with what to do."""
    other = Running(BotApi())
    monkeypatch.setenv("CAGEWRIGHT_TELEGRAM_TOKEN", token)
    monkeypatch.setenv("CAGEWRIGHT_TELEGRAM_API", other.url)
    if conflict:
        workshop = open_workshop(load_settings(database=place))
        with workshop.database.transaction() as connection:
            kept.note_poll(connection, "telegram", datetime.now(UTC), "another-poller")
        workshop.close()
    assert doctor.run(database=place) == (0 if fine else 1)
    assert said in lines(capsys)["telegram"][1]
    other.stop()


@pytest.mark.parametrize("serving", [True, False])
def test_polling_that_stopped_is_to_do_while_something_serves(
    place: Path, monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str], serving: bool
) -> None:
    """A program that runs and no longer asks has a fault; one that does not run has none."""
    other = Running(BotApi())
    monkeypatch.setenv("CAGEWRIGHT_TELEGRAM_TOKEN", TOKEN)
    monkeypatch.setenv("CAGEWRIGHT_TELEGRAM_API", other.url)
    workshop = open_workshop(load_settings(database=place))
    with workshop.database.transaction() as connection:
        kept.note_poll(connection, "telegram", datetime.now(UTC) - timedelta(hours=1), None)
    if not serving:
        workshop.close()
    assert doctor.run(database=place) == (1 if serving else 0)
    workshop.close()
    state, words = lines(capsys)["telegram"]
    assert state == ("to do" if serving else "ok")
    assert "60 minutes ago" in words
    other.stop()
