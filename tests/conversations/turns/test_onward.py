"""What comes next."""

from __future__ import annotations

from collections.abc import Callable
from datetime import timedelta

from conversations.effects import NoMoreReminders, OrderVersion, Remind, Say
from conversations.session import Asking, Errand, Notebook
from conversations.steps import Asker, Step
from conversations.turns import onward
from conversations.turns.turn import Turn, line

NUMBER = "48291742"
Begin = Callable[..., Turn]
Without = Callable[[Notebook, Step], Notebook]
ERRANDS = tuple(Errand(number=NUMBER, step=step) for step in (Step.LUG_ROOM, Step.LEDGE_UP))


def last(turn: Turn) -> Say:
    """The newest message to the person."""
    return [one for one in turn.effects if isinstance(one, Say) and one.to == "person"][-1]


def ids(turn: Turn) -> set[str]:
    """The choices of the newest message."""
    return {choice.id for choice in last(turn).choices}


def test_after_an_answer_comes_the_next_question(
    begin: Begin, notebook: Notebook, without: Without
) -> None:
    """The first one without an answer, wherever the conversation was."""
    turn = begin(Asking(step=Step.FRAMES_HELD), without(notebook, Step.LUG_TO_LUG))
    onward.go_on(turn)
    assert last(turn).question == "lug_to_lug"


def test_after_the_last_answer_comes_the_read_back(begin: Begin, notebook: Notebook) -> None:
    """With the cage drawn, and all that was taken to be changed."""
    turn = begin(Asking(step=Step.CONTACT), notebook)
    onward.go_on(turn, (line("echo.contact"),))
    assert last(turn).question == "read_back"
    assert last(turn).stage == "read-back"
    assert {"hand-in", "change", "spacer", "lid", "material", "pieces", "frames_out"} <= ids(turn)
    picture = last(turn).picture
    assert picture is not None
    assert (picture.name, picture.request is not None) == ("cage", True)


def test_what_is_missing_is_asked_for_instead_of_handing_in(
    begin: Begin, notebook: Notebook, without: Without
) -> None:
    """One tap leads to each; the button to hand in is not there."""
    left = without(notebook, Step.LUG_TO_LUG)
    turn = begin(notebook=left.model_copy(update={"parked": (Step.LUG_TO_LUG,)}))
    onward.show_read_back(turn)
    assert "lug_to_lug" in ids(turn)
    assert "hand-in" not in ids(turn)
    assert last(turn).picture is None


def test_an_answer_for_an_order_makes_its_version_and_returns(
    begin: Begin, notebook: Notebook
) -> None:
    """To the next question of the desk, if there is one."""
    asking = Asking(step=Step.LID, number=NUMBER)
    turn = begin(asking, notebook, stage="question-out", errands=ERRANDS)
    onward.go_on(turn)
    assert any(isinstance(one, OrderVersion) for one in turn.effects)
    assert (turn.asking.step, turn.asking.asker) == (Step.LUG_ROOM, Asker.DESK)
    assert last(turn).again


def test_a_question_of_the_desk_comes_before_the_notebook(begin: Begin, notebook: Notebook) -> None:
    """Whatever was answered meanwhile, it is not forgotten."""
    turn = begin(Asking(step=Step.PURPOSE), notebook, errands=ERRANDS)
    onward.go_on(turn, (line("echo.contact"),))
    assert [one.key for one in last(turn).lines][:3] == ["echo.contact", "blank", "ask.again"]
    assert turn.asking.number == NUMBER


def test_with_nothing_left_to_ask_the_conversation_rests(begin: Begin) -> None:
    """No question, no message of its own."""
    turn = begin(Asking(step=Step.LUG_ROOM, number=NUMBER), stage="handed-in")
    onward.resume(turn)
    assert turn.asking == Asking(step=Step.RESTING)
    assert turn.effects == []


def test_leaving_a_change_of_an_order_makes_no_version(begin: Begin, notebook: Notebook) -> None:
    """It says that all stays as it was."""
    asking = Asking(step=Step.LID, asker=Asker.CHANGE, number=NUMBER)
    turn = begin(asking, notebook, stage="handed-in")
    onward.leave(turn, (line("change.nothing"),))
    assert [one.kind for one in turn.effects] == ["say"]
    assert turn.asking.step is Step.RESTING


def test_there_is_one_reminder_at_a_time(begin: Begin) -> None:
    """Whoever comes back is reminded a day after that, and of nothing planned before."""
    turn = begin(resting=True)
    onward.remind(turn)
    assert turn.effects == [
        NoMoreReminders(beginning="notebook-"),
        Remind(what="notebook-1", at=turn.context.now + timedelta(hours=24)),
    ]
    assert not turn.session.resting


def test_who_said_later_is_not_reminded_but_not_kept_for_ever(begin: Begin) -> None:
    """The notebook ends after ninety days."""
    turn = begin()
    onward.rest(turn)
    assert turn.effects == [
        NoMoreReminders(beginning="notebook-"),
        Remind(what="notebook-end", at=turn.context.now + timedelta(days=90)),
    ]
    assert turn.session.resting


def test_asking_again_says_the_same_question_from_wherever_it_stands(
    begin: Begin, notebook: Notebook
) -> None:
    """A question, the read-back, the languages, or where the orders stand."""
    for step in (Step.LUG_ROOM, Step.READ_BACK, Step.LANGUAGE):
        turn = begin(Asking(step=step), notebook)
        onward.ask_again(turn, (line("welcome.back"),))
        assert last(turn).question == step.value
        assert last(turn).lines[0].key == "welcome.back"
        assert turn.asking.step is step
    turn = begin(Asking(step=Step.RESTING), notebook, stage="on-the-bench")
    onward.ask_again(turn)
    assert [one.key for one in last(turn).lines] == ["status.on-the-bench"]
    assert ids(turn) == {"start-over", "person"}


def test_languages_can_be_chosen_whenever_they_are_asked_for(begin: Begin) -> None:
    """Asking for the language again without its buttons would be a dead end."""
    turn = begin(Asking(step=Step.LANGUAGE))
    onward.ask_again(turn)
    assert {"en", "pl"} <= ids(turn)


def test_resting_with_an_order_that_can_change_offers_to_change_it(begin: Begin) -> None:
    """Past the desk it is not offered."""
    turn = begin(Asking(step=Step.RESTING), stage="handed-in")
    onward.ask_again(turn)
    assert ids(turn) == {"change", "start-over", "person"}
