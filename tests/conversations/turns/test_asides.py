"""Words for the workshop, and an order that is taken back."""

from __future__ import annotations

from collections.abc import Callable

import pytest

from conversations.effects import Say, StageMoved
from conversations.review import WITHDRAWABLE, Stage
from conversations.session import Asking, Notebook
from conversations.steps import Step
from conversations.turns import asides
from conversations.turns.turn import Turn

Begin = Callable[..., Turn]
NUMBER = "48291742"


def said_to(turn: Turn, to: str) -> list[str]:
    """The keys of what somebody is told."""
    return [line.key for one in turn.effects if isinstance(one, Say) and one.to == to
            for line in one.lines]  # fmt: skip


@pytest.mark.parametrize("stage", Stage)
def test_an_order_is_taken_back_until_it_is_being_made(
    begin: Begin, notebook: Notebook, stage: Stage
) -> None:
    """From then on a person decides, and nothing moves."""
    turn = begin(Asking(step=Step.RESTING), notebook, stage=stage.value)
    asides.withdraw(turn, NUMBER)
    moved = [one.stage for one in turn.effects if isinstance(one, StageMoved)]
    assert moved == (["withdrawn"] if stage in WITHDRAWABLE else [])
    assert said_to(turn, "desk") == (["desk.withdrawn"] if stage in WITHDRAWABLE else [])


@pytest.mark.parametrize("number", [None, "48291839"])
def test_an_order_of_nobody_is_not_taken_back(
    begin: Begin, notebook: Notebook, number: str | None
) -> None:
    """An old button, or a made-up one, moves nothing."""
    turn = begin(Asking(step=Step.RESTING), notebook, stage="handed-in")
    asides.withdraw(turn, number)
    assert not any(isinstance(one, StageMoved) for one in turn.effects)


def test_words_are_cut_and_passed_on_once(begin: Begin, notebook: Notebook) -> None:
    """Whoever writes a novel is heard as far as a message goes; nothing is kept of it here."""
    turn = begin(Asking(step=Step.RESTING), notebook, stage="handed-in", passing=True, unheard="x")
    asides.pass_on(turn, "a" * 5000)
    (news,) = [one for one in turn.effects if isinstance(one, Say) and one.to == "desk"]
    assert len(news.lines[0].values["text"].text) == asides.LONGEST  # type: ignore[union-attr]
    assert (turn.session.passing, turn.session.unheard) == (False, "")


def test_nothing_is_not_passed_on(begin: Begin, notebook: Notebook) -> None:
    """The button without words asks for them."""
    turn = begin(Asking(step=Step.RESTING), notebook, stage="handed-in")
    asides.pass_on(turn, "  ")
    assert said_to(turn, "desk") == []
    assert turn.session.passing
