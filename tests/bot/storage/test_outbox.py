"""What is to be sent, row by row."""

from __future__ import annotations

from collections.abc import Callable
from datetime import UTC, datetime, timedelta
from typing import TYPE_CHECKING

from bot.storage import outbox

if TYPE_CHECKING:
    from tests.bot.conftest import Shop

NOW = datetime(2026, 3, 2, 9, tzinfo=UTC)
Marking = Callable[[int], None]


def test_the_oldest_of_each_mailbox_comes_first(shop: Shop) -> None:
    """One row a mailbox, the oldest, however much waits behind it."""
    shop.send("say one; say two", person="anna")
    shop.send("say three; desk four", person="ola")
    with shop.database.reading() as connection:
        letters = outbox.first_waiting(connection, shop.database.sealer, 10, channel=None, now=None)
    assert [(letter.to, letter.seq) for letter in letters] == [("anna", 1), ("ola", 3), ("desk", 4)]


def test_a_channel_sees_its_own(shop: Shop) -> None:
    """Messages go out where the person wrote; the desk has a channel to itself."""
    shop.send("say one; desk two")
    with shop.database.reading() as connection:
        sealer = shop.database.sealer
        of_channel = {
            channel: [
                letter.to
                for letter in outbox.first_waiting(
                    connection, sealer, 10, channel=channel, now=None
                )
            ]
            for channel in ("web", "desk", "terminal")
        }
    assert of_channel == {"web": ["anna"], "desk": ["desk"], "terminal": []}


def test_a_delayed_message_holds_up_its_mailbox_only(shop: Shop) -> None:
    """What comes after it for the same person waits too; others go on."""
    shop.send("say one; say two", person="anna")
    shop.send("say three", person="ola")
    sealer = shop.database.sealer
    with shop.database.transaction() as connection:
        outbox.delay(connection, 1, NOW + timedelta(seconds=30))
        for seconds, expected in ((0, [3]), (30, [1, 3])):
            now = NOW + timedelta(seconds=seconds)
            letters = outbox.first_waiting(connection, sealer, 10, channel=None, now=now)
            assert [letter.seq for letter in letters] == expected


def test_a_message_that_fails_lets_the_next_one_through(shop: Shop) -> None:
    """It is marked with the reason and never sent."""
    shop.send("say one; say two")
    with shop.database.transaction() as connection:
        outbox.fail(connection, 1, "too-long")
        letters = outbox.all_waiting(connection, shop.database.sealer, 10)
    assert [letter.seq for letter in letters] == [2]
    assert shop.rows("SELECT state, error FROM outbox") == [
        ("failed", "too-long"),
        ("waiting", None),
    ]


def test_what_was_sent_stays_sent(shop: Shop) -> None:
    """A late failure of a message that is out changes nothing."""
    shop.send("say one")
    with shop.database.transaction() as connection:
        outbox.mark_sent(connection, [1], NOW)
        outbox.fail(connection, 1, "late")
        outbox.fail_all(connection, "anna", "late")
        assert outbox.oldest_waiting(connection) is None
    assert shop.rows("SELECT state, error FROM outbox") == [("sent", None)]


def test_the_words_are_sealed(shop: Shop) -> None:
    """The table does not show what was said."""
    shop.send("say walnut")
    [(sealed,)] = shop.rows("SELECT body_sealed FROM outbox")
    assert isinstance(sealed, bytes)
    assert b"walnut" not in sealed
