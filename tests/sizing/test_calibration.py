"""Of the cages that are made, nearly all hang: simulated from the tape to the hive."""

from __future__ import annotations

import pytest
from calibration import QUESTIONS, Outcome, bands, made_and_hung, simulate

from sizing.measures import Purpose, Tape

LEAST = {
    (Purpose.ISOLATE, Tape.I): 0.98,
    (Purpose.ISOLATE, Tape.II): 0.98,
    (Purpose.ISOLATE, Tape.III): 0.95,
    (Purpose.ISOLATE, Tape.UNKNOWN): 0.95,
    (Purpose.INTRODUCE, Tape.I): 0.97,
    (Purpose.INTRODUCE, Tape.II): 0.95,
    (Purpose.INTRODUCE, Tape.III): 0.91,
    (Purpose.INTRODUCE, Tape.UNKNOWN): 0.93,
}
"""Least share of made cages that go in, hang and hold. With the widest tape an introduction cage
is near what any number of readings could reach: the lid may stand open 3.25 and no more."""


def check_bands(outcomes: list[Outcome], noise: float) -> None:
    """In no band of the joint do fewer hang than it says."""
    for low, high, count, joint, hung in bands(outcomes):
        print(f"{low:.2f} … {high:.2f}: {count}, joint {joint:.4f}, hang {hung:.4f}")
        assert hung >= joint - 0.005 - noise / count**0.5, (low, high)


def mean_joint(outcomes: list[Outcome]) -> float:
    """The mean joint of all."""
    return sum(one.joint for one in outcomes) / len(outcomes)


def mean_hung(outcomes: list[Outcome]) -> float:
    """The share of all cages that hang."""
    return sum(one.hung for one in outcomes) / len(outcomes)


@pytest.mark.parametrize(("purpose", "tape"), [(Purpose.ISOLATE, Tape.II),
                                               (Purpose.INTRODUCE, Tape.UNKNOWN)])  # fmt: skip
def test_the_joint_promises_no_more_than_hangs(purpose: Purpose, tape: Tape) -> None:
    """A short run of the simulation, both ends of what comes in."""
    outcomes = simulate(purpose, tape, 400)
    check_bands(outcomes, noise=0.6)
    assert 0 < mean_hung(outcomes) - mean_joint(outcomes) + 0.005 < 0.105
    assert made_and_hung(outcomes)[1] >= LEAST[purpose, tape] - 0.02


@pytest.mark.slow
@pytest.mark.parametrize("tape", Tape)
@pytest.mark.parametrize("purpose", Purpose)
def test_nearly_all_cages_that_are_made_hang(purpose: Purpose, tape: Tape) -> None:
    """Made at once or after the second readings that are asked for."""
    outcomes = simulate(purpose, tape, 600)
    check_bands(outcomes, noise=0.6)
    assert -0.005 <= mean_hung(outcomes) - mean_joint(outcomes) <= 0.1
    asked = simulate(purpose, tape, 250, questions=QUESTIONS)
    for share, hung in (made_and_hung(outcomes), made_and_hung(asked)):
        print(f"made {share:.3f}, hang {hung:.4f}")
        assert hung >= LEAST[purpose, tape]
    assert made_and_hung(asked)[0] > made_and_hung(outcomes)[0] - 0.02  # other draws
