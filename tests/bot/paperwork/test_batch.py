"""Several orders cut from stock together."""

from __future__ import annotations

from collections import Counter
from collections.abc import Callable
from dataclasses import replace
from fractions import Fraction

import pytest

from bot.paperwork.batch import Batch, plan_batch
from bot.paperwork.order import PaperOrder
from sizing.fabrication.cuts import Stock, cuts_of
from sizing.measures import Request
from sizing.workshop import Figures

Make = Callable[..., PaperOrder]


@pytest.fixture(scope="module")
def few(make_order: Make, requests_: dict[str, Request]) -> list[PaperOrder]:
    """Three orders of other shapes, one of them with a size that is open."""
    return [
        make_order(requests_["usual"]),
        replace(make_order(requests_["small"]), number="48291839"),
        replace(make_order(requests_["no depth"]), number="48291936"),
    ]


@pytest.fixture(scope="module")
def batch(few: list[PaperOrder], figures: Figures) -> Batch:
    """Their plan."""
    return plan_batch(few, figures, seconds=20)


def test_every_piece_is_cut_once(few: list[PaperOrder], batch: Batch, figures: Figures) -> None:
    """What the plan cuts is what the cages need: no piece more, none less."""
    wanted: Counter[tuple[str, Fraction]] = Counter()
    for order in few[:2]:
        for cage in order.cages:
            for cut in cuts_of(cage.design, cage.request.material, cage.pieces, figures):
                wanted[cut.stock, cut.length] += cut.count
    made: Counter[tuple[str, Fraction]] = Counter()
    for one in batch.bars:
        for run in one.plan.runs:
            for length, count in run.pieces:
                made[one.kind.stock, length] += count * run.times
    for sheets in batch.sheets:
        for layout in sheets.plan.layouts:
            for placed in layout.placed:
                made[Stock.SHEET, max(placed.width, placed.height)] += 1
    assert made == wanted


def test_a_cage_with_an_open_size_is_named_and_left_out(batch: Batch) -> None:
    """The others are planned all the same."""
    assert batch.left_out == (("48291936", 1),)
    assert batch.numbers == ("48291742", "48291839", "48291936")


def test_little_is_left_over(batch: Batch) -> None:
    """No more than a tenth above what no plan can do without, or one bar."""
    for one in batch.bars:
        assert one.plan.bound <= one.plan.bars <= max(one.plan.bound * 1.1, one.plan.bound + 1)
    for sheets in batch.sheets:
        assert sheets.plan.bound <= sheets.plan.taken <= sheets.plan.bound * Fraction(11, 10)


def test_a_piece_that_no_stock_holds_is_named(few: list[PaperOrder], figures: Figures) -> None:
    """With its length; the rest is planned."""
    short = replace(figures, wire_bar=Fraction(300))
    planned = plan_batch(few[:1], short, seconds=20)
    ((kind, sides),) = planned.too_big
    assert (kind.stock, len(sides)) == (Stock.WIRE, 1)
    assert sides[0] > 300
    assert planned.sheets


def test_planning_says_how_far_it_is(few: list[PaperOrder], figures: Figures) -> None:
    """Lot by lot, the best never under the bound."""
    told: list[tuple[int, int, Fraction, Fraction]] = []
    plan_batch(few[:1], figures, seconds=20, tell=lambda *said: told.append(said))
    assert {lot for lot, *_ in told} <= set(range(1, told[0][1] + 1))
    assert all(best >= bound for _, _, best, bound in told)
