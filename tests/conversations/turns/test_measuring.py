"""A typed number: taken, asked about, proposed, or asked for again."""

from __future__ import annotations

from collections.abc import Callable
from fractions import Fraction

import pytest

from bot.presenter import Presenter
from conversations.effects import Answered, Say
from conversations.session import Answer, Asking, Errand, Notebook
from conversations.steps import Asker, Mode, Step
from conversations.turns import measuring
from conversations.turns.turn import Turn

NUMBER = "48291742"
Begin = Callable[..., Turn]
Given = Callable[..., Answer]


def value_of(turn: Turn, step: Step = Step.SIDE_TO_SIDE) -> str | None:
    """What stands in the notebook."""
    answer = turn.session.notebook.answers.get(step)
    return answer.value if answer else None


def type_in(turn: Turn, text: str) -> None:
    """The person types an answer to what is asked."""
    measuring.answer(turn, text, turn.asking)


def last(turn: Turn) -> Say:
    """The newest message to the person."""
    return [one for one in turn.effects if isinstance(one, Say) and one.to == "person"][-1]


def test_a_clear_length_is_taken_and_repeated(begin: Begin) -> None:
    """With its resolution and unit; the echo stands above the next question."""
    turn = begin()
    type_in(turn, "36,1 cm")
    taken = turn.session.notebook.answers[Step.SIDE_TO_SIDE]
    assert (taken.value, taken.raw, taken.unit, taken.step) == ("361", "36,1 cm", "cm", Fraction(1))
    assert turn.session.usual_unit == "cm"
    assert last(turn).lines[0].key == "echo.taken"
    assert "other-value" in {choice.id for choice in last(turn).choices}


def test_whole_centimetres_are_not_taken_yet(begin: Begin) -> None:
    """Exactly, or a few millimetres off? A tap makes them exact to the millimetre."""
    turn = begin()
    type_in(turn, "36 cm")
    assert (turn.asking.mode, value_of(turn)) == (Mode.PRECISION, None)
    assert last(turn).question == "precision"
    measuring.precise(turn)
    taken = turn.session.notebook.answers[Step.SIDE_TO_SIDE]
    assert (taken.value, taken.step) == ("360", Fraction(1))


@pytest.mark.parametrize(("agreed", "value"), [(True, "363"), (False, None)])
def test_a_doubtful_length_waits_for_a_yes(begin: Begin, agreed: bool, value: str | None) -> None:
    """A no asks the same question again."""
    turn = begin()
    type_in(turn, "363 cm")
    assert (turn.asking.mode, value_of(turn)) == (Mode.PROPOSE, None)
    measuring.confirm(turn, agreed=agreed)
    assert value_of(turn) == value
    assert turn.asking.step is (Step.PURPOSE if agreed else Step.SIDE_TO_SIDE)


def test_several_lengths_are_proposed_together(begin: Begin) -> None:
    """Taken together or not at all."""
    turn = begin()
    type_in(turn, "360 x 260 x 391")
    assert turn.asking.steps == (Step.SIDE_TO_SIDE, Step.TOP_TO_BOTTOM, Step.LUG_TO_LUG)
    assert turn.session.notebook.answers == {}
    measuring.confirm(turn, agreed=True)
    values = {step: one.value for step, one in turn.session.notebook.answers.items()}
    assert values == {
        Step.SIDE_TO_SIDE: "360", Step.TOP_TO_BOTTOM: "260", Step.LUG_TO_LUG: "391",
    }  # fmt: skip
    assert {one.how for one in turn.session.notebook.answers.values()} == {"bundled"}


def test_a_second_bundle_instead_of_a_yes_is_for_the_same_questions(begin: Begin) -> None:
    """None of them is counted twice."""
    turn = begin()
    type_in(turn, "360x260")
    type_in(turn, "361x261")
    assert turn.asking.steps == (Step.SIDE_TO_SIDE, Step.TOP_TO_BOTTOM)
    assert turn.asking.values == (Fraction(361), Fraction(261))


def test_a_second_bundle_fills_the_questions_in_their_order(begin: Begin) -> None:
    """Whichever of them the first one had left out."""
    turn = begin(Asking(step=Step.LUG_THICKNESS))
    type_in(turn, "10 375")
    assert list(turn.asking.steps) == [Step.LUG_THICKNESS, Step.INSIDE_ALONG]
    type_in(turn, "10 35 375")
    assert list(turn.asking.steps) == [Step.LUG_THICKNESS, Step.WIDEST_WOOD, Step.INSIDE_ALONG]


def test_a_bundle_for_an_order_is_one_new_version(begin: Begin, notebook: Notebook) -> None:
    """Nothing of it counts before the yes, and then all of it at once."""
    turn = begin(Asking(step=Step.SIDE_TO_SIDE, number=NUMBER), notebook, stage="question-out")
    type_in(turn, "361x261")
    assert turn.session.handed[NUMBER] == notebook
    measuring.confirm(turn, agreed=True)
    changed = turn.session.handed[NUMBER].answers
    assert (changed[Step.SIDE_TO_SIDE].value, changed[Step.TOP_TO_BOTTOM].value) == ("361", "261")
    assert [one.kind for one in turn.effects].count("order-version") == 1


def test_a_reading_that_was_offered_is_taken_when_tapped(begin: Begin) -> None:
    """The one that was tapped, as if it had been typed like that."""
    turn = begin(Asking(step=Step.LUG_THICKNESS))
    type_in(turn, "0.7")
    assert turn.asking.mode is Mode.OPTIONS
    assert turn.asking.values == (Fraction(7), Fraction(1778, 100))
    measuring.pick(turn, 0)
    assert value_of(turn, Step.LUG_THICKNESS) == "7"


def test_a_choice_between_units_is_not_put_twice(begin: Begin) -> None:
    """Inches that come out a little long are taken from who said that they are inches."""
    turn = begin(Asking(step=Step.TOP_TO_BOTTOM))
    type_in(turn, '18 15/16"')
    assert turn.asking.mode is Mode.OPTIONS
    measuring.pick(turn, turn.asking.values.index(Fraction(38481, 80)))
    assert value_of(turn, Step.TOP_TO_BOTTOM) == "38481/80"
    assert turn.asking.step is not Step.TOP_TO_BOTTOM


def test_an_unusual_length_is_taken_from_who_measured_again(begin: Begin) -> None:
    """And marked, so that the desk sees it."""
    turn = begin()
    type_in(turn, "720 mm")
    assert "insist" in {choice.id for choice in last(turn).choices}
    measuring.insist(turn)
    taken = turn.session.notebook.answers[Step.SIDE_TO_SIDE]
    assert (taken.value, taken.insisted) == ("720", True)


def test_what_cannot_exist_is_not_insisted_on(begin: Begin) -> None:
    """A hundred metres of side bar are a slip, whoever measured."""
    turn = begin()
    type_in(turn, "99999 mm")
    assert "insist" not in {choice.id for choice in last(turn).choices}


def test_the_third_unreadable_answer_leaves_the_question_open(begin: Begin) -> None:
    """Twice it is asked in other words, never twice in the same."""
    turn = begin()
    texts = []
    for tries in (1, 2):
        type_in(turn, "as long as my arm")
        assert turn.asking.tries == tries
        texts.append(last(turn).lines)
    assert texts[0] != texts[1]
    type_in(turn, "as long as my arm")
    assert turn.session.notebook.parked == (Step.SIDE_TO_SIDE,)
    assert turn.asking.step is not Step.SIDE_TO_SIDE


def test_no_sentence_stands_twice_in_one_message(begin: Begin) -> None:
    """The reason has said from where to where already."""
    for text in ("-5 mm", "99999 mm", "inside 340", "about 360", "pretty long"):
        turn = begin(Asking(step=Step.SIDE_TO_SIDE, tries=1))
        type_in(turn, text)
        said = [one.key for one in last(turn).lines]
        shown = Presenter().present(last(turn)).text
        assert shown.count("Outside of one side bar") <= 1, said
        assert shown.count("Like 363 mm") <= 1, said


@pytest.mark.parametrize("text", ["later please", "how", "call me"])
def test_a_wish_in_other_words_is_granted_and_is_no_try(begin: Begin, text: str) -> None:
    """The question stands as it was."""
    turn = begin()
    type_in(turn, text)
    assert (turn.asking.step, turn.asking.tries) == (Step.SIDE_TO_SIDE, 0)
    assert turn.session.notebook.parked == ()


def test_who_asks_for_a_person_in_other_words_gets_one(begin: Begin) -> None:
    """The desk is told; it is not only said."""
    turn = begin()
    type_in(turn, "I want to talk to a real person")
    assert any(isinstance(one, Say) and one.to == "desk" for one in turn.effects)


def test_not_knowing_brings_another_way_first(begin: Begin) -> None:
    """Then the question is left open and the next one is asked."""
    turn = begin()
    measuring.dont_know(turn, turn.asking)
    assert last(turn).lines[0].key == "side_to_side.help"
    assert turn.asking.helped
    measuring.dont_know(turn, turn.asking)
    assert turn.session.notebook.parked == (Step.SIDE_TO_SIDE,)


def test_not_knowing_better_keeps_the_old_answer(begin: Begin, notebook: Notebook) -> None:
    """A change that comes to nothing leads back, here to the read-back."""
    turn = begin(Asking(step=Step.LUG_ROOM, asker=Asker.CHANGE, helped=True), notebook)
    measuring.dont_know(turn, turn.asking)
    assert turn.asking.step is Step.READ_BACK
    assert value_of(turn, Step.LUG_ROOM) == "393"
    assert turn.session.notebook.parked == ()


def test_what_is_taken_unless_changed_is_never_left_open(begin: Begin, notebook: Notebook) -> None:
    """Nobody has to know how many pieces: it is one."""
    turn = begin(Asking(step=Step.PIECES, asker=Asker.CHANGE), notebook)
    type_in(turn, "I don't know")
    assert turn.session.notebook.parked == ()
    assert turn.asking.step is Step.READ_BACK


def test_the_desk_hears_that_nobody_knows(begin: Begin, notebook: Notebook) -> None:
    """No new version, no further reminder, the old answer stands."""
    errand = Errand(number=NUMBER, step=Step.LUG_ROOM)
    asking = Asking(step=Step.LUG_ROOM, asker=Asker.DESK, number=NUMBER, helped=True)
    turn = begin(asking, notebook, stage="question-out", errands=(errand,))
    measuring.dont_know(turn, turn.asking)
    kinds = {one.kind for one in turn.effects}
    assert "order-version" not in kinds
    assert "no-more-reminders" in kinds
    told = [one.lines[0].key for one in turn.effects if isinstance(one, Say) and one.to == "desk"]
    assert told == ["desk.not_known"]
    assert turn.session.errands == ()
    assert turn.session.handed[NUMBER] == notebook


@pytest.mark.parametrize(
    ("asker", "how"),
    [(Asker.SCRIPT, "typed"), (Asker.DESK, "asked-again"), (Asker.CHANGE, "changed")],
)
def test_the_record_says_why_it_was_answered(
    begin: Begin, notebook: Notebook, asker: Asker, how: str
) -> None:
    """A value that replaces another stands alone, so the desk has to know."""
    asking = Asking(step=Step.LUG_ROOM, asker=asker, number=NUMBER)
    turn = begin(asking, notebook, stage="question-out")
    type_in(turn, "394")
    assert [one.how for one in turn.effects if isinstance(one, Answered)] == [how]


def test_a_second_reading_is_joined_to_the_first(begin: Begin, notebook: Notebook) -> None:
    """The record has what was read now, the notebook the mean of both."""
    turn = begin(Asking(step=Step.LUG_ROOM, asker=Asker.SECOND), notebook)
    type_in(turn, "394")
    (record,) = [one for one in turn.effects if isinstance(one, Answered)]
    assert (record.how, record.reading) == ("second", "394")
    kept = turn.session.notebook.answers[Step.LUG_ROOM]
    assert kept.value == "787/2"
    assert len(kept.readings) == 2


def test_a_changed_answer_shows_both(begin: Begin, answer: Given) -> None:
    """The same one again is no change."""
    turn = begin(notebook=Notebook(answers={Step.SIDE_TO_SIDE: answer("356")}))
    type_in(turn, "360")
    assert last(turn).lines[0].key == "echo.changed"
    again = begin(notebook=Notebook(answers={Step.SIDE_TO_SIDE: answer("360")}))
    type_in(again, "360")
    assert last(again).lines[0].key == "echo.taken"
