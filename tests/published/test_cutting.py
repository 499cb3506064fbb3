"""Cutting problems whose least or best is known."""

from __future__ import annotations

from fractions import Fraction

import pytest

from bot.paperwork.solving import Deadline, HighsSolver
from sizing.fabrication.nesting.bars import Bar, BarPlan, most_pieces, plan_bars
from sizing.fabrication.nesting.guillotine import Oblong, dearest_layout
from sizing.fabrication.nesting.sheets import Sheet, Wanted, plan_sheets

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


CGCUT1 = ((8, 4, 66), (3, 7, 35), (8, 2, 24), (3, 4, 17), (3, 3, 11), (3, 2, 8), (2, 1, 2))
"""CGCUT1, sides and value, sheet 15 x 10: N. Christofides and C. Whitlock, An Algorithm for
Two-Dimensional Cutting Problems, Operations Research 25 (1977); data as published in a set of
instances (O. Oliveira, OR-Datasets, 2019)."""

GCUT1 = (
    (167, 184), (114, 118), (167, 152), (83, 140), (70, 86),
    (143, 166), (120, 160), (66, 148), (87, 141), (69, 165),
)  # fmt: skip
"""GCUT1, sides, value is area, sheet 250 x 250: J. E. Beasley, Algorithms for Unconstrained
Two-Dimensional Guillotine Cutting, Journal of the Operational Research Society 36 (1985)."""

UNLIMITED = [
    # PackLib2, entry of Hifi and Zissimopoulos (1996), published
    ("cgcut1", CGCUT1, (15, 10), False, 249),
    # results page of a solver for these instances (gcut, University of São Paulo, undated),
    # published, both
    ("gcut1", tuple((w, h, w * h) for w, h in GCUT1), (250, 250), False, 56460),
    ("gcut1 turned", tuple((w, h, w * h) for w, h in GCUT1), (250, 250), True, 58136),
    # blanks of a lid; worked out before on a grid of 10 mm and by another library
    ("lid blanks", ((540, 90, 1),), (1000, 2000), True, 37),
]


@pytest.mark.parametrize(("name", "pieces", "sheet", "turning", "best"), UNLIMITED)
def test_the_dearest_guillotine_layout(
    name: str,
    pieces: tuple[tuple[int, int, int], ...],
    sheet: tuple[int, int],
    turning: bool,
    best: int,
) -> None:
    """Any number of each piece; every cut from edge to edge."""
    oblongs = [Oblong(*one) for one in pieces]
    layout = dearest_layout(oblongs, *sheet, turning=turning, limit=1000)
    assert layout is not None, name
    assert layout.value == best
    assert sum(oblongs[spot.piece].value for spot in layout.spots) == best


@pytest.mark.parametrize(("lids", "sheets"), [(37, 1), (38, 2)])
def test_lid_blanks_of_540_by_90(lids: int, sheets: int) -> None:
    """37 come out of a sheet of 1000 x 2000; by area it would be 41."""
    stock = Sheet(Fraction(1000), Fraction(2000), Fraction(0), Fraction(0))
    plan = plan_sheets([Wanted(Fraction(90), Fraction(540), lids)], stock, Deadline(20))
    assert len(plan.layouts) == plan.least_sheets == sheets
