"""The dearest layout against trying out every cut."""

from __future__ import annotations

from functools import cache

import pytest
from hypothesis import given
from hypothesis import strategies as st

from sizing.fabrication.nesting.guillotine import Layout, Oblong, dearest_layout, places

PIECES = st.lists(
    st.builds(Oblong, st.integers(1, 6), st.integers(1, 6), st.integers(0, 20)),
    min_size=1,
    max_size=3,
)
SIDES = st.integers(1, 9)


def worth(pieces: list[Oblong], width: int, height: int, turning: bool) -> int:
    """The most that any cuts at whole numbers give."""

    @cache
    def most(wide: int, high: int) -> int:
        fitting = [
            one.value
            for one in pieces
            if (one.width <= wide and one.height <= high)
            or (turning and one.height <= wide and one.width <= high)
        ]
        across = [most(n, high) + most(wide - n, high) for n in range(1, wide // 2 + 1)]
        upward = [most(wide, n) + most(wide, high - n) for n in range(1, high // 2 + 1)]
        return max([0, *fitting, *across, *upward])

    return most(width, height)


def assert_sound(layout: Layout, pieces: list[Oblong], width: int, height: int) -> None:
    """Pieces lie on the sheet, not on each other, and are worth what is said."""
    taken: set[tuple[int, int]] = set()
    for spot in layout.spots:
        one = pieces[spot.piece]
        wide, high = (one.height, one.width) if spot.turned else (one.width, one.height)
        assert spot.x + wide <= width
        assert spot.y + high <= height
        cells = {(spot.x + x, spot.y + y) for x in range(wide) for y in range(high)}
        assert not cells & taken
        taken |= cells
    assert layout.value == sum(pieces[spot.piece].value for spot in layout.spots)


@given(pieces=PIECES, width=SIDES, height=SIDES, turning=st.booleans())
def test_no_cuts_give_more(pieces: list[Oblong], width: int, height: int, turning: bool) -> None:
    """And the layout is worth it."""
    layout = dearest_layout(pieces, width, height, turning=turning, limit=100)
    assert layout is not None
    assert layout.value == worth(pieces, width, height, turning)
    assert_sound(layout, pieces, width, height)
    assert turning or not any(spot.turned for spot in layout.spots)


def test_places_are_sums_of_sides() -> None:
    """3 and 5 make 0 3 5 6 8 9 10 11; the limit counts 0 too."""
    assert places([5, 3, 3], 11, 8) == [0, 3, 5, 6, 8, 9, 10, 11]
    assert places([5, 3, 3], 11, 7) is None
    assert places([12], 11, 1) == [0]


@pytest.mark.parametrize("limit", [3, 4])
def test_too_many_places_are_not_looked_at(limit: int) -> None:
    """A side of 2 in 6 has the places 0 2 4 6."""
    found = dearest_layout([Oblong(2, 6, 1)], 6, 6, turning=False, limit=limit)
    assert (found is None) == (limit < 4)
