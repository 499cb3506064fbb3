"""What is made of the answer to a question of suspicion."""

from __future__ import annotations

from collections.abc import Callable

import pytest

from conversations.effects import Journal, Say
from conversations.session import Answer, Asking, Notebook
from conversations.steps import Asker, Mode, Step
from conversations.turns.settling import choose, read_instead
from conversations.turns.turn import Turn

Begin = Callable[..., Turn]
Change = Callable[[dict[Step, str]], Notebook]


@pytest.fixture
def wrong(notebook: Notebook, answer: Callable[..., Answer]) -> Change:
    """The filled notebook with wrong answers in it."""

    def made(changes: dict[Step, str]) -> Notebook:
        new = {step: answer(value) for step, value in changes.items()}
        return notebook.model_copy(update={"answers": {**notebook.answers, **new}})

    return made


def about(step: Step, name: str | None = None) -> Asking:
    """The question of suspicion about one answer."""
    return Asking(step=step, asker=Asker.DOUBT, separate=name or step.value)


def said(turn: Turn) -> Say:
    """The one message that was sent."""
    (message,) = [effect for effect in turn.effects if isinstance(effect, Say)]
    return message


def value(turn: Turn, step: Step) -> str | None:
    """What the notebook holds."""
    return turn.session.notebook.answers[step].value


def test_another_way_is_measured_again_and_nothing_changes_before(
    begin: Begin, wrong: Change
) -> None:
    """Between the bars: the length is asked for once more, the old one stands and is not shown."""
    turn = begin(about(Step.TOP_TO_BOTTOM), wrong({Step.TOP_TO_BOTTOM: "240"}))
    choose(turn, "opening")
    assert (said(turn).question, said(turn).again) == ("top_to_bottom", True)
    assert "ask.was" not in [line.key for line in said(turn).lines]
    assert value(turn, Step.TOP_TO_BOTTOM) == "240"
    assert turn.session.notebook.doubted == ("top_to_bottom",)


def test_as_asked_is_read_once_more_only_where_a_slip_may_be(begin: Begin, wrong: Change) -> None:
    """A swapped digit shows in a second reading; where none is likely the desk has a look."""
    slip = begin(about(Step.LUG_TO_LUG), wrong({Step.LUG_TO_LUG: "319"}))
    choose(slip, "to-tips")
    assert (said(slip).question, said(slip).again) == ("lug_to_lug", True)
    none = begin(about(Step.LEDGE_DOWN), wrong({Step.INSIDE_ALONG: "310"}))
    choose(none, "to-edge")
    assert said(none).lines[0].key == "doubt.noted"


def test_insisting_is_kept_with_the_answer(begin: Begin, wrong: Change) -> None:
    """The length stays, marked, and nothing else is asked about it."""
    turn = begin(about(Step.SIDE_TO_SIDE), wrong({Step.SIDE_TO_SIDE: "340"}))
    choose(turn, "insist")
    assert turn.session.notebook.answers[Step.SIDE_TO_SIDE].insisted
    assert value(turn, Step.SIDE_TO_SIDE) == "340"
    assert said(turn).lines[0].key == "doubt.insisted"


def test_not_knowing_goes_on(begin: Begin, wrong: Change) -> None:
    """Nobody is held up."""
    turn = begin(about(Step.TOP_TO_BOTTOM), wrong({Step.TOP_TO_BOTTOM: "240"}))
    choose(turn, "dont-know")
    assert said(turn).question == "read_back"


@pytest.mark.parametrize(("choice", "question"), [("along", "propose"), ("down", "read_back")])
def test_a_turned_frame_is_offered_turned(
    begin: Begin, wrong: Change, choice: str, question: str
) -> None:
    """Longer along the top bar, typed longer down: both are shown turned. As typed: nothing."""
    turned = wrong({Step.SIDE_TO_SIDE: "260", Step.TOP_TO_BOTTOM: "360"})
    turn = begin(about(Step.SIDE_TO_SIDE, "longer"), turned)
    choose(turn, choice)
    if question == "propose":
        assert turn.asking.mode is Mode.PROPOSE
        assert [int(one) for one in turn.asking.values] == [360, 260]
        assert value(turn, Step.SIDE_TO_SIDE) == "260"
        assert said(turn).question == question
    else:
        assert turn.asking.mode is not Mode.PROPOSE


@pytest.mark.parametrize("choice", ["eight", "sixteen"])
def test_an_inch_tape_is_read_again_with_its_unit(begin: Begin, wrong: Change, choice: str) -> None:
    """8 or 16 gaps between two numbers are inches."""
    turn = begin(about(Step.SIDE_TO_SIDE, "marks"), wrong({Step.SIDE_TO_SIDE: "1417/10"}))
    choose(turn, choice)
    assert "doubt.inches" in [line.key for line in said(turn).lines]
    assert said(turn).again


def test_a_number_instead_of_a_choice_is_a_new_reading(begin: Begin, wrong: Change) -> None:
    """Who measures at once need not tap."""
    turn = begin(about(Step.TOP_TO_BOTTOM), wrong({Step.TOP_TO_BOTTOM: "240"}))
    read_instead(turn, "260 mm")
    answer = turn.session.notebook.answers[Step.TOP_TO_BOTTOM]
    assert (answer.value, answer.how) == ("260", "asked-again")
    assert turn.session.notebook.doubted == ("top_to_bottom",)


def test_what_was_answered_stands_in_the_journal(begin: Begin, wrong: Change) -> None:
    """The question and the choice, by their ids."""
    turn = begin(about(Step.TOP_TO_BOTTOM), wrong({Step.TOP_TO_BOTTOM: "240"}))
    choose(turn, "comb-alone")
    (entry,) = [effect for effect in turn.effects if isinstance(effect, Journal)]
    assert (entry.what, entry.question, entry.after) == (
        "doubt", "separate:top_to_bottom", "comb-alone",
    )  # fmt: skip
