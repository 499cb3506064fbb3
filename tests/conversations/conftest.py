"""What the tests of this folder share: chats played so far, and single turns."""

from __future__ import annotations

from collections.abc import Callable
from datetime import UTC, datetime
from typing import Protocol

import pytest
from player import Player

from conversations.context import Context, OrderView
from conversations.events import Event, Text
from conversations.session import Answer, Asking, Notebook, Session, load
from conversations.steps import Step
from conversations.turns.turn import Turn
from sizing.workshop import default_figures

NOW = datetime(2026, 3, 2, 9, tzinfo=UTC)
FILLED = """
anna> hello
anna> [en]
anna> [isolate]
anna> Wielkopolska
anna> 360x260x391
anna> yes
anna> 10 35 27 375 393 253 17
anna> yes
anna> [box]
anna> 10
anna> anna@example.org
anna? read_back
"""
HANDED_IN = f"{FILLED}anna> [hand-in]\norders< 1\n"

VALUES = {
    Step.PURPOSE: "isolate", Step.FRAME_NAME: "Wielkopolska", Step.SIDE_TO_SIDE: "360",
    Step.TOP_TO_BOTTOM: "260", Step.LUG_TO_LUG: "391", Step.LUG_THICKNESS: "10",
    Step.WIDEST_WOOD: "35", Step.COMB_THICKNESS: "27", Step.INSIDE_ALONG: "375",
    Step.LUG_ROOM: "393", Step.LEDGE_DOWN: "253", Step.LEDGE_UP: "17", Step.BELOW: "box",
    Step.FRAMES_HELD: "10", Step.CONTACT: "anna@example.org",
}  # fmt: skip


class Begin(Protocol):
    """Makes a turn in the middle of a conversation."""

    def __call__(
        self,
        asking: Asking | None = None,
        notebook: Notebook | None = None,
        *,
        event: Event | None = None,
        stage: str | None = None,
        **session: object,
    ) -> Turn: ...


@pytest.fixture
def played() -> Callable[[str], Player]:
    """Plays a chat; what came of it is in the player."""

    def play(text: str) -> Player:
        player = Player()
        player.play(text)
        return player

    return play


@pytest.fixture
def filled() -> str:
    """A chat up to the read-back."""
    return FILLED


@pytest.fixture
def handed_in() -> str:
    """A chat up to the number."""
    return HANDED_IN


@pytest.fixture
def session_of() -> Callable[[Player], Session]:
    """Anna's session after a chat."""
    return lambda player: load(player.people["anna"].session)


@pytest.fixture
def answer() -> Callable[..., Answer]:
    """An answer of today."""
    return lambda value, **fields: Answer(value=value, at=NOW, **fields)


@pytest.fixture
def notebook(answer: Callable[..., Answer]) -> Notebook:
    """A notebook in which everything is answered."""
    return Notebook(answers={step: answer(value, raw=value) for step, value in VALUES.items()})


@pytest.fixture
def without() -> Callable[[Notebook, Step], Notebook]:
    """A notebook with one answer less."""

    def less(notebook: Notebook, step: Step) -> Notebook:
        left = {other: one for other, one in notebook.answers.items() if other != step}
        return notebook.model_copy(update={"answers": left})

    return less


@pytest.fixture
def begin() -> Begin:
    """Makes a turn. With a `stage` there is an order 48291742, handed in from `notebook`."""

    def make(
        asking: Asking | None = None,
        notebook: Notebook | None = None,
        *,
        event: Event | None = None,
        stage: str | None = None,
        **session: object,
    ) -> Turn:
        orders = () if stage is None else (OrderView("48291742", 1, stage, NOW),)
        context = Context(
            now=NOW, figures=default_figures(), next_number="48291839", orders=orders
        )  # fmt: skip
        given = notebook or Notebook()
        fields: dict[str, object] = {
            "person": "anna", "greeted": True, "language_chosen": True,
            "asking": asking or Asking(step=Step.SIDE_TO_SIDE), "said_count": 1, **session,
        }  # fmt: skip
        fields |= {"handed": {"48291742": given}} if stage else {"notebook": given}
        happened = event or Text(id="1", person="anna", at=NOW, text="")
        return Turn(Session.model_validate(fields), happened, context)

    return make
