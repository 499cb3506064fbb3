"""All parts put together."""

from __future__ import annotations

from datetime import UTC, datetime
from pathlib import Path

import pytest

from bot.settings import Settings, load_settings
from bot.storage.errors import InUseError
from bot.wiring import open_workshop
from bot.world import SeededChance, SetClock
from conversations.events import Text

START = datetime(2026, 3, 2, 9, tzinfo=UTC)


@pytest.fixture
def settings(tmp_path: Path) -> Settings:
    """A workshop in a folder of its own."""
    return load_settings(
        database=tmp_path / "data" / "workshop.db", key_file=tmp_path / "secret" / "key"
    )


def test_a_word_is_answered_by_the_real_parts(settings: Settings) -> None:
    """The first message gets a message with words in it."""
    with open_workshop(settings, clock=SetClock(START), chance=SeededChance(0)) as workshop:
        event = Text(id="1", person="anna", at=START, text="hello")
        assert workshop.service.receive(event, "web")
        [letter] = workshop.outbox.waiting(channel="web")
        message = workshop.presenter.present(letter.say)
        assert message.question == "language"
        assert message.text
        assert letter.at == START


def test_only_one_workshop_is_open_on_a_database(settings: Settings) -> None:
    """A second one is refused until the first is closed."""
    with open_workshop(settings), pytest.raises(InUseError):
        open_workshop(settings)
    open_workshop(settings).close()


def test_without_a_clock_it_is_now(settings: Settings) -> None:
    """The machine's own clock is used where none is given."""
    with open_workshop(settings) as workshop:
        before = datetime.now(UTC)
        assert before <= workshop.clock.now()
