"""What can be said at any time."""

from __future__ import annotations

from collections.abc import Callable
from datetime import timedelta

import pytest

from conversations.effects import Journal, Remind, Say
from conversations.script import QUESTIONS
from conversations.session import Asking, Errand, Notebook, Said
from conversations.steps import Asker, Step
from conversations.turns import wishes
from conversations.turns.turn import Turn

NUMBER = "48291742"
Begin = Callable[..., Turn]


def last(turn: Turn) -> Say:
    """The newest message to the person."""
    return [one for one in turn.effects if isinstance(one, Say) and one.to == "person"][-1]


@pytest.mark.parametrize(
    ("text", "wish"),
    [
        ("/start", "start"), ("/start from-a-link", "start"), ("/help@our_bot", "help"),
        ("/start_over", "start-over"), ("/startover", "start-over"), ("/settings", "language"),
        ("help", "help"), ("Help!", "help"), (" CARRY ON. ", "carry-on"), ("?", "help"),
        ("pomoc", "help"), ("później", "later"), ("my orders", "status"),
        ("ask a person", "person"),
    ],
)  # fmt: skip
def test_a_wish_is_known_by_its_words(text: str, wish: str) -> None:
    """As a command, in any language, with or without a full stop."""
    assert wishes.named(text) == wish


@pytest.mark.parametrize(
    "text", ["", " ", "/", "/@", "/@x", "/nothing", "help me with 360", "360", "Helper", "/360"]
)
def test_what_is_an_answer_is_no_wish(text: str) -> None:
    """Only the whole message counts."""
    assert wishes.named(text) is None


@pytest.mark.parametrize("text", ["no lugs", "It has no lugs.", "NO EARS!"])
def test_having_no_lugs_is_understood(text: str) -> None:
    """Alone, not beside a number."""
    assert wishes.says_no_lugs(text)
    assert not wishes.says_no_lugs(f"390 {text}")


@pytest.mark.parametrize("wish", wishes.WISHES)
@pytest.mark.parametrize("step", [*QUESTIONS, Step.READ_BACK, Step.RESTING])
def test_every_wish_is_answered_everywhere(
    begin: Begin, notebook: Notebook, wish: str, step: Step
) -> None:
    """In one message, and none of them changes an answer."""
    for given in (Notebook(), notebook):
        turn = begin(Asking(step=step), given)
        wishes.grant(turn, wish)
        heard = [one for one in turn.effects if isinstance(one, Say) and one.to == "person"]
        assert len(heard) == 1
        assert turn.session.notebook in (given, Notebook())
        assert (turn.session.notebook == given) or wish == "start-over"


@pytest.mark.parametrize("wish", ["help", "privacy", "status", "person", "later", "change"])
def test_a_wish_leaves_the_question_standing(begin: Begin, notebook: Notebook, wish: str) -> None:
    """The next number is still its answer."""
    asking = Asking(step=Step.LUG_ROOM, asker=Asker.CHANGE, tries=1, k=1)
    turn = begin(asking, notebook)
    wishes.grant(turn, wish)
    assert turn.asking == asking


def test_starting_over_can_be_undone_once(begin: Begin, notebook: Notebook) -> None:
    """The answers come back, and the conversation with them."""
    turn = begin(Asking(step=Step.READ_BACK), notebook)
    wishes.grant(turn, "start-over")
    assert turn.session.notebook == Notebook()
    assert "undo" in {choice.id for choice in last(turn).choices}
    wishes.grant(turn, "undo")
    assert turn.session.notebook == notebook
    assert turn.asking.step is Step.READ_BACK
    wishes.grant(turn, "undo")
    assert turn.session.notebook == notebook


def test_what_is_thrown_away_ends_after_ninety_days(begin: Begin, notebook: Notebook) -> None:
    """With nothing to throw away nothing is planned."""
    turn = begin(notebook=notebook)
    wishes.grant(turn, "start-over")
    reminders = [one for one in turn.effects if isinstance(one, Remind)]
    assert [(one.what, one.at - turn.context.now) for one in reminders] == [
        ("notebook-end", timedelta(days=90))
    ]
    empty = begin()
    wishes.grant(empty, "start-over")
    assert not any(isinstance(one, Remind) for one in empty.effects)
    assert "undo" not in {choice.id for choice in last(empty).choices}


def test_starting_over_leaves_orders_alone(begin: Begin, notebook: Notebook) -> None:
    """Their messages can still be edited, their questions still wait."""
    said = (Said(k=1, steps=(Step.LUG_ROOM,), number=NUMBER), Said(k=2, steps=(Step.LUG_ROOM,)))
    errand = Errand(number=NUMBER, step=Step.LUG_ROOM)
    turn = begin(notebook=notebook, stage="question-out", said=said, errands=(errand,))
    wishes.grant(turn, "start-over")
    assert turn.session.said == said[:1]
    assert turn.session.errands == (errand,)
    assert turn.session.handed == {NUMBER: notebook}


def test_a_person_asked_for_is_told_to_the_desk(begin: Begin) -> None:
    """With the number where there is an order; it stands in the journal."""
    for stage, key in ((None, "desk.person_wanted_new"), ("made", "desk.person_wanted")):
        turn = begin(stage=stage)
        wishes.grant(turn, "person")
        told = [one for one in turn.effects if isinstance(one, Say) and one.to == "desk"]
        assert [one.lines[0].key for one in told] == [key]
        assert any(isinstance(one, Journal) for one in turn.effects)


@pytest.mark.parametrize(
    ("stage", "key"), [("handed-in", "change.which"), ("made", "changed.too_late_ask")]
)
def test_changing_after_handing_in_is_about_the_order(
    begin: Begin, notebook: Notebook, stage: str, key: str
) -> None:
    """Past the desk a person decides."""
    turn = begin(Asking(step=Step.RESTING), notebook, stage=stage)
    wishes.grant(turn, "change")
    assert last(turn).lines[0].key == key


def test_the_status_names_orders_and_the_notebook(begin: Begin, notebook: Notebook) -> None:
    """And says so where there is neither."""
    both = begin(stage="made")
    both.write(None, answers=notebook.answers)
    wishes.grant(both, "status")
    assert [line.key for line in last(both).lines] == ["status.made", "status.notebook"]
    nothing = begin()
    wishes.grant(nothing, "status")
    assert [line.key for line in last(nothing).lines] == ["resting.none"]
