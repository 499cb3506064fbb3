"""Blanks out of sheets by cuts from edge to edge, turned where that helps.

Whole sheets are filled as densely as rows allow, one after the other. What is left then is laid
into the smallest corner of a last sheet that was found; the rest of that sheet goes back on the
shelf. Where sides are few, the best layout of one sheet is known exactly (`guillotine`): it is
tried too, and tells how many sheets are needed at least. Few blanks have a smallest corner that is
known exactly (`corner`), which is then the bound; else that is their area. Construction: own.
"""

from __future__ import annotations

from collections import Counter
from dataclasses import dataclass
from fractions import Fraction
from functools import cached_property
from typing import TYPE_CHECKING

from sizing.errors import StockTooSmallError
from sizing.fabrication.nesting.corner import smallest_corner
from sizing.fabrication.nesting.guillotine import Oblong, Spot, dearest_layout
from sizing.fabrication.nesting.rows import fill_rows, full_sheet
from sizing.fabrication.nesting.whole import parts_in_a_mm

if TYPE_CHECKING:
    from collections.abc import Iterator, Sequence

    from sizing.fabrication.nesting.guillotine import Layout
    from sizing.fabrication.nesting.ports import Watch
    from sizing.units import Mm

__all__ = ["Placed", "Sheet", "SheetLayout", "SheetPlan", "Wanted", "plan_sheets"]

_FEW_PLACES = 80
_FEW_LOTS = 64
_MOST_ROOMS = 48
_ROOMS_FOR_ALL = 800
"""Kinds of blanks times the rooms tried for the last sheet."""


@dataclass(frozen=True, slots=True)
class Sheet:
    """A sheet as it is bought [mm], what each cut loses and what no edge is used of [mm]."""

    width: Mm
    length: Mm
    kerf: Mm
    margin: Mm


@dataclass(frozen=True, slots=True)
class Wanted:
    """`count` equal blanks [mm]."""

    width: Mm
    length: Mm
    count: int


@dataclass(frozen=True, slots=True)
class Placed:
    """One blank, by its number in the list, on a sheet: its lower left corner and sides [mm].

    `turned`: its length lies across the sheet.
    """

    blank: int
    x: Mm
    y: Mm
    width: Mm
    height: Mm
    turned: bool


@dataclass(frozen=True, slots=True)
class SheetLayout:
    """One sheet; `width` and `length` [mm] of it are taken, the rest goes back on the shelf."""

    placed: tuple[Placed, ...]
    width: Mm
    length: Mm


@dataclass(frozen=True, slots=True)
class SheetPlan:
    """How sheets are cut.

    `taken` and `bound` count sheets less their margins, the last one by the part that is taken;
    no plan takes less than `bound`, nor fewer whole sheets than `least_sheets`.
    """

    sheet: Sheet
    layouts: tuple[SheetLayout, ...]
    taken: Fraction
    bound: Fraction
    least_sheets: int

    @property
    def use(self) -> Fraction:
        """Share of what is taken, margins and all, that becomes blanks, 0 to 1."""
        blanks = sum(
            (one.width * one.height for layout in self.layouts for one in layout.placed),
            Fraction(0),
        )
        area = sum((one.width * one.length for one in self.layouts), Fraction(0))
        return blanks / area if area else Fraction(1)


def plan_sheets(wanted: Sequence[Wanted], sheet: Sheet, watch: Watch) -> SheetPlan:
    """A plan for all blanks [mm], with as little sheet as was found.

    Raises `StockTooSmallError` for a blank that fits neither way, `ValueError` for one with a
    side that is not above 0. Source: above.
    """
    room = (sheet.width - 2 * sheet.margin, sheet.length - 2 * sheet.margin)
    for one in wanted:
        if min(one.width, one.length) <= 0:
            raise ValueError(one)
        sides = sorted((one.width, one.length))
        if any(side > most for side, most in zip(sides, sorted(room), strict=True)):
            raise StockTooSmallError((one.width, one.length), room)
    return _Planner(wanted, sheet, watch).plan()


@dataclass(frozen=True, slots=True)
class _Laid:
    """Blanks in a corner `wide` and `high`, from (0, 0) on."""

    spots: tuple[Spot, ...]
    wide: int
    high: int

    def across(self) -> _Laid:
        """The same with both directions changed for each other."""
        spots = tuple(Spot(one.piece, one.y, one.x, not one.turned) for one in self.spots)
        return _Laid(spots, self.high, self.wide)


class _Planner:
    """One list of blanks on one kind of sheet, in whole numbers, each side a cut longer."""

    def __init__(self, wanted: Sequence[Wanted], sheet: Sheet, watch: Watch) -> None:
        sides = [side for one in wanted for side in (one.width, one.length)]
        self._parts = parts_in_a_mm((*sides, sheet.width, sheet.length, sheet.kerf, sheet.margin))
        self._sheet = sheet
        self._watch = watch
        self._wanted = wanted
        self._left = [one.count for one in wanted]
        self._pieces = [
            Oblong(width, height, width * height)
            for one in wanted
            for width, height in [(self._whole(one.width), self._whole(one.length))]
        ]
        self._wide = self._whole(sheet.width - 2 * sheet.margin)
        self._high = self._whole(sheet.length - 2 * sheet.margin)
        self._in_time = True

    def _whole(self, length: Mm) -> int:
        return int((length + self._sheet.kerf) * self._parts)

    @property
    def _area(self) -> int:
        return self._wide * self._high

    def _left_area(self) -> int:
        return sum(one.value * count for one, count in zip(self._pieces, self._left, strict=True))

    @cached_property
    def _dearest(self) -> Layout | None:
        return dearest_layout(self._pieces, self._wide, self._high, turning=True, limit=_FEW_PLACES)

    def plan(self) -> SheetPlan:
        smallest = smallest_corner(self._pieces, self._left, self._wide, self._high, _FEW_LOTS)
        bound = Fraction(smallest or self._left_area(), self._area)
        most = self._area if self._dearest is None else self._dearest.value
        least = -(-self._left_area() // most) if most else 0
        laid: list[_Laid] = []
        while any(self._left):
            last = self._last() if self._left_area() <= self._area else None
            laid.append(last or self._densest())
            for spot in laid[-1].spots:
                self._left[spot.piece] -= 1
            best = len(laid) + Fraction(self._left_area(), self._area)
            self._in_time = self._in_time and self._watch(max(best, bound), bound)
        taken = max(len(laid) - 1, 0) + (
            Fraction(laid[-1].wide * laid[-1].high, self._area) if laid else Fraction(0)
        )
        layouts = tuple(self._layout(one, last=n == len(laid)) for n, one in enumerate(laid, 1))
        return SheetPlan(self._sheet, layouts, taken, bound, least)

    def _densest(self) -> _Laid:
        """The whole sheet with the most on it."""
        return max(self._whole_sheets(), key=lambda one: self._worth(one.spots))

    def _worth(self, spots: Sequence[Spot]) -> int:
        return sum(self._pieces[spot.piece].value for spot in spots)

    def _whole_sheets(self) -> Iterator[_Laid]:
        if self._dearest is not None:
            yield _Laid(self._as_wanted(self._dearest.spots), self._wide, self._high)
        for wide, high, turn in self._ways():
            for standing in (False, True) if self._in_time else (False,):
                rows = fill_rows(self._pieces, self._left, wide, standing=standing)
                chosen = full_sheet(rows, high)
                found = self._stacked([(rows[i].height, rows[i].spots) for i in chosen])
                yield found.across() if turn else found

    def _ways(self) -> list[tuple[int, int, bool]]:
        """Rows along the width and along the length, those that any blank fits into."""
        longest = max(
            min(one.width, one.height)
            for one, count in zip(self._pieces, self._left, strict=True)
            if count
        )
        ways = [(self._wide, self._high, False), (self._high, self._wide, True)]
        return [way for way in ways if way[0] >= longest]

    def _as_wanted(self, spots: Sequence[Spot]) -> tuple[Spot, ...]:
        """The spots without those of blanks that are not wanted any more."""
        left = list(self._left)
        kept = []
        for spot in spots:
            if left[spot.piece]:
                left[spot.piece] -= 1
                kept.append(spot)
        return tuple(kept)

    def _last(self) -> _Laid | None:
        """All that is left in the smallest corner found; None where one sheet is too small."""
        found = [
            one for one in self._corners() if one.wide <= self._wide and one.high <= self._high
        ]
        return min(found, key=lambda one: one.wide * one.high, default=None)

    def _corners(self) -> Iterator[_Laid]:
        if self._dearest is not None:
            spots = self._as_wanted(self._dearest.spots)
            if Counter(spot.piece for spot in spots) == Counter(dict(enumerate(self._left))):
                yield self._fitted(spots)
        kinds = sum(map(bool, self._left))
        rooms = min(_MOST_ROOMS, max(4, _ROOMS_FOR_ALL // kinds)) if self._in_time else 1
        for wide, _, turn in self._ways():
            for n in range(rooms, 0, -1):
                for standing in (False, True):
                    found = self._in_rows(wide * n // rooms, standing=standing)
                    if found is not None:
                        yield found.across() if turn else found

    def _in_rows(self, room: int, *, standing: bool) -> _Laid | None:
        """Everything left in rows no longer than `room`; None where a blank is longer."""
        for one, count in zip(self._pieces, self._left, strict=True):
            if count and min(one.width, one.height) > room:
                return None
        rows = fill_rows(self._pieces, self._left, room, standing=standing)
        return self._stacked([(row.height, row.spots) for row in rows])

    def _stacked(self, rows: Sequence[tuple[int, tuple[Spot, ...]]]) -> _Laid:
        spots: list[Spot] = []
        y = 0
        for height, beside in rows:
            spots += [Spot(one.piece, one.x, one.y + y, one.turned) for one in beside]
            y += height
        return self._fitted(spots)

    def _fitted(self, spots: Sequence[Spot]) -> _Laid:
        """The corner that these spots take."""
        sides = [self._sides(spot) for spot in spots]
        wide = max((one.x + side[0] for one, side in zip(spots, sides, strict=True)), default=0)
        high = max((one.y + side[1] for one, side in zip(spots, sides, strict=True)), default=0)
        return _Laid(tuple(spots), wide, high)

    def _sides(self, spot: Spot) -> tuple[int, int]:
        one = self._pieces[spot.piece]
        return (one.height, one.width) if spot.turned else (one.width, one.height)

    def _layout(self, laid: _Laid, *, last: bool) -> SheetLayout:
        sheet, margin = self._sheet, self._sheet.margin
        placed = []
        for spot in sorted(laid.spots, key=lambda one: (one.y, one.x)):
            one = self._wanted[spot.piece]
            wide, high = (one.length, one.width) if spot.turned else (one.width, one.length)
            x, y = (margin + Fraction(at, self._parts) for at in (spot.x, spot.y))
            placed.append(Placed(spot.piece, x, y, wide, high, spot.turned))
        if not last:
            return SheetLayout(tuple(placed), sheet.width, sheet.length)
        wide, high = (Fraction(side, self._parts) for side in (laid.wide, laid.high))
        whole = laid.wide == self._wide, laid.high == self._high
        return SheetLayout(
            tuple(placed),
            sheet.width if whole[0] else min(sheet.width, margin + wide),
            sheet.length if whole[1] else min(sheet.length, margin + high),
        )
