"""How long a message has to wait, on a clock that the test moves."""

from __future__ import annotations

from bot.channels.telegram.limiter import Limiter


class Hands:
    """A clock whose hands are moved."""

    def __init__(self) -> None:
        self.now = 100.0

    def __call__(self) -> float:
        return self.now


def test_one_message_a_second_to_one_chat() -> None:
    """The second waits for what is left of the second; another chat does not."""
    clock = Hands()
    limiter = Limiter(clock)
    assert limiter.wait(1) == 0
    limiter.sent(1)
    clock.now += 0.4
    assert round(limiter.wait(1), 6) == 0.6
    assert limiter.wait(2) == 0
    clock.now += 0.6
    assert limiter.wait(1) == 0


def test_about_twenty_five_a_second_in_all() -> None:
    """In no window of a second are there more, whoever they are for."""
    clock = Hands()
    limiter = Limiter(clock)
    sent: list[float] = []
    for chat in range(200):
        clock.now += limiter.wait(chat)
        limiter.sent(chat)
        sent.append(clock.now)
    most = max(sum(1 for at in sent if start <= at < start + 1) for start in sent)
    assert most == 25
    assert sent[-1] - sent[0] < 8.5


def test_a_pause_that_was_asked_for_holds_for_its_chat_alone() -> None:
    """As long as was asked."""
    clock = Hands()
    limiter = Limiter(clock)
    limiter.pause(1, 30)
    assert limiter.wait(1) == 30
    assert limiter.wait(2) == 0
    clock.now += 30
    assert limiter.wait(1) == 0
