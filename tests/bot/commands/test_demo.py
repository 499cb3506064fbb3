"""The demo workshop."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterator
from pathlib import Path
from typing import Any

import pytest

from bot.commands import demo
from bot.settings import Settings
from bot.wiring import Workshop, open_workshop


@pytest.fixture
def settings(tmp_path: Path) -> Settings:
    """Settings of a workshop that is not there yet."""
    return Settings(database=tmp_path / "data" / "shop.db", key_file=tmp_path / "secret" / "key")


@pytest.fixture
def workshop(settings: Settings) -> Iterator[Workshop]:
    """The demo workshop, open."""
    demo.make(settings)
    with open_workshop(settings) as made:
        yield made


def test_the_demo_has_orders_at_several_stages(workshop: Workshop) -> None:
    """Every story came to where it was meant to; nothing died on the way."""
    with workshop.database.reading() as connection:
        stages = Counter(row["stage"] for row in connection.execute("SELECT stage FROM orders"))
        states = {row["state"] for row in connection.execute("SELECT state FROM inbox")}
        versions = connection.execute("SELECT max(version) FROM orders").fetchone()[0]
    assert stages == {"handed-in": 2, "question-out": 1, "turned-down": 1, "on-the-bench": 1}
    assert states == {"done"}
    assert versions == 2


def test_nothing_of_the_demo_waits_to_be_sent(workshop: Workshop) -> None:
    """Its people are invented: nobody is to get what was said to them."""
    assert workshop.outbox.backlog() == []


def test_its_people_can_only_be_reached_in_examples(workshop: Workshop) -> None:
    """Addresses of a domain that is kept for examples."""
    with workshop.database.reading() as connection:
        people = [row["person"] for row in connection.execute("SELECT person FROM people")]
    texts = [
        getattr(entry.event, "text", "")
        for person in people
        for entry in workshop.outbox.transcript(person)
        if hasattr(entry, "event")
    ]
    addresses = [text for text in texts if "@" in text]
    assert len(addresses) == 5
    assert all(text.endswith("@example.org") for text in addresses)


def test_a_database_that_is_there_is_left_alone(settings: Settings) -> None:
    """The second start changes nothing of what people did in the first."""
    demo.make(settings)
    before = settings.database.read_bytes()
    demo.make(settings)
    assert settings.database.read_bytes() == before
    assert {file.name for file in settings.database.parent.iterdir()} == {"shop.db"}


def test_a_demo_that_is_cut_off_leaves_no_workshop(
    settings: Settings, monkeypatch: pytest.MonkeyPatch
) -> None:
    """A stop half-way leaves nothing that would be taken for the workshop."""

    def stopped(*_: object) -> None:
        raise KeyboardInterrupt

    monkeypatch.setattr(demo, "_play", stopped)
    with pytest.raises(KeyboardInterrupt):
        demo.make(settings)
    assert list(settings.database.parent.iterdir()) == []


def test_two_starts_at_once_make_one_demo(
    settings: Settings, monkeypatch: pytest.MonkeyPatch
) -> None:
    """The one that is later leaves in place what the other has made."""
    play = demo._play

    def overtaken(*story: Any) -> None:
        monkeypatch.setattr(demo, "_play", play)
        demo.make(settings)
        play(*story)

    monkeypatch.setattr(demo, "_play", overtaken)
    demo.make(settings)
    with open_workshop(settings) as workshop, workshop.database.reading() as connection:
        assert connection.execute("SELECT count(*) FROM orders").fetchone()[0] == 5
    assert {file.name for file in settings.database.parent.iterdir()} >= {"shop.db"}
