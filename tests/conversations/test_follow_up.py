"""The question that tells why: which one is chosen, when, and that it never asks for a yes."""

from __future__ import annotations

from collections.abc import Callable
from fractions import Fraction

import pytest

from conversations.follow_up import (
    LONGER,
    MARKS,
    WAYS,
    FollowUp,
    best,
    measured_as_asked,
    next_question,
    slip_is_live,
    stories_of,
)
from conversations.locale import catalogue, languages
from conversations.script import QUESTIONS, Kind
from conversations.session import Answer, Notebook
from conversations.steps import Step
from sizing.measures import Measure
from sizing.plausibility.findings import Weight
from sizing.plausibility.mistakes import Mistake
from sizing.plausibility.mixups import Weighed
from sizing.workshop import default_figures

Given = Callable[..., Answer]
UNKNOWN = dict.fromkeys((Step.INSIDE_ALONG, Step.LUG_ROOM, Step.LEDGE_DOWN, Step.LEDGE_UP), None)


@pytest.fixture
def with_(notebook: Notebook, answer: Given) -> Callable[..., Notebook]:
    """The filled notebook with other answers in it."""

    def changed(changes: dict[Step, str | None], **fields: object) -> Notebook:
        new = {step: answer(value) for step, value in changes.items()}
        return notebook.model_copy(update={"answers": {**notebook.answers, **new}, **fields})

    return changed


def asked(notebook: Notebook, *earlier: Notebook) -> FollowUp | None:
    """What is asked about this notebook."""
    return next_question(notebook, default_figures(), earlier)


def story(mistake: Mistake, weight: float, *measures: Measure) -> Weight:
    """A story of that weight."""
    return Weight(mistake, measures, (Fraction(1),) * len(measures), 0.01, 1.0, weight)


def test_an_honest_order_is_asked_nothing(notebook: Notebook) -> None:
    """Numbers that agree are believed."""
    assert asked(notebook) is None


@pytest.mark.parametrize(
    ("changes", "name", "step"),
    [
        ({Step.SIDE_TO_SIDE: "340"}, "side_to_side", Step.SIDE_TO_SIDE),
        ({Step.TOP_TO_BOTTOM: "240"}, "top_to_bottom", Step.TOP_TO_BOTTOM),
        ({Step.LUG_TO_LUG: "361"}, "lug_to_lug", Step.LUG_TO_LUG),
        ({Step.SIDE_TO_SIDE: "391"}, "side_to_side", Step.SIDE_TO_SIDE),
        ({Step.INSIDE_ALONG: "310"}, "inside_along", Step.INSIDE_ALONG),
        ({Step.INSIDE_ALONG: "417"}, "inside_along", Step.INSIDE_ALONG),
        ({Step.SIDE_TO_SIDE: "260", Step.TOP_TO_BOTTOM: "360"}, LONGER, Step.SIDE_TO_SIDE),
        ({Step.SIDE_TO_SIDE: "1417/10"}, MARKS, Step.SIDE_TO_SIDE),
        ({Step.LEDGE_DOWN: "235"}, None, Step.LEDGE_DOWN),
        ({Step.LUG_THICKNESS: "18"}, None, Step.LUG_THICKNESS),
    ],
)  # fmt: skip
def test_the_question_goes_to_what_went_wrong(
    with_: Callable[..., Notebook], changes: dict[Step, str], name: str | None, step: Step
) -> None:
    """A misunderstanding is asked how, a slip is read once more, a turned frame which is longer."""
    assert asked(with_(changes)) == FollowUp(step, name)


def test_two_ways_to_go_wrong_are_told_apart_by_one_look() -> None:
    """Where a look tells two stories apart, it is worth more than a reading that tells none."""
    told = [
        story(Mistake.INSIDE, 0.6, Measure.TOP_TO_BOTTOM),
        story(Mistake.COMB, 0.3, Measure.TOP_TO_BOTTOM),
        story(Mistake.ONE_DIGIT, 0.1, Measure.LEDGE_DOWN),
    ]
    assert best(told) == FollowUp(Step.TOP_TO_BOTTOM, "top_to_bottom")


def test_a_cheap_question_wins_where_both_tell_as_much() -> None:
    """A slip in an answer that was surely measured right is read again, not asked about."""
    told = [story(Mistake.ONE_DIGIT, 0.9, Measure.SIDE_TO_SIDE), story(Mistake.AS_USUAL, 0.1)]
    told.insert(1, story(Mistake.NOT_FROM_ZERO, 0.01, Measure.SIDE_TO_SIDE))
    assert best(told) == FollowUp(Step.SIDE_TO_SIDE)


def test_what_was_asked_is_not_asked_again() -> None:
    """The next best question is taken, and none where there is no other."""
    told = [story(Mistake.INSIDE, 0.9, Measure.SIDE_TO_SIDE)]
    assert best(told, frozenset({"side_to_side"})) is None
    told.append(story(Mistake.TAPE_CASE, 0.1, Measure.INSIDE_ALONG))
    assert best(told, frozenset({"side_to_side"})) == FollowUp(Step.INSIDE_ALONG, "inside_along")
    assert best([story(Mistake.HOOK_PLAY, 0.9, *Measure)]) is None


def test_one_question_is_enough_where_the_cage_can_be_made(
    with_: Callable[..., Notebook],
) -> None:
    """The rest is for the desk."""
    short = {Step.TOP_TO_BOTTOM: "240"}
    assert asked(with_(short, doubted=("top_to_bottom",))) is None


def test_where_it_cannot_be_made_more_is_asked_and_not_for_ever(
    with_: Callable[..., Notebook],
) -> None:
    """An order that would be refused is worth another question, three in all."""
    wrong = {Step.SIDE_TO_SIDE: "391"}
    again = asked(with_(wrong, doubted=("side_to_side",)))
    assert again is not None
    assert again.remembered != "side_to_side"
    assert asked(with_(wrong, doubted=("side_to_side", "a", "b"))) is None


def test_where_nothing_covers_the_height_it_is_read_twice(
    with_: Callable[..., Notebook],
) -> None:
    """No hive and no known frame: one wrong digit would show nowhere."""
    odd = {Step.SIDE_TO_SIDE: "333", Step.TOP_TO_BOTTOM: "247", Step.LUG_TO_LUG: "364"}
    assert asked(with_({**odd, **UNKNOWN, Step.FRAME_NAME: None})) == FollowUp(Step.TOP_TO_BOTTOM)
    assert asked(with_(UNKNOWN)) is None


def test_many_cages_are_worth_a_second_reading(with_: Callable[..., Notebook]) -> None:
    """Five of one size, and a height that was not insisted on."""
    assert asked(with_({Step.PIECES: "5"})) == FollowUp(Step.TOP_TO_BOTTOM)
    assert asked(with_({Step.PIECES: "4"})) is None


def test_an_earlier_order_for_the_same_frame_is_believed(
    with_: Callable[..., Notebook],
) -> None:
    """Odd numbers that were ordered before are less suspect."""
    odd = with_({Step.TOP_TO_BOTTOM: "248", Step.FRAME_NAME: None, **UNKNOWN})
    assert stories_of(odd, [odd]).suspicion < stories_of(odd).suspicion


def test_without_a_frame_nothing_is_asked() -> None:
    """Too little is known."""
    assert asked(Notebook()) is None
    assert stories_of(Notebook()) == Weighed(())


def test_the_first_way_is_the_way_it_was_asked_for() -> None:
    """And only that one, for every measure; what was meant otherwise is a mistake."""
    for name, ways in WAYS.items():
        if name != LONGER:
            assert [measured_as_asked(name, way) for way in ways] == [
                n == 0 for n in range(len(ways))
            ]


def test_a_slip_is_live_where_another_number_may_come() -> None:
    """A trace of a slip is none."""
    side = Measure.SIDE_TO_SIDE
    strong = Weighed((story(Mistake.INSIDE, 0.6, side), story(Mistake.ONE_DIGIT, 0.3, side)))
    trace = Weighed((story(Mistake.INSIDE, 0.9, side), story(Mistake.ONE_DIGIT, 0.01, side)))
    assert slip_is_live(strong, Step.SIDE_TO_SIDE)
    assert not slip_is_live(trace, Step.SIDE_TO_SIDE)
    assert not slip_is_live(strong, Step.LEDGE_DOWN)


def test_no_choice_is_called_like_a_question_or_a_yes() -> None:
    """Ids of the ways are their own, and no question of suspicion can be agreed to."""
    ways = {way for one in WAYS.values() for way in one}
    assert not ways & {step.value for step in Step}
    assert not ways & {"yes", "no", "exactly", "insist", "dont-know"}


def test_every_long_length_can_be_asked_about() -> None:
    """Each name is a length of the script or one of the two that stand apart."""
    for name in set(WAYS) - {LONGER, MARKS}:
        assert QUESTIONS[Step(name)].kind is Kind.LENGTH


@pytest.mark.parametrize("language", languages())
def test_ways_of_one_question_are_said_differently(language: str) -> None:
    """Nobody has to guess between two buttons."""
    texts = catalogue(language)
    for ways in WAYS.values():
        labels = [texts.text(f"doubt.way.{way}") for way in ways]
        assert len(set(labels)) == len(labels)
