"""Cutting problems whose least or best is known."""

from __future__ import annotations

from fractions import Fraction

import pytest

from bot.paperwork.solving import Deadline, HighsSolver
from sizing.fabrication.nesting.bars import Bar, BarPlan, most_pieces, plan_bars

PAPER_WIDTHS = (1380, 1520, 1560, 1710, 1820, 1880, 1930, 2000, 2050, 2100, 2140, 2150, 2200)
PAPER_DEMAND = (22, 25, 12, 14, 18, 18, 20, 10, 12, 14, 16, 18, 20)
"""Cutting stock problem (encyclopedia article, many authors, undated), published: rolls of 5600."""

SMALL_WIDTHS = (45, 36, 31, 14)
SMALL_DEMAND = (97, 610, 395, 211)
"""Cutstock (example of a modelling system, GAMS, undated), published: rolls of 100."""


def planned(
    widths: tuple[int, ...], demand: tuple[int, ...], length: int, kerf: int = 0
) -> BarPlan:
    """The plan for these widths out of bars of `length`."""
    wanted = {Fraction(width): count for width, count in zip(widths, demand, strict=True)}
    deadline = Deadline(20)
    return plan_bars(wanted, Bar(Fraction(length), Fraction(kerf)), HighsSolver(deadline), deadline)


def test_paper_rolls_of_5600() -> None:
    """73 rolls, waste 0.401 %; the least by total width too: 407 160 / 5600 = 72.7.

    73 as best known: cutting-stock sample of a solver's repository (OR-Tools, undated),
    published; the waste as printed with the data.
    """
    plan = planned(PAPER_WIDTHS, PAPER_DEMAND, 5600)
    assert plan.bars == plan.bound == 73
    assert plan.use * 73 * 5600 == 407_160
    assert round(float(1 - plan.use) * 100, 3) == 0.401


@pytest.mark.parametrize("kerf", [3, 5, 10])
def test_paper_rolls_with_a_kerf(kerf: int) -> None:
    """One roll more as soon as a cut loses something; worked out with two other solvers."""
    plan = planned(PAPER_WIDTHS, PAPER_DEMAND, 5600, kerf)
    assert plan.bars == plan.bound == 74


def test_rolls_of_100() -> None:
    """453 rolls, 452.25 in parts of rolls.

    The example's own answer, from memory also V. Chvátal, Linear Programming (1983).
    """
    plan = planned(SMALL_WIDTHS, SMALL_DEMAND, 100)
    assert plan.bars == plan.bound == 453


def test_longest_first_is_not_least() -> None:
    """5 4 3 3 3 2 out of 10: longest first takes 3, the least is 2; the sum is 20."""
    assert planned((5, 4, 3, 2), (1, 1, 3, 1), 10).bars == 2


KERF = [("1000", "3", 5), ("1000", "0", 6), ("1999", "1.5", 3), ("1999", "3", 2)]


@pytest.mark.parametrize(("length", "kerf", "pieces"), KERF)
def test_pieces_of_one_bar_of_6000(length: str, kerf: str, pieces: int) -> None:
    """A cut is lost between two pieces and none after the last: 3 x 1999 + 2 x 1.5 is 6000.

    Arithmetic, checked by hand.
    """
    bar = Bar(Fraction(6000), Fraction(kerf))
    assert most_pieces(Fraction(length), bar) == pieces
