"""What is asked once more because the cage is not sure enough."""

from __future__ import annotations

from collections.abc import Callable
from fractions import Fraction

from conversations.second_look import FAR_APART, joined, second_look
from conversations.session import Answer, Notebook
from conversations.steps import Step
from conversations.summary import design_of, request_of
from sizing.cage import Verdict
from sizing.measures import Tape
from sizing.workshop import default_figures

FIGURES = default_figures()
Given = Callable[..., Answer]


def changed(notebook: Notebook, looked: tuple[Step, ...] = (), **given: Answer) -> Notebook:
    """The notebook with these answers, and with what was asked once more already."""
    answers = {**notebook.answers, **{Step(name): one for name, one in given.items()}}
    return notebook.model_copy(update={"answers": answers, "looked": looked})


def test_what_is_sure_enough_is_not_asked_again(notebook: Notebook) -> None:
    """Isolation with any tape goes straight to the read-back."""
    assert second_look(notebook, FIGURES) is None


def test_the_tape_is_asked_first_where_it_settles_the_order(
    notebook: Notebook, answer: Given
) -> None:
    """One look at the tape costs less than one more measuring; asked once, it is not again."""
    unsure = changed(notebook, purpose=answer("introduce"))
    assert second_look(unsure, FIGURES) is Step.TAPE
    fine = changed(unsure, tape=answer("II"))
    assert second_look(fine, FIGURES) is None
    design = design_of(fine, FIGURES)
    assert design is not None
    assert design.verdict is Verdict.MAKE


def test_the_measure_that_gains_most_comes_next(notebook: Notebook, answer: Given) -> None:
    """Where the class does not help: a second reading, and of each measure only one."""
    unsure = changed(notebook, purpose=answer("introduce"), tape=answer("III"))
    assert second_look(unsure, FIGURES) is Step.LUG_ROOM
    assert second_look(changed(unsure, (Step.LUG_ROOM,)), FIGURES) is None


def test_two_such_questions_are_enough(notebook: Notebook, answer: Given) -> None:
    """However unsure it stays, then the desk decides."""
    unsure = changed(notebook, (Step.TAPE, Step.LEDGE_DOWN), purpose=answer("introduce"))
    assert second_look(unsure, FIGURES) is None


def test_nothing_is_asked_again_while_something_is_missing(
    notebook: Notebook, answer: Given
) -> None:
    """A missing length is the desk's; exactness does not replace it."""
    missing = changed(notebook, purpose=answer("introduce"), lug_room=answer(None))
    assert second_look(missing, FIGURES) is None


def test_two_readings_count_as_their_mean(notebook: Notebook, answer: Given) -> None:
    """The request holds both, at the coarser step; what replaces an answer stands alone."""
    first = answer("393", step=Fraction(1))
    both = joined(first, answer("393.5", step=Fraction(1, 2), how="second"))
    assert (both.value, both.how, both.step) == ("1573/4", "second", Fraction(1))
    request = request_of(changed(notebook, lug_room=both, tape=answer("I")))
    assert request is not None
    assert request.hive.lug_room is not None
    assert request.hive.lug_room.readings == (Fraction(393), Fraction("393.5"))
    assert request.measured_with.tape is Tape.I


def test_of_three_readings_the_two_nearest_count(notebook: Notebook, answer: Given) -> None:
    """Two far apart are asked about once more, whatever was asked before; then it is settled."""
    apart = joined(answer("393"), answer(str(393 + FAR_APART)))
    wide = changed(notebook, (Step.TAPE, Step.LUG_ROOM), lug_room=apart)
    assert second_look(wide, FIGURES) is Step.LUG_ROOM
    settled = joined(apart, answer("393.4"))
    assert settled.readings == (Fraction(393), Fraction("393.4"))
    again = joined(apart, answer("400"))
    assert again.readings == (Fraction(393), Fraction(396))


def test_the_wider_doubt_of_the_person_stays(answer: Given) -> None:
    """± of one reading holds for both."""
    both = joined(answer("393", plus_minus=Fraction(2)), answer("394"))
    assert both.plus_minus == 2
    assert both.step is None
