"""The service against a model in memory: whatever happens, both say the same."""

from __future__ import annotations

import tempfile
from collections import defaultdict
from collections.abc import Callable
from datetime import timedelta
from pathlib import Path
from typing import TYPE_CHECKING

import pytest
from hypothesis import settings
from hypothesis import strategies as st
from hypothesis.stateful import (
    RuleBasedStateMachine,
    invariant,
    rule,
    run_state_machine_as_test,
)

from conversations.events import Text

if TYPE_CHECKING:
    from tests.bot.conftest import Shop

people = st.sampled_from(["anna", "ola"])
commands = st.sampled_from(
    ["say hi", "answer 360", "order", "say a; say b", "break", "say x; break"]
)


class Model(RuleBasedStateMachine):
    """Random events, repeated ones, batches, restarts and time; `make` opens a workshop."""

    make: Callable[[Path], Shop]

    def __init__(self) -> None:
        super().__init__()
        self.folder = tempfile.TemporaryDirectory()
        self.shop = self.make(Path(self.folder.name))
        self.seen: list[Text] = []
        self.said: dict[str, list[str]] = defaultdict(list)
        self.orders: dict[str, int] = defaultdict(int)
        self.reminders: dict[tuple[str, str], float] = {}
        self.now = 0.0

    def teardown(self) -> None:
        self.shop.database.close()
        self.folder.cleanup()

    # --- what the model expects -------------------------------------------------------

    def expect(self, event: Text) -> None:
        """What a first delivery of this event does."""
        self.seen.append(event)
        said = self.said[event.person]
        if "break" in event.text:
            said.append("trouble.dead")
            return
        for command in event.text.split("; "):
            verb, _, rest = command.partition(" ")
            if verb == "say":
                said.append(rest)
            elif verb == "answer":
                said.append(f"noted {rest}")
            elif verb == "order":
                said.append("ordered")
                self.orders[event.person] += 1
            else:
                what, seconds = rest.split()
                self.reminders[event.person, what] = self.now + float(seconds)

    # --- what happens -----------------------------------------------------------------

    @rule(person=people, command=commands)
    def deliver(self, person: str, command: str) -> None:
        """Somebody says something."""
        event = self.shop.text(command, person)
        self.expect(event)
        assert self.shop.service.receive(event, "web")

    @rule(data=st.data())
    def deliver_again(self, data: st.DataObject) -> None:
        """An event comes a second time."""
        if self.seen:
            assert not self.shop.service.receive(data.draw(st.sampled_from(self.seen)), "web")

    @rule(batch=st.lists(st.tuples(people, commands), max_size=4), crash=st.booleans())
    def deliver_many(self, batch: list[tuple[str, str]], crash: bool) -> None:
        """Several events at once; with a crash after they were kept and before their turns."""
        events = [self.shop.text(command, person) for person, command in batch]
        for event in events:
            self.expect(event)
        if not crash:
            assert self.shop.service.receive_many(events, "web") == [True] * len(events)
            return
        with pytest.MonkeyPatch.context() as patch:
            patch.setattr(self.shop.service, "_catch_up", lambda: 0)
            self.shop.service.receive_many(events, "web")
        self.shop.reopen()
        assert self.shop.service.resume() == len(events)

    @rule(person=people, what=st.sampled_from("xy"), seconds=st.integers(1, 100))
    def remind(self, person: str, what: str, seconds: int) -> None:
        """A reminder is set, or put off."""
        event = self.shop.text(f"remind {what} {seconds}", person)
        self.expect(event)
        self.shop.service.receive(event, "web")

    @rule(seconds=st.integers(0, 120))
    def go_on(self, seconds: int) -> None:
        """Time goes on; what is due happens, the earliest first."""
        self.now += seconds
        self.shop.clock.advance(timedelta(seconds=seconds))
        self.shop.service.tick()
        due = sorted((at, *key) for key, at in self.reminders.items() if at <= self.now)
        for _, person, what in due:
            self.said[person].append(f"due {what}")
            del self.reminders[person, what]

    @rule()
    def restart(self) -> None:
        """What was only in memory is gone."""
        self.shop.reopen()

    # --- what must hold ---------------------------------------------------------------

    @invariant()
    def both_said_the_same(self) -> None:
        """Every message, in order, counted without a gap."""
        for person, said in self.said.items():
            letters = self.shop.outbox.since(person)
            assert self.shop.said_to(person) == said
            assert [letter.k for letter in letters] == list(range(1, len(said) + 1))

    @invariant()
    def there_are_as_many_orders(self) -> None:
        """Each person has the orders they handed in, each with its own number."""
        rows = self.shop.rows("SELECT person, count(DISTINCT number) FROM orders GROUP BY person")
        assert dict(rows) == {person: count for person, count in self.orders.items() if count}

    @invariant()
    def nothing_is_left_over(self) -> None:
        """No event waits, and each was tried once or died."""
        rows = self.shop.rows("SELECT DISTINCT state, tries FROM inbox")
        assert set(rows) <= {("done", 0), ("dead", 3)}


@pytest.mark.slow
def test_the_service_does_what_the_model_says(new_shop: Callable[[Path], Shop]) -> None:
    """Over random sequences of events, repeats, batches, crashes, restarts and waits."""

    class Made(Model):
        make = staticmethod(new_shop)

    assert issubclass(Made, RuleBasedStateMachine)
    run_state_machine_as_test(Made, settings=settings(max_examples=20, stateful_step_count=25))
