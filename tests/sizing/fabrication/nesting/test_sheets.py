"""Sheet plans hold every blank, can be cut from edge to edge, and leave little."""

from __future__ import annotations

from collections import Counter
from collections.abc import Sequence
from fractions import Fraction
from itertools import pairwise
from math import ceil
from random import Random
from typing import TYPE_CHECKING

import pytest
import rectpack
from hypothesis import given
from hypothesis import strategies as st

from sizing.errors import StockTooSmallError
from sizing.fabrication.nesting.sheets import Placed, Sheet, SheetPlan, Wanted, plan_sheets

if TYPE_CHECKING:
    from tests.sizing.fabrication.nesting.conftest import Patience

STOCK = Sheet(Fraction(1000), Fraction(2000), Fraction(0), Fraction(5))
SAWN = Sheet(Fraction(1000), Fraction(2000), Fraction(3), Fraction(5))
SIDES = st.integers(4, 80).map(lambda quarters: Fraction(quarters, 4))


def for_ever(best: Fraction, bound: Fraction) -> bool:
    """A watch that never stops."""
    return best >= bound


def batch(orders: int, seed: int = 1) -> list[Wanted]:
    """End walls and lids of some orders for frames that are much alike."""
    chance = Random(seed)
    wanted = []
    for _ in range(orders):
        deep, long = (Fraction(chance.randint(*span), 2) for span in ((90, 104), (700, 960)))
        high = Fraction(chance.randint(320, 560), 2)
        cages = chance.choice([1, 1, 1, 2, 3])
        wanted += [Wanted(deep, high, 2 * cages), Wanted(deep + 20, long, cages)]
    return wanted


def cuttable(placed: Sequence[Placed], kerf: Fraction) -> bool:
    """Whether cuts from edge to edge, `kerf` wide, free every blank."""
    if len(placed) < 2:
        return True
    for low, high in (("x", "width"), ("y", "height")):
        ordered = sorted(placed, key=lambda one: getattr(one, low))
        reached = Fraction(0)
        for n, (one, after) in enumerate(pairwise(ordered), 1):
            reached = max(reached, getattr(one, low) + getattr(one, high))
            if reached + kerf <= getattr(after, low):
                return cuttable(ordered[:n], kerf) and cuttable(ordered[n:], kerf)
    return False


def assert_sound(plan: SheetPlan, wanted: Sequence[Wanted], sheet: Sheet) -> None:
    """Every blank as often as wanted, inside the margins and what is taken; cuttable."""
    made: Counter[int] = Counter()
    for layout in plan.layouts:
        assert cuttable(layout.placed, sheet.kerf)
        assert layout.width <= sheet.width
        assert layout.length <= sheet.length
        for one in layout.placed:
            made[one.blank] += 1
            asked = wanted[one.blank]
            sides = (asked.length, asked.width) if one.turned else (asked.width, asked.length)
            assert (one.width, one.height) == sides
            assert one.x >= sheet.margin
            assert one.y >= sheet.margin
            assert one.x + one.width <= min(sheet.width - sheet.margin, layout.width)
            assert one.y + one.height <= min(sheet.length - sheet.margin, layout.length)
    assert made == Counter({i: one.count for i, one in enumerate(wanted) if one.count})
    assert plan.bound <= plan.taken <= len(plan.layouts)
    assert plan.least_sheets <= len(plan.layouts)


@given(
    wanted=st.lists(st.builds(Wanted, SIDES, SIDES, st.integers(0, 4)), max_size=6),
    kerf=st.sampled_from([Fraction(0), Fraction(1, 3)]),
    margin=st.sampled_from([Fraction(0), Fraction(1, 2)]),
)
def test_any_blanks_can_be_cut(wanted: list[Wanted], kerf: Fraction, margin: Fraction) -> None:
    """Whatever their sides, the kerf and the margin."""
    sheet = Sheet(Fraction(24), Fraction(40), kerf, margin)
    assert_sound(plan_sheets(wanted, sheet, for_ever), wanted, sheet)


@pytest.mark.parametrize("sheet", [STOCK, SAWN], ids=["shears", "saw"])
@pytest.mark.parametrize("orders", [1, 2, 3, 5, 8, 16, 30])
def test_batches_lie_within_a_tenth_of_their_bound(orders: int, sheet: Sheet) -> None:
    """From one order to many, by area or, for few blanks, by their smallest corner."""
    wanted = batch(orders)
    plan = plan_sheets(wanted, sheet, for_ever)
    assert_sound(plan, wanted, sheet)
    assert plan.taken <= plan.bound * Fraction(11, 10)


@pytest.mark.parametrize("orders", [5, 16])
def test_no_library_needs_fewer_sheets(orders: int) -> None:
    """Rows take no more sheets than the guillotine packer of another library."""
    wanted = batch(orders, seed=7)
    packer = rectpack.newPacker(pack_algo=rectpack.GuillotineBssfSas, rotation=True)
    packer.add_bin(990 * 2, 1990 * 2, count=float("inf"))
    for one in wanted:
        for _ in range(one.count):
            packer.add_rect(int(one.width * 2), int(one.length * 2))
    packer.pack()
    assert len(packer.rect_list()) == sum(one.count for one in wanted)
    assert len(plan_sheets(wanted, STOCK, for_ever).layouts) <= len(packer)


@pytest.mark.parametrize(("lids", "sheets"), [(37, 1), (38, 2), (74, 2), (75, 3)])
def test_the_exact_layout_is_used(lids: int, sheets: int) -> None:
    """37 lids come out of a sheet, which rows alone do not do; and the plan knows the least."""
    bare = Sheet(Fraction(1000), Fraction(2000), Fraction(0), Fraction(0))
    wanted = [Wanted(Fraction(90), Fraction(540), lids)]
    plan = plan_sheets(wanted, bare, for_ever)
    assert_sound(plan, wanted, bare)
    assert len(plan.layouts) == plan.least_sheets == sheets


def test_the_use_is_what_becomes_blanks() -> None:
    """Four of 500 x 1000 are all of a sheet; one is all but the margins of its corner."""
    bare = Sheet(Fraction(1000), Fraction(2000), Fraction(0), Fraction(0))
    quarter = Wanted(Fraction(500), Fraction(1000), 4)
    assert plan_sheets([quarter], bare, for_ever).use == 1
    plan = plan_sheets([Wanted(Fraction(95), Fraction(195), 1)], STOCK, for_ever)
    assert plan.use == Fraction(95 * 195, 100 * 200)
    assert plan_sheets([], STOCK, for_ever).use == 1


def test_without_time_there_still_is_a_plan(hurry: Patience) -> None:
    """Sound, and with a true bound."""
    wanted = batch(60)
    plan = plan_sheets(wanted, STOCK, hurry)
    assert_sound(plan, wanted, STOCK)
    assert len(plan.layouts) > 1
    assert len(hurry.told) == 1


def test_the_same_blanks_give_the_same_plan() -> None:
    """Nothing is left to chance."""
    assert plan_sheets(batch(5), STOCK, for_ever) == plan_sheets(batch(5), STOCK, for_ever)


def test_the_watch_is_told_the_way(patience: Patience) -> None:
    """After each sheet: what it will be at least, and the bound."""
    plan = plan_sheets(batch(60), STOCK, patience)
    assert len(patience.told) == len(plan.layouts)
    assert all(best >= bound for best, bound in patience.told)
    assert ceil(patience.told[-1][0]) == len(plan.layouts)


def test_a_blank_bigger_than_the_sheet_is_named(patience: Patience) -> None:
    """With what of the sheet can be used; turned it would fit."""
    wide = Wanted(Fraction(1995), Fraction(10), 1)
    with pytest.raises(StockTooSmallError) as raised:
        plan_sheets([wide], STOCK, patience)
    assert raised.value.piece == (wide.width, wide.length)
    assert raised.value.stock == (Fraction(990), Fraction(1990))
    assert plan_sheets([Wanted(Fraction(1990), Fraction(10), 1)], STOCK, patience).layouts


def test_a_side_of_nothing_is_no_blank(patience: Patience) -> None:
    """It would fit without end."""
    with pytest.raises(ValueError, match="Wanted"):
        plan_sheets([Wanted(Fraction(0), Fraction(10), 1)], STOCK, patience)
