"""Several numbers for several questions."""

from __future__ import annotations

from collections.abc import Callable

import pytest

from conversations.answers.bundles import ASKED_ORDER, after, read_bundle
from conversations.answers.outcome import Outcome, Reading, Reason
from conversations.answers.statement import Statement
from conversations.answers.units import Unit
from sizing.measures import Measure

State = Callable[[str], Statement]


@pytest.fixture
def bundle(state: State) -> Callable[[str], Reading | None]:
    """Reads a text as answers to the first question and those after it."""
    return lambda text: read_bundle(state(text).amounts, ASKED_ORDER, None)


Bundle = Callable[[str], Reading | None]


@pytest.mark.parametrize(
    ("text", "placed"),
    [
        ("435x300", {"side_to_side": 435, "top_to_bottom": 300}),
        ("43,5 x 30 cm", {"side_to_side": 435, "top_to_bottom": 300}),
        ("435 300 25", {"side_to_side": 435, "top_to_bottom": 300, "widest_wood": 25}),
        (
            "360 260 391 10",
            {"side_to_side": 360, "top_to_bottom": 260, "lug_to_lug": 391, "lug_thickness": 10},
        ),
        ("17 5/8 x 9 1/8", {"side_to_side": 447.675, "top_to_bottom": 231.775}),
        ("19 9 1/8", {"side_to_side": 482.6, "top_to_bottom": 231.775}),
        ("43,5 cm 25 mm", {"side_to_side": 435, "widest_wood": 25}),
    ],
)
def test_every_value_finds_its_question_in_asked_order(
    bundle: Bundle, text: str, placed: dict[str, float]
) -> None:
    """Values are placed in order, questions they do not fit are skipped, one unit for all."""
    reading = bundle(text)
    assert reading is not None
    assert reading.outcome is Outcome.PROPOSE
    assert dict(zip(reading.measures, map(float, reading.values), strict=True)) == placed


@pytest.mark.parametrize(
    "text",
    [
        "43,5 x 300",
        "25 435",
        "435 9/8",
        "435 300 3000",
        "435 362/364",
        "2 x 4",
        "17 5/8, 91/10",
        "17 5/8 73/8",
    ],
)
def test_values_that_do_not_fit_together_are_no_bundle(bundle: Bundle, text: str) -> None:
    """Mixed units, a first value that is no answer, odd fractions: not guessed."""
    assert bundle(text) is None


def test_two_units_that_both_place_all_values_are_asked_about(state: State) -> None:
    """18 x 12 may be either; the unit used before settles it for a yes."""
    amounts = state("18 x 12").amounts
    asked = read_bundle(amounts, ASKED_ORDER, None)
    assert asked is not None
    assert asked.reason is Reason.WHICH_UNIT
    settled = read_bundle(amounts, ASKED_ORDER, Unit.IN)
    assert settled is not None
    assert (settled.outcome, settled.unit) == (Outcome.PROPOSE, Unit.IN)


def test_more_numbers_than_questions_are_no_bundle(state: State) -> None:
    """A value too many belongs nowhere."""
    assert read_bundle(state("435 300").amounts, ASKED_ORDER[:1], None) is None


def test_the_finest_step_holds_for_all(bundle: Bundle) -> None:
    """Who writes 43,5 beside 30 reads millimetres and leaves the nought away."""
    reading = bundle("43,5 x 30 cm")
    assert reading is not None
    assert reading.step == 1


def test_the_questions_after_one_are_the_rest_of_the_asked_order() -> None:
    """Nothing follows a measure outside the asked order."""
    assert after(Measure.LEDGE_DOWN) == (Measure.LEDGE_UP,)
    assert after(Measure.PIECES) == ()
