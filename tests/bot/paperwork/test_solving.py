"""The solver against another one, and the watch with its clock."""

from __future__ import annotations

from fractions import Fraction

import numpy as np
import pytest
from scipy.optimize import linprog

from bot.paperwork.solving import Deadline, HighsSolver
from sizing.fabrication.nesting.bars import Bar, plan_bars
from sizing.fabrication.nesting.ports import PatternProgram

PATTERNS = [(2, 0, 0), (1, 1, 0), (0, 1, 1), (0, 0, 3), (1, 0, 1)]
DEMAND = (7, 5, 9)
BEST, BOUND = Fraction(3), Fraction(2)


@pytest.fixture
def program() -> PatternProgram:
    """A small one with time enough."""
    made = HighsSolver(Deadline(60)).program(DEMAND)
    for pattern in PATTERNS:
        made.add(pattern)
    return made


def test_the_least_cover_in_parts_is_that_of_another_solver(program: PatternProgram) -> None:
    """Times hold the demand, and by the prices it costs the same."""
    counts = np.array(PATTERNS, dtype=float).T
    other = linprog(np.ones(len(PATTERNS)), A_ub=-counts, b_ub=-np.array(DEMAND))
    relaxed = program.relaxed()
    assert sum(relaxed.times) == pytest.approx(other.fun)
    assert np.dot(relaxed.prices, DEMAND) == pytest.approx(other.fun)
    assert (counts @ relaxed.times >= np.array(DEMAND) - 1e-6).all()


def test_a_pattern_added_later_counts(program: PatternProgram) -> None:
    """One that holds all of it makes one bar enough."""
    before = sum(program.relaxed().times)
    program.add(DEMAND)
    assert sum(program.relaxed().times) == pytest.approx(1)
    assert before > 2


def test_a_cover_is_whole_and_least(program: PatternProgram) -> None:
    """It holds the demand; 9.0 in parts is 9 in whole patterns or one more."""
    in_parts = sum(program.relaxed().times)
    cover = program.cover()
    assert cover is not None
    assert cover.least
    held = np.array(PATTERNS).T @ cover.times
    assert (held >= DEMAND).all()
    assert in_parts <= sum(cover.times) < in_parts + 2


def test_nothing_is_written_on_standard_output(capfd: pytest.CaptureFixture[str]) -> None:
    """The solver neither greets nor reports."""
    deadline = Deadline(60)
    widths = {Fraction(width): 2 for width in (5, 4, 3, 2)}
    assert (
        plan_bars(widths, Bar(Fraction(9), Fraction(0)), HighsSolver(deadline), deadline).bars == 4
    )
    written = capfd.readouterr()
    assert (written.out, written.err) == ("", "")


def test_a_watch_passes_on_what_it_is_told() -> None:
    """And goes on while there is time."""
    told: list[tuple[Fraction, Fraction]] = []
    watch = Deadline(60, lambda best, bound: told.append((best, bound)))
    assert watch(BEST, BOUND)
    assert told == [(BEST, BOUND)]
    assert 59 < watch.left() <= 60


def test_a_watch_stops_when_the_time_is_over() -> None:
    """Without a moment left it stops at once."""
    watch = Deadline(0)
    assert not watch(BEST, BOUND)
    assert watch.left() == 0
