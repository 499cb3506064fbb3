"""Rows hold what is wanted, in their room, each piece clear of the others."""

from __future__ import annotations

from collections import Counter

import pytest
from hypothesis import given
from hypothesis import strategies as st

from sizing.fabrication.nesting.guillotine import Oblong
from sizing.fabrication.nesting.rows import Row, fill_rows, full_sheet

LISTS = st.lists(
    st.tuples(st.integers(1, 12), st.integers(1, 12), st.integers(0, 4)), min_size=1, max_size=6
)


@given(pieces=LISTS, room=st.integers(12, 40), standing=st.booleans())
def test_every_piece_lies_in_a_row(
    pieces: list[tuple[int, int, int]], room: int, standing: bool
) -> None:
    """Once for each time it is wanted, inside the room, none on another."""
    oblongs = [Oblong(width, height, 0) for width, height, _ in pieces]
    demand = [count for _, _, count in pieces]
    rows = fill_rows(oblongs, demand, room, standing=standing)
    laid: Counter[int] = Counter()
    for row in rows:
        cells: Counter[tuple[int, int]] = Counter()
        for spot in row.spots:
            one = oblongs[spot.piece]
            wide, high = (one.height, one.width) if spot.turned else (one.width, one.height)
            assert spot.x + wide <= room
            assert spot.y + high <= row.height
            cells.update((spot.x + x, spot.y + y) for x in range(wide) for y in range(high))
            laid[spot.piece] += 1
        assert max(cells.values()) == 1
    assert laid == Counter({i: count for i, count in enumerate(demand) if count})
    assert [row.height for row in rows] == sorted((row.height for row in rows), reverse=True)


def test_the_first_piece_stands_or_lies() -> None:
    """A piece of 2 x 5 makes a row 5 or 2 high; in a room of 4 it can only stand."""
    piece, demand = [Oblong(2, 5, 0)], [1]
    assert [row.height for row in fill_rows(piece, demand, 9, standing=True)] == [5]
    assert [row.height for row in fill_rows(piece, demand, 9, standing=False)] == [2]
    assert [row.height for row in fill_rows(piece, demand, 4, standing=False)] == [5]


def test_a_row_is_filled_as_well_as_can_be() -> None:
    """Beside the 6 in a room of 16 come 7 and 3, not 8 and nothing."""
    pieces = [Oblong(6, 4, 0), Oblong(8, 3, 0), Oblong(7, 3, 0), Oblong(3, 3, 0)]
    first = fill_rows(pieces, [1, 1, 1, 1], 16, standing=False)[0]
    assert {spot.piece for spot in first.spots} == {0, 2, 3}


def test_low_pieces_stand_on_each_other() -> None:
    """Three of 4 x 2 beside a piece 6 high take one column."""
    rows = fill_rows([Oblong(6, 7, 0), Oblong(4, 2, 0)], [1, 3], 11, standing=False)
    assert len(rows) == 1
    assert sorted(spot.y for spot in rows[0].spots) == [0, 0, 2, 4]


def test_a_piece_longer_than_the_room_both_ways_is_refused() -> None:
    """It has no row."""
    with pytest.raises(ValueError, match="width=5"):
        fill_rows([Oblong(5, 6, 0)], [1], 4, standing=False)


def test_a_sheet_takes_the_rows_that_fill_it_best() -> None:
    """Of 6 5 4 3 the last but one fill 9 with the second, and not 6 with nothing."""
    rows = [Row(height, ()) for height in (7, 5, 4, 3)]
    assert full_sheet(rows, 9) == (1, 2)
