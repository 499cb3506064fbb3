"""The questions as data: what is asked, in which order, and when."""

from __future__ import annotations

import re
from collections.abc import Callable
from pathlib import Path

import pytest

import conversations.script
from conversations.script import (
    DEFAULTS,
    NEEDED,
    QUESTIONS,
    Kind,
    following,
    missing,
    next_step,
)
from conversations.session import Answer, Notebook
from conversations.steps import Step
from sizing.measures import COUNTS

Given = Callable[..., Answer]
Without = Callable[[Notebook, Step], Notebook]


def walk(notebook: Notebook, answer: Given, *, between: bool = False, **given: str) -> list[Step]:
    """The questions asked until the read-back, each answered as `given` or somehow."""
    asked: list[Step] = []
    answers = dict(notebook.answers)
    while True:
        now = Notebook(answers=answers)
        step = next_step(now, lid_between_walls=lambda: between, contact_known=False)
        if step is Step.READ_BACK:
            return asked
        assert step not in asked
        asked.append(step)
        choices = QUESTIONS[step].choices
        answers[step] = answer(given.get(step.value, choices[0] if choices else "1"))


def test_the_usual_way_is_fifteen_questions(answer: Given) -> None:
    """Frame first, hive after, how to reach somebody last."""
    assert walk(Notebook(), answer) == [
        Step.PURPOSE, Step.FRAME_NAME, Step.SIDE_TO_SIDE, Step.TOP_TO_BOTTOM, Step.LUG_TO_LUG,
        Step.LUG_THICKNESS, Step.WIDEST_WOOD, Step.COMB_THICKNESS, Step.INSIDE_ALONG,
        Step.LUG_ROOM, Step.LEDGE_DOWN, Step.LEDGE_UP, Step.BELOW, Step.FRAMES_HELD, Step.CONTACT,
    ]  # fmt: skip


def test_more_is_asked_only_where_it_decides(answer: Given) -> None:
    """The room below over a floor; lug width and above where the lid goes between the walls."""
    usual = walk(Notebook(), answer)
    floor = walk(Notebook(), answer, below="floor")
    low = walk(Notebook(), answer, between=True)
    covered = walk(Notebook(), answer, between=True, above="cover")
    assert [step for step in floor if step not in usual] == [Step.BELOW_SPACE]
    assert [step for step in low if step not in usual] == [Step.LUG_WIDTH, Step.ABOVE]
    assert [step for step in covered if step not in low] == [Step.ABOVE_SPACE]
    assert floor.index(Step.BELOW_SPACE) == floor.index(Step.BELOW) + 1


def test_the_cage_is_sized_only_when_all_before_it_is_answered(
    notebook: Notebook, without: Without
) -> None:
    """Sizing it at each answer would be work for nothing."""

    def never() -> bool:
        pytest.fail("the cage was sized")

    assert next_step(Notebook(), lid_between_walls=never, contact_known=False) is Step.PURPOSE
    asked = without(notebook, Step.LEDGE_UP)
    now = next_step(asked, lid_between_walls=never, contact_known=False)
    assert now is Step.LEDGE_UP


def test_what_was_left_open_is_not_asked_again(notebook: Notebook) -> None:
    """A parked question is the workshop's."""
    parked = Notebook(answers={}, parked=tuple(notebook.answers))
    assert next_step(parked, lid_between_walls=lambda: False, contact_known=False) is Step.READ_BACK


def test_who_can_be_reached_is_not_asked_how(notebook: Notebook, without: Without) -> None:
    """In a second order the contact is known."""
    asked = without(notebook, Step.CONTACT)
    assert next_step(asked, lid_between_walls=lambda: False, contact_known=True) is Step.READ_BACK
    assert next_step(asked, lid_between_walls=lambda: False, contact_known=False) is Step.CONTACT
    assert missing(asked, contact_known=False) == (Step.CONTACT,)
    assert missing(asked, contact_known=True) == ()


def test_nothing_is_handed_in_without_what_a_cage_needs(notebook: Notebook, answer: Given) -> None:
    """Missing is what was not answered, and what was answered with not knowing."""
    assert missing(Notebook(), contact_known=False) == NEEDED
    assert missing(notebook, contact_known=False) == ()
    unknown = Notebook(answers={**notebook.answers, Step.LUG_TO_LUG: answer(None)})
    assert missing(unknown, contact_known=False) == (Step.LUG_TO_LUG,)


def test_a_bundle_goes_on_with_the_lengths_not_yet_answered(
    notebook: Notebook, answer: Given
) -> None:
    """In asked order, without counts, choices and what is there already."""
    assert following(Notebook(), Step.LUG_ROOM) == (Step.LEDGE_DOWN, Step.LEDGE_UP)
    some = Notebook(answers={Step.LEDGE_DOWN: answer("253")})
    assert following(some, Step.LUG_ROOM) == (Step.LEDGE_UP,)
    assert following(notebook, Step.SIDE_TO_SIDE) == ()
    assert following(Notebook(), Step.PIECES) == ()


@pytest.mark.parametrize("step", QUESTIONS)
def test_a_question_is_of_the_kind_of_its_answer(step: Step) -> None:
    """Lengths and counts are measures, choices have something to choose, words have neither."""
    question = QUESTIONS[step]
    if question.kind in (Kind.LENGTH, Kind.COUNT):
        assert (step.measure in COUNTS) == (question.kind is Kind.COUNT)
        assert question.choices == ()
    else:
        assert step.measure is None
        assert bool(question.choices) == (question.kind is Kind.CHOICE and step != Step.LANGUAGE)


def test_what_is_taken_unless_changed_can_be_chosen() -> None:
    """Every default is one of the answers to its question."""
    for step, value in DEFAULTS.items():
        assert value in QUESTIONS[step].choices or step is Step.PIECES
    assert set(DEFAULTS).isdisjoint(NEEDED)


def test_the_page_of_the_folder_lists_the_questions_in_their_order(answer: Given) -> None:
    """The list in the README is the one that is asked."""
    page = Path(conversations.script.__file__).with_name("README.md").read_text(encoding="utf-8")
    listed = re.findall(r"^\| `(\w+)` \|", page, re.MULTILINE)
    longest = walk(Notebook(), answer, between=True, below="floor", above="cover")
    assert listed == [step.value for step in longest]
