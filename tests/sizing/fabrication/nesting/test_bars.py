"""Bar plans hold what is wanted, fit the bars, and never claim a bound that is not one."""

from __future__ import annotations

from collections import Counter
from collections.abc import Mapping
from fractions import Fraction
from functools import cache
from typing import TYPE_CHECKING

import pytest
from hypothesis import given
from hypothesis import strategies as st

from sizing.errors import StockTooSmallError
from sizing.fabrication.nesting.bars import Bar, BarPlan, most_pieces, plan_bars
from sizing.fabrication.nesting.ports import PatternSolver

if TYPE_CHECKING:
    from tests.sizing.fabrication.nesting.conftest import Patience

TEN = Bar(Fraction(10), Fraction(0))
DEMANDS = st.dictionaries(
    st.integers(4, 40).map(lambda quarters: Fraction(quarters, 4)), st.integers(1, 3), max_size=4
)
KERFS = st.sampled_from([Fraction(0), Fraction(1, 4), Fraction(1, 3)])


def for_ever(best: Fraction, bound: Fraction) -> bool:
    """A watch that never stops."""
    return best >= bound


def assert_sound(plan: BarPlan, demand: Mapping[Fraction, int], bar: Bar) -> None:
    """Every piece that is wanted and no other, no bar longer than it is, the rest as said."""
    made: Counter[Fraction] = Counter()
    for run in plan.runs:
        assert run.times > 0
        pieces = sum(count for _, count in run.pieces)
        used = sum((length * count for length, count in run.pieces), Fraction(0))
        cut = used + (pieces - 1) * bar.kerf
        assert cut <= bar.length
        assert run.rest == max(0, bar.length - cut - bar.kerf)
        for length, count in run.pieces:
            made[length] += run.times * count
    assert made == Counter(demand)
    assert plan.bound <= plan.bars


def least(demand: Mapping[Fraction, int], bar: Bar) -> int:
    """The least number of bars, by trying which pieces share one."""
    pieces = tuple(sorted((length for length, n in demand.items() for _ in range(n))))

    @cache
    def bars(left: tuple[Fraction, ...]) -> int:
        if not left:
            return 0
        first, others = left[-1], left[:-1]
        found = 1 + bars(others)
        for chosen in range(1, 2 ** len(others)):
            beside = [one for i, one in enumerate(others) if chosen >> i & 1]
            if first + sum(beside) + len(beside) * bar.kerf <= bar.length:
                rest = tuple(one for i, one in enumerate(others) if not chosen >> i & 1)
                found = min(found, 1 + bars(rest))
        return found

    return bars(pieces)


@given(demand=DEMANDS.filter(lambda demand: sum(demand.values()) <= 7), kerf=KERFS)
def test_small_demands_take_as_few_bars_as_can_be(
    solver: PatternSolver, demand: dict[Fraction, int], kerf: Fraction
) -> None:
    """Fewer is impossible, as trying all ways shows; and the plan knows it."""
    bar = Bar(Fraction(10), kerf)
    plan = plan_bars(demand, bar, solver, for_ever)
    assert_sound(plan, demand, bar)
    assert plan.bars == plan.bound == least(demand, bar)


def test_the_plain_way_is_not_enough(solver: PatternSolver, patience: Patience) -> None:
    """5 4 and 3 3 3 leave 2 for a third bar; 5 3 2 and 4 3 3 fill two."""
    demand = {Fraction(5): 1, Fraction(4): 1, Fraction(3): 3, Fraction(2): 1}
    plan = plan_bars(demand, TEN, solver, patience)
    assert_sound(plan, demand, TEN)
    assert plan.bars == 2
    assert plan.use == 1


def many() -> dict[Fraction, int]:
    """Forty lengths, more patterns than are listed, with which the plain way wastes bars."""
    return {Fraction(1380 + 20 * i): 3 + i % 5 for i in range(40)}


LONG = Bar(Fraction(5600), Fraction(1))


def test_many_lengths_come_close_to_the_bound(solver: PatternSolver, patience: Patience) -> None:
    """A bar more than needed at the most, and the watch has seen the plan on its way."""
    plan = plan_bars(many(), LONG, solver, patience)
    assert_sound(plan, many(), LONG)
    assert plan.bars - plan.bound <= 1
    assert patience.told
    assert all(best >= bound for best, bound in patience.told)


def test_without_time_there_still_is_a_plan(solver: PatternSolver, hurry: Patience) -> None:
    """It holds everything and says its bound."""
    plan = plan_bars(many(), LONG, solver, hurry)
    assert_sound(plan, many(), LONG)
    assert len(hurry.told) == 1


def test_the_same_demand_gives_the_same_plan(solver: PatternSolver) -> None:
    """In whatever order it is told."""
    backwards = dict(reversed(many().items()))
    first, second = (plan_bars(one, LONG, solver, for_ever) for one in (many(), backwards))
    assert first == second


def test_nothing_wanted_takes_no_bar(solver: PatternSolver, patience: Patience) -> None:
    """An empty plan is a plan."""
    plan = plan_bars({Fraction(3): 0}, TEN, solver, patience)
    assert not plan.runs
    assert plan.bars == plan.bound == 0
    assert plan.use == 1


def test_a_piece_longer_than_the_bar_is_named(solver: PatternSolver, patience: Patience) -> None:
    """With the bar it does not come out of."""
    with pytest.raises(StockTooSmallError) as raised:
        plan_bars({Fraction(11): 1}, TEN, solver, patience)
    assert raised.value.piece == (Fraction(11),)
    assert raised.value.stock == (TEN.length,)


def test_a_length_of_nothing_is_no_piece() -> None:
    """It would fit without end."""
    with pytest.raises(ValueError, match="0"):
        most_pieces(Fraction(0), TEN)
