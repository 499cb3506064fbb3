"""The dearest guillotine pattern of one sheet when each piece may be cut any number of times.

Every cut goes from edge to edge of what it divides. A cut may be moved until it lies at a sum of
sides of pieces, so only such places are looked at (P. C. Gilmore and R. E. Gomory, The Theory
and Computation of Knapsack Functions, Operations Research 14, 1966; J. E. Beasley, Algorithms
for Unconstrained Two-Dimensional Guillotine Cutting, Journal of the Operational Research
Society 36, 1985). Whole numbers throughout; a cut that loses something is taken in by making
pieces and sheet longer and wider by it.
"""

from __future__ import annotations

from bisect import bisect_right
from dataclasses import dataclass
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from collections.abc import Iterable, Sequence

__all__ = ["Layout", "Oblong", "Spot", "dearest_layout", "places"]


@dataclass(frozen=True, slots=True)
class Oblong:
    """A rectangle to be cut: its sides in one unit of length, and what it is worth."""

    width: int
    height: int
    value: int


@dataclass(frozen=True, slots=True)
class Spot:
    """Where a piece lies: which of those given, its lower left corner, and if it is turned."""

    piece: int
    x: int
    y: int
    turned: bool


@dataclass(frozen=True, slots=True)
class Layout:
    """Where the pieces lie and what they are worth together."""

    value: int
    spots: tuple[Spot, ...]


def places(sides: Iterable[int], room: int, limit: int) -> list[int] | None:
    """All sums of `sides` up to `room`, ascending from 0; None if there are more than `limit`.

    `sides` and `room` in one unit of length. Source: plain enumeration.
    """
    found = {0}
    for side in sorted(set(sides)):
        grown = found
        while grown:
            grown = {one + side for one in grown if one + side <= room} - found
            found |= grown
            if len(found) > limit:
                return None
    return sorted(found)


def dearest_layout(
    pieces: Sequence[Oblong], width: int, height: int, *, turning: bool, limit: int
) -> Layout | None:
    """The layout worth most; None if more than `limit` places for cuts would be looked at.

    `width` and `height` in the unit of the pieces; `turning`: a piece may lie crosswise.
    Source: above; a test compares it with trying out all cuts.
    """
    ways = [(one.width, one.height, i, False) for i, one in enumerate(pieces)]
    if turning:
        ways += [(one.height, one.width, i, True) for i, one in enumerate(pieces)]
    across = places((way[0] for way in ways), width, limit)
    upward = places((way[1] for way in ways), height, limit)
    if across is None or upward is None:
        return None
    return _Table(pieces, ways, across, upward).layout(width, height)


_Way = tuple[int, int, int, bool]
"""Width, height and number of a piece as it lies, and whether it is turned."""


class _Table:
    """The best of every rectangle whose sides are places, smaller ones first."""

    def __init__(
        self, pieces: Sequence[Oblong], ways: list[_Way], across: list[int], upward: list[int]
    ) -> None:
        self._across, self._upward = across, upward
        self._ways = ways
        self._value = [[0] * len(upward) for _ in across]
        self._made: list[list[tuple[str, int] | None]] = [[None] * len(upward) for _ in across]
        for n, (wide, high, i, _) in enumerate(ways):
            for column in range(bisect_right(across, wide - 1), len(across)):
                for row in range(bisect_right(upward, high - 1), len(upward)):
                    self._offer(column, row, pieces[i].value, ("piece", n))
        for column in range(len(across)):
            for row in range(len(upward)):
                self._cut(column, row)

    def _offer(self, column: int, row: int, value: int, made: tuple[str, int]) -> None:
        if value > self._value[column][row]:
            self._value[column][row] = value
            self._made[column][row] = made

    def _cut(self, column: int, row: int) -> None:
        """The best of all cuts through the rectangle, none of them past its middle."""
        values = self._value
        for n in range(1, column):
            rest = self._across[column] - self._across[n]
            if rest < self._across[n]:
                break
            other = bisect_right(self._across, rest) - 1
            self._offer(column, row, values[n][row] + values[other][row], ("across", n))
        here = values[column]
        for n in range(1, row):
            rest = self._upward[row] - self._upward[n]
            if rest < self._upward[n]:
                break
            other = bisect_right(self._upward, rest) - 1
            self._offer(column, row, here[n] + here[other], ("upward", n))

    def layout(self, width: int, height: int) -> Layout:
        """The best of a rectangle of these sides."""
        spots: list[Spot] = []
        todo = [(width, height, 0, 0)]
        while todo:
            wide, high, x, y = todo.pop()
            column = bisect_right(self._across, wide) - 1
            row = bisect_right(self._upward, high) - 1
            made = self._made[column][row]
            if made is None:
                continue
            kind, n = made
            if kind == "piece":
                _, _, i, turned = self._ways[n]
                spots.append(Spot(i, x, y, turned))
            elif kind == "across":
                at = self._across[n]
                todo += [(at, high, x, y), (self._across[column] - at, high, x + at, y)]
            else:
                at = self._upward[n]
                todo += [(wide, at, x, y), (wide, self._upward[row] - at, x, y + at)]
        column = bisect_right(self._across, width) - 1
        row = bisect_right(self._upward, height) - 1
        return Layout(self._value[column][row], tuple(sorted(spots, key=lambda s: (s.y, s.x))))
