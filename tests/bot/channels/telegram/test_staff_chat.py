"""What staff are shown on Telegram."""

from __future__ import annotations

from datetime import UTC, datetime

import pytest

from bot.channels.telegram.staff_chat import help_text, measures, queue_text, wanted_words
from bot.desk import queue
from bot.desk.asking import MEASURES
from bot.desk.queue import Row
from bot.storage.staff import Member
from bot.storage.staff_chats import Wanted

NUMBER = "48291742"
MARIA = Member("maria", "desk", active=True, waiting=False, address="tg-1")


def test_buttons_fit_into_64_bytes() -> None:
    """Bot API, InlineKeyboardButton; every measure of the page is there, and a way out."""
    for card in (
        measures(NUMBER, 9999, "en"),
        *(wanted_words(Wanted("ask", NUMBER, 9999, one), "pl") for one in MEASURES),
    ):
        assert card.keyboard is not None
        buttons = [one for row in card.keyboard.inline_keyboard for one in row]
        assert all(len(str(one.callback_data).encode()) <= 64 for one in buttons)
    rows = measures(NUMBER, 1, "en").keyboard
    assert rows is not None
    assert sum(map(len, rows.inline_keyboard)) == len(MEASURES) + 1


def test_help_is_in_the_words_of_the_language() -> None:
    """Nobody has to type English."""
    assert "kolejka" in help_text("pl").html
    assert "queue" not in help_text("pl").html


def row(number: str) -> Row:
    """An order in the queue."""
    now = datetime(2026, 3, 2, tzinfo=UTC)
    return Row(
        number=number, version=1, stage="on-the-desk", turn="desk", since=now, handed_in_at=now,
        promised_for=None, pieces=1, verdict="make", worst=None, severity=None, why="clean",
        rank=3, resting=False, taken_by="jan", contact="<anna>", reachable=False,
    )  # fmt: skip


def test_a_long_queue_says_how_many_more(monkeypatch: pytest.MonkeyPatch) -> None:
    """A line each: who took it, how to reach whom, and whether they can be reached here."""
    rows = [row(str(number)) for number in range(12345678, 12345678 + 23)]
    monkeypatch.setattr(queue, "queue", lambda *_: rows)
    shown = queue_text(None, MARIA, "en", rows[0].since)  # type: ignore[arg-type]
    assert "3 more" in shown.html
    assert shown.html.count("on the desk (jan) · Nothing to doubt · &lt;anna&gt; · can") == 20
