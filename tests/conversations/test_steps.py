"""The names of the questions."""

from __future__ import annotations

from conversations.steps import Step
from sizing.measures import Measure


def test_a_step_that_asks_for_a_number_has_the_name_of_its_measure() -> None:
    """One name per thing: what is asked is what is sized."""
    names = {step.value for step in Step}
    measured = {step.value: step.measure for step in Step if step.measure is not None}
    assert measured == {one.value: one for one in Measure if one.value in names}


def test_only_the_top_bar_is_measured_nowhere_in_the_conversation() -> None:
    """Every other measure can be asked for; the top bar's thickness decides nothing."""
    names = {step.value for step in Step}
    assert [one for one in Measure if one.value not in names] == [Measure.TOP_BAR_THICKNESS]


def test_a_choice_or_words_are_no_measure() -> None:
    """Nothing is read as a length where a choice, a name or a contact is asked."""
    steps = (Step.PURPOSE, Step.FRAME_NAME, Step.BELOW, Step.LID, Step.CONTACT, Step.READ_BACK)
    assert [step.measure for step in steps] == [None] * len(steps)
