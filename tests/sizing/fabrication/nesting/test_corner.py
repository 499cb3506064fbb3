"""The smallest corner against trying out every cut of every corner."""

from __future__ import annotations

from functools import cache
from itertools import product

from hypothesis import given
from hypothesis import strategies as st

from sizing.fabrication.nesting.corner import smallest_corner
from sizing.fabrication.nesting.guillotine import Oblong

LOTS = st.lists(
    st.tuples(st.integers(1, 4), st.integers(1, 4), st.integers(0, 2)), min_size=1, max_size=2
).filter(lambda lot: any(count for _, _, count in lot))


@given(lot=LOTS, wide=st.integers(3, 7), high=st.integers(3, 7))
def test_no_smaller_corner_holds_them(
    lot: list[tuple[int, int, int]], wide: int, high: int
) -> None:
    """By cutting every rectangle of whole sides in every way."""
    pieces = [Oblong(width, height, 0) for width, height, _ in lot]
    demand = tuple(count for _, _, count in lot)

    @cache
    def holds(width: int, height: int, wanted: tuple[int, ...]) -> bool:
        if not any(wanted):
            return True
        if sum(wanted) == 1:
            one = pieces[wanted.index(1)]
            ways = ((one.width, one.height), (one.height, one.width))
            if any(w <= width and h <= height for w, h in ways):
                return True
        for part in product(*(range(count + 1) for count in wanted)):
            rest = tuple(a - b for a, b in zip(wanted, part, strict=True))
            if any(part) and any(rest):
                if any(
                    holds(n, height, part) and holds(width - n, height, rest)
                    for n in range(1, width)
                ):
                    return True
                if any(
                    holds(width, n, part) and holds(width, height - n, rest)
                    for n in range(1, height)
                ):
                    return True
        return False

    sides = product(range(1, wide + 1), range(1, high + 1))
    areas = [w * h for w, h in sides if holds(w, h, demand)]
    assert smallest_corner(pieces, demand, wide, high, 100) == min(areas, default=None)


def test_too_many_lots_are_not_looked_at() -> None:
    """Two of one kind and one of another are 3 x 2 lots, none among them."""
    pieces = [Oblong(2, 3, 0), Oblong(1, 1, 0)]
    assert smallest_corner(pieces, (2, 1), 9, 9, 5) is None
    assert smallest_corner(pieces, (2, 1), 9, 9, 6) == 14


def test_nothing_needs_no_corner() -> None:
    """No piece, no answer."""
    assert smallest_corner([Oblong(2, 3, 0)], (0,), 9, 9, 5) is None
