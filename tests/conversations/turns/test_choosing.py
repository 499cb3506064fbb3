"""Answers that are a choice or words."""

from __future__ import annotations

from collections.abc import Callable
from fractions import Fraction

import pytest

from conversations.effects import Contact, Free, Say
from conversations.session import Answer, Asking, Heard, Notebook
from conversations.steps import Asker, Step
from conversations.turns import choosing
from conversations.turns.turn import Turn

NUMBER = "48291742"
Begin = Callable[..., Turn]
Given = Callable[..., Answer]


def keys(turn: Turn) -> set[str]:
    """The texts of all messages so far."""
    return {line.key for one in turn.effects if isinstance(one, Say) for line in one.lines}


def test_the_first_language_chosen_begins_the_first_order(begin: Begin) -> None:
    """With what this is, how long it takes, and what is kept."""
    turn = begin(Asking(step=Step.LANGUAGE), language_chosen=False)
    choosing.choose_language(turn, "pl")
    assert turn.session.language == "pl"
    assert turn.asking.step is Step.PURPOSE
    assert {"welcome.what", "welcome.how", "welcome.kept"} <= keys(turn)


def test_a_language_chosen_later_changes_nothing_else(begin: Begin, notebook: Notebook) -> None:
    """The same question once more, in the other words."""
    turn = begin(Asking(step=Step.LUG_ROOM, tries=1), notebook)
    choosing.choose_language(turn, "pl")
    assert (turn.asking.step, turn.asking.tries) == (Step.LUG_ROOM, 1)
    assert turn.session.notebook == notebook
    assert "welcome.what" not in keys(turn)


@pytest.mark.parametrize(
    ("step", "dependent"), [(Step.BELOW, Step.BELOW_SPACE), (Step.ABOVE, Step.ABOVE_SPACE)]
)
def test_a_distance_goes_with_the_thing_it_was_measured_to(
    begin: Begin, answer: Given, step: Step, dependent: Step
) -> None:
    """Another thing below or above: measured anew. The same thing again: it stays."""
    answers = {step: answer("box"), dependent: answer("20")}
    same = begin(Asking(step=step), Notebook(answers=answers))
    choosing.choose_value(same, "box", same.asking)
    assert dependent in same.session.notebook.answers
    other = begin(Asking(step=step), Notebook(answers=answers))
    choosing.choose_value(other, "floor" if step is Step.BELOW else "cloth", other.asking)
    assert dependent not in other.session.notebook.answers


def test_a_choice_says_how_it_came(begin: Begin, notebook: Notebook) -> None:
    """Chosen when it was asked, changed when she wanted it otherwise."""
    for asker, how in ((Asker.SCRIPT, "chosen"), (Asker.CHANGE, "changed")):
        turn = begin(Asking(step=Step.PURPOSE, asker=asker), notebook)
        choosing.choose_value(turn, "introduce", turn.asking)
        assert turn.session.notebook.answers[Step.PURPOSE].how == how


@pytest.mark.parametrize("name", ["Wielkopolska", "my own frames", "Dadant", "435x300"])
def test_a_name_is_noted_as_it_was_typed(begin: Begin, name: str) -> None:
    """It presets nothing."""
    turn = begin(Asking(step=Step.FRAME_NAME))
    choosing.words(turn, f"  {name}\n", turn.asking)
    assert turn.session.notebook.answers[Step.FRAME_NAME].value == name
    assert set(turn.session.notebook.answers) == {Step.FRAME_NAME}


@pytest.mark.parametrize(
    ("name", "why"),
    [
        ("AZ", "no-lugs"),
        ("Schweizerkasten", "loaded-from-the-back"),
        ("burki", "loaded-from-the-back"),
    ],
)
def test_a_frame_that_cannot_hang_is_not_measured(begin: Begin, name: str, why: str) -> None:
    """The reason is said, and who has another frame can say so."""
    turn = begin(Asking(step=Step.FRAME_NAME))
    choosing.words(turn, name, turn.asking)
    assert f"cannot.{why}" in keys(turn)
    assert turn.session.notebook.answers == {}
    assert {"insist", "person"} <= set(turn.session.heard[-1].choices)


def test_having_lugs_after_all_takes_nothing_that_stood_before(begin: Begin) -> None:
    """What was offered before as a reading of something else is gone."""
    asking = Asking(step=Step.LUG_TO_LUG, options=("20 cm",), values=(Fraction(200),))
    turn = begin(asking)
    choosing.no_lugs(turn, "no-lugs", Free(text="mine"))
    assert turn.asking.options == ()
    assert turn.asking.values == ()


@pytest.mark.parametrize("text", ["", "   ", "\n\t"])
def test_no_words_are_no_answer(begin: Begin, text: str) -> None:
    """The question stands."""
    for step in (Step.FRAME_NAME, Step.CONTACT):
        turn = begin(Asking(step=step))
        choosing.words(turn, text, turn.asking)
        assert turn.asking.step is step
        assert turn.session.notebook.answers == {}


@pytest.mark.parametrize("text", ["idk", "no idea", "I'm not sure"])
def test_who_knows_no_name_goes_on_without(begin: Begin, text: str) -> None:
    """It is parked, so that it is not asked again."""
    turn = begin(Asking(step=Step.FRAME_NAME))
    choosing.words(turn, text, turn.asking)
    assert turn.session.notebook.parked == (Step.FRAME_NAME,)
    assert turn.asking.step is Step.PURPOSE


@pytest.mark.parametrize("text", ["anna@example.org", "Anna, 555 010 099", "+48555010099"])
def test_how_to_reach_somebody_is_kept(begin: Begin, text: str) -> None:
    """As it was typed, sealed by the shell, and known for the next order."""
    turn = begin(Asking(step=Step.CONTACT))
    choosing.words(turn, text, turn.asking)
    assert Contact(text=text) in turn.effects
    assert turn.session.contact_known


def test_what_reaches_nobody_is_doubted_once(begin: Begin) -> None:
    """Who sends it again means it."""
    turn = begin(Asking(step=Step.CONTACT))
    choosing.words(turn, "ask my neighbour", turn.asking)
    assert not turn.session.contact_known
    choosing.words(turn, "ask my neighbour", turn.asking)
    assert Contact(text="ask my neighbour") in turn.effects


def test_long_words_are_cut(begin: Begin) -> None:
    """Nobody's frame has so long a name."""
    turn = begin(Asking(step=Step.FRAME_NAME))
    choosing.words(turn, "frame " * 200, turn.asking)
    value = turn.session.notebook.answers[Step.FRAME_NAME].value
    assert value is not None
    assert len(value) == 200


def test_everything_given_can_be_changed(begin: Begin, notebook: Notebook) -> None:
    """What is open too; of an order also what was taken without asking."""
    parked = notebook.model_copy(update={"parked": (Step.LUG_WIDTH,)})
    turn = begin(notebook=parked)
    choosing.list_changes(turn, None)
    offered = set(turn.session.heard[-1].choices)
    assert offered == {*notebook.answers, Step.LUG_WIDTH, "no"}
    order = begin(notebook=parked, stage="handed-in")
    choosing.list_changes(order, NUMBER)
    more = set(order.session.heard[-1].choices) - offered
    assert more == {Step.SPACER, Step.LID, Step.MATERIAL, Step.PIECES, Step.FRAMES_OUT}


def test_a_contact_of_before_can_be_changed(begin: Begin, answer: Given) -> None:
    """It was not asked in this order; its value is not shown on the button."""
    given = Notebook(answers={Step.PURPOSE: answer("isolate")})
    turn = begin(notebook=given, contact_known=True)
    choosing.list_changes(turn, None)
    assert Step.CONTACT in turn.session.heard[-1].choices


def test_with_nothing_given_there_is_nothing_to_change(begin: Begin) -> None:
    """The question is asked once more instead of an empty list."""
    turn = begin()
    choosing.list_changes(turn, None)
    assert "change.nothing" in keys(turn)


@pytest.mark.parametrize(
    ("text", "choice"),
    [("Another box", "box"), ("a floor!", "floor"), ("BOX", "box"), ("2", "floor"), ("3", None),
     ("", None), ("boxes", None)],
)  # fmt: skip
def test_a_choice_is_found_by_its_words(begin: Begin, text: str, choice: str | None) -> None:
    """By id, by label, by place; nothing that only looks like one."""
    turn = begin(Asking(step=Step.BELOW, k=4))
    heard = Heard(k=4, step=Step.BELOW, choices=("box", "floor"))
    assert choosing.find_label(turn, text, heard) == choice


def test_a_place_in_an_older_list_is_no_choice(begin: Begin) -> None:
    """Its words still are."""
    turn = begin(Asking(step=Step.LUG_THICKNESS, k=9))
    heard = Heard(k=4, step=Step.BELOW, choices=("box", "floor"))
    assert choosing.find_label(turn, "2", heard) is None
    assert choosing.find_label(turn, "A floor", heard) == "floor"
