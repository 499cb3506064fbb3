"""Errors of the other side, and messages that are too long."""

from __future__ import annotations

import re
from datetime import timedelta
from html import escape, unescape

import httpx
import pytest
from hypothesis import given
from hypothesis import strategies as st
from telegram.error import (
    BadRequest,
    ChatMigrated,
    Forbidden,
    InvalidToken,
    NetworkError,
    RetryAfter,
    TelegramError,
    TimedOut,
)

from bot.channels.telegram.outbound import outcome, parts
from bot.outbox import Outcome


def caused(error: TelegramError, cause: Exception) -> TelegramError:
    """The error as the library raises it from what its client raised."""
    error.__cause__ = cause
    return error


@pytest.mark.parametrize(
    ("error", "expected"),
    [
        (BadRequest("can't parse entities"), Outcome.REFUSED),
        (BadRequest("Chat not found"), Outcome.GONE),
        (Forbidden("bot was blocked by the user"), Outcome.GONE),
        (ChatMigrated(5), Outcome.REFUSED),
        (InvalidToken(), Outcome.NOT_SENT),
        (NetworkError("Bad Gateway"), Outcome.NOT_SENT),
        (caused(TimedOut(), httpx.ConnectTimeout("")), Outcome.NOT_SENT),
        (caused(TimedOut(), httpx.PoolTimeout("")), Outcome.NOT_SENT),
        (caused(NetworkError(""), httpx.ConnectError("")), Outcome.NOT_SENT),
        (caused(TimedOut(), httpx.ReadTimeout("")), Outcome.NO_ANSWER),
        (caused(NetworkError(""), httpx.ReadError("")), Outcome.NO_ANSWER),
        (caused(NetworkError(""), httpx.RemoteProtocolError("")), Outcome.NO_ANSWER),
    ],
    ids=lambda value: None if isinstance(value, Outcome) else f"{value!r} {value.__cause__!r}",
)
def test_only_what_never_left_is_tried_freely(error: TelegramError, expected: Outcome) -> None:
    """A lost answer may have arrived; a refusal will be refused again."""
    assert outcome(error).outcome is expected


def test_a_pause_is_kept_with_a_second_more(monkeypatch: pytest.MonkeyPatch) -> None:
    """So that the other side's clock may be a little behind."""
    monkeypatch.setenv("PTB_TIMEDELTA", "true")
    delivery = outcome(RetryAfter(30))
    assert (delivery.outcome, delivery.pause) == (Outcome.NOT_SENT, timedelta(seconds=31))


@given(st.lists(st.text("ab ", max_size=30), max_size=12), st.integers(40, 60))
def test_nothing_is_lost_when_a_message_is_cut(lines: list[str], most: int) -> None:
    """All words come, in order, and no piece is too long."""
    pieces = parts("\n".join(lines), most)
    assert all(1 <= len(piece) <= most for piece in pieces)
    whole = " ".join(pieces).replace("…", "").split()
    assert whole == " ".join(lines).split()


@given(st.text("ab&<>'\"", min_size=1, max_size=300), st.integers(40, 60))
def test_a_line_longer_than_a_message_is_cut_between_signs(typed: str, most: int) -> None:
    """No piece ends inside an escaped sign, and put together they say what was typed."""
    pieces = parts(f"<b>{escape(typed)}</b>", most)
    assert all(len(piece) <= most for piece in pieces)
    assert "".join(re.sub("</?b>", "", unescape(piece)) for piece in pieces) == re.sub(
        "</?b>", "", typed
    )
