"""What waits to be sent, and what becomes of it."""

from __future__ import annotations

import asyncio
import sqlite3
from datetime import timedelta
from typing import TYPE_CHECKING

import pytest

from bot.outbox import Deliver, Delivery, Heard, Letter, Outcome, Sender
from bot.storage.errors import UnavailableError
from conversations.effects import Free
from conversations.events import Choose, Text

if TYPE_CHECKING:
    from tests.bot.conftest import Shop

SENT = Delivery(Outcome.SENT)


def words(letter: Letter) -> str:
    value = letter.say.lines[0].values["text"]
    assert isinstance(value, Free)
    return value.text


class Post:
    """Takes letters; answers each with what `answers` says for its words, else it is sent."""

    def __init__(self, **answers: Delivery | Exception) -> None:
        self.answers = answers
        self.taken: list[tuple[str, str]] = []

    async def deliver(self, letter: Letter) -> Delivery:
        self.taken.append((letter.to, words(letter)))
        answer = self.answers.get(words(letter), SENT)
        if isinstance(answer, Exception):
            raise answer
        return answer

    @property
    def words(self) -> list[str]:
        return [text for _, text in self.taken]


async def drained(sender: Sender, most: int = 20) -> int:
    """Step until nothing is left to send; how many steps it took."""
    for count in range(most):
        if await sender.step() == 0:
            return count
    return most


# --- reading --------------------------------------------------------------------------


def test_a_batch_holds_one_message_a_mailbox(shop: Shop) -> None:
    """The next one comes when the first is out."""
    shop.send("say one; say two")
    first = shop.outbox.waiting()
    assert [words(letter) for letter in first] == ["one"]
    shop.outbox.mark_sent(letter.seq for letter in first)
    assert [words(letter) for letter in shop.outbox.waiting()] == ["two"]


def test_all_that_waits_can_be_read_in_order(shop: Shop) -> None:
    """For a channel that shows everything at once."""
    shop.send("say one; desk two; say three")
    assert [words(letter) for letter in shop.outbox.backlog()] == ["one", "two", "three"]
    assert [words(letter) for letter in shop.outbox.backlog(limit=2)] == ["one", "two"]


def test_messages_since_a_row_are_those_after_it(shop: Shop) -> None:
    """Sent or not, of this mailbox alone."""
    shop.send("say one; say two; say three")
    shop.send("say four", person="ola")
    first = shop.outbox.since("anna")[0]
    shop.outbox.mark_sent([first.seq + 1])
    since = shop.outbox.since("anna", first.seq)
    assert [(words(letter), letter.sent) for letter in since] == [("two", True), ("three", False)]


def test_a_conversation_is_told_in_order(shop: Shop) -> None:
    """What a person sent, and after it what was said to that, even if more came in between."""
    batch = [shop.text("say one"), shop.text("say two; say three")]
    shop.service.receive_many(batch, "web")
    told = [
        entry.event.id if isinstance(entry, Heard) else words(entry)
        for entry in shop.outbox.transcript("anna")
    ]
    assert told == ["e1", "one", "e2", "two", "three"]


def test_a_conversation_counts_both_sides(shop: Shop) -> None:
    """The k-th message each way; a tap is not counted as one."""
    shop.send("say one")
    shop.send("say two")
    counts = [(type(entry).__name__, entry.k) for entry in shop.outbox.transcript("anna")]
    assert counts == [("Heard", 1), ("Letter", 1), ("Heard", 2), ("Letter", 2)]


def test_a_conversation_outlives_a_restart(shop: Shop) -> None:
    """It is told the same after opening again, and to nobody else."""
    shop.send("say one")
    before = shop.outbox.transcript("anna")
    shop.reopen()
    assert shop.outbox.transcript("anna") == before
    assert shop.outbox.transcript("ola") == []
    assert isinstance(before[0], Heard)
    assert isinstance(before[0].event, Text | Choose)


# --- sending --------------------------------------------------------------------------


async def test_everything_goes_out_once_and_in_order(shop: Shop) -> None:
    """Each person's messages in the order in which they were said."""
    for person in ("anna", "ola"):
        shop.send("say one; say two; say three", person=person)
    post = Post()
    assert await drained(Sender(shop.outbox, post.deliver)) == 3
    for person in ("anna", "ola"):
        assert [text for to, text in post.taken if to == person] == ["one", "two", "three"]


async def test_what_never_left_is_tried_again(shop: Shop) -> None:
    """After a pause that grows, and before anything that comes later for the same person."""
    shop.send("say one; say two")
    post = Post(one=Delivery(Outcome.NOT_SENT))
    sender = Sender(shop.outbox, post.deliver)
    for seconds in (0, 1, 2, 4, 8, 16, 32, 60, 60):
        shop.clock.advance(timedelta(seconds=seconds))
        assert await sender.step() == 1
        assert await sender.step() == 0
    post.answers.clear()
    shop.clock.advance(timedelta(seconds=60))
    await drained(sender)
    assert post.words == ["one"] * 10 + ["two"]


async def test_the_other_side_says_how_long_to_wait(shop: Shop) -> None:
    """Nothing goes to this person before that, others are served."""
    shop.send("say one", person="anna")
    shop.send("say two", person="ola")
    post = Post(one=Delivery(Outcome.NOT_SENT, pause=timedelta(hours=1)))
    sender = Sender(shop.outbox, post.deliver)
    await drained(sender)
    shop.clock.advance(timedelta(minutes=59))
    assert await sender.step() == 0
    shop.clock.advance(timedelta(minutes=1))
    assert await sender.step() == 1
    assert post.words == ["one", "two", "one"]


async def test_a_lost_answer_is_sent_once_more_at_most(shop: Shop) -> None:
    """It may have arrived: two times are enough, then the next one goes."""
    shop.send("say one; say two")
    post = Post(one=Delivery(Outcome.NO_ANSWER))
    await drained(Sender(shop.outbox, post.deliver))
    assert post.words == ["one", "one", "two"]
    assert shop.rows("SELECT state, error FROM outbox") == [
        ("failed", "no-answer"),
        ("sent", None),
    ]


@pytest.mark.parametrize("answer", [Delivery(Outcome.REFUSED, code="broken"), KeyError("broken")])
async def test_a_message_nobody_takes_does_not_hold_up_the_next(
    shop: Shop, answer: Delivery | Exception
) -> None:
    """It is given up; also where sending it raises."""
    shop.send("say one; say two")
    post = Post(one=answer)
    await drained(Sender(shop.outbox, post.deliver))
    assert post.words == ["one", "two"]
    code = "broken" if isinstance(answer, Delivery) else "KeyError"
    assert shop.rows("SELECT state, error FROM outbox WHERE seq = 1") == [("failed", code)]


async def test_nothing_more_goes_to_a_person_who_is_gone(shop: Shop) -> None:
    """All that waits for them is given up until they write again."""
    shop.send("say one; say two")
    post = Post(one=Delivery(Outcome.GONE))
    await drained(Sender(shop.outbox, post.deliver))
    assert post.words == ["one"]
    assert shop.rows("SELECT reachable FROM people") == [(0,)]
    shop.send("say three")
    await drained(Sender(shop.outbox, post.deliver))
    assert post.words == ["one", "three"]
    assert shop.rows("SELECT reachable FROM people") == [(1,)]


async def test_a_file_that_cannot_be_written_beside_a_working_network_sends_once(
    shop: Shop, monkeypatch: pytest.MonkeyPatch
) -> None:
    """What is out but could not be marked is not sent again, and nothing else goes out."""
    shop.send("say one", person="anna")
    shop.send("say two", person="ola")
    post = Post()
    sender = Sender(shop.outbox, post.deliver)
    with Held(shop):
        for _ in range(20):
            with pytest.raises(UnavailableError):
                await sender.step()
            assert sorted(post.words) == ["one", "two"]
    shop.send("say three")
    await drained(sender)
    assert sorted(post.words) == ["one", "three", "two"]
    assert shop.rows("SELECT count(*) FROM outbox WHERE state <> 'sent'") == [(0,)]


class Held:
    """Nothing can be written while the context is open: another process holds the file."""

    def __init__(self, shop: Shop) -> None:
        self._other = sqlite3.connect(shop.database.path, isolation_level=None)
        self._shop = shop

    def __enter__(self) -> None:
        with self._shop.database.reading() as connection:
            connection.execute("PRAGMA busy_timeout = 1")
        self._other.execute("BEGIN IMMEDIATE")

    def __exit__(self, *_: object) -> None:
        self._other.execute("ROLLBACK")
        self._other.close()


async def test_a_running_sender_wakes_when_something_is_said(shop: Shop) -> None:
    """No waiting for the next look; it ends when it is told to."""
    stop = asyncio.Event()
    arrived = asyncio.Event()

    async def deliver(_letter: Letter) -> Delivery:
        arrived.set()
        return SENT

    task = running(shop, deliver, stop)
    await asyncio.sleep(0)
    shop.send("say one")
    await asyncio.wait_for(arrived.wait(), 2)
    stop.set()
    await asyncio.wait_for(task, 2)
    assert shop.rows("SELECT state FROM outbox") == [("sent",)]


async def test_a_running_sender_goes_on_after_trouble(shop: Shop) -> None:
    """What could not be marked is marked when the file can be written again."""
    shop.send("say one")
    stop = asyncio.Event()
    post = Post()
    with Held(shop):
        task = running(shop, post.deliver, stop)
        while not post.taken:
            await asyncio.sleep(0.01)
    while shop.outbox.backlog():
        await asyncio.sleep(0.01)
    stop.set()
    await asyncio.wait_for(task, 2)
    assert post.words == ["one"]


def running(shop: Shop, deliver: Deliver, stop: asyncio.Event) -> asyncio.Task[None]:
    """A sender that runs beside the test."""
    return asyncio.create_task(Sender(shop.outbox, deliver).run(shop.bell, stop, pause=0.05))
