"""Rectangles in rows across a sheet: every row a cut from edge to edge. Whole numbers throughout.

A row is as high as its first piece. What lies beside that is chosen so that the row is filled as
well as can be; low pieces stand on each other. Parts of cages have few different widths, so that
rows of equal ones leave next to nothing.
"""

from __future__ import annotations

from dataclasses import dataclass, field
from typing import TYPE_CHECKING

from sizing.fabrication.nesting.guillotine import Spot
from sizing.fabrication.nesting.patterns import best_pattern

if TYPE_CHECKING:
    from collections.abc import Sequence

    from sizing.fabrication.nesting.guillotine import Oblong

__all__ = ["Row", "fill_rows", "full_sheet"]

_STEPS = 2000


@dataclass(frozen=True, slots=True)
class Row:
    """Pieces beside each other from the left edge on, `height` of the tallest of them."""

    height: int
    spots: tuple[Spot, ...]


@dataclass(frozen=True, slots=True)
class _Stack:
    """Equal pieces on each other, as they lie in a row."""

    piece: int
    wide: int
    high: int
    count: int
    turned: bool

    @property
    def area(self) -> int:
        return self.wide * self.high * self.count


def fill_rows(
    pieces: Sequence[Oblong], demand: Sequence[int], room: int, *, standing: bool
) -> tuple[Row, ...]:
    """All pieces in rows no longer than `room`, tallest row first.

    Sides and `room` in one unit of length. `standing`: the first piece of a row, the tallest of
    those left, stands on its shorter side where it can, else it lies on its longer one.
    Raises `ValueError` for a piece with both sides longer than `room`.
    """
    filler = _Filler(pieces, list(demand), room, standing)
    rows = []
    while any(filler.left):
        rows.append(filler.row())
    return tuple(rows)


def full_sheet(rows: Sequence[Row], room: int) -> tuple[int, ...]:
    """Which of the rows fill `room` best, by number; `room` in the unit of their heights."""
    heights = [row.height for row in rows]
    found = best_pattern(heights, heights, [1] * len(rows), room, _STEPS)
    return tuple(i for i, count in enumerate(found.counts) if count)


@dataclass
class _Filler:
    """What is left to be laid, and the next row of it."""

    pieces: Sequence[Oblong]
    left: list[int]
    room: int
    standing: bool
    _order: list[tuple[int, int, int, int, bool]] = field(init=False)

    def __post_init__(self) -> None:
        self._order = []
        for i, one in enumerate(self.pieces):
            if not self.left[i]:
                continue
            ways = [
                (high, wide, turned)
                for wide, high, turned in (
                    (one.width, one.height, False),
                    (one.height, one.width, True),
                )
                if wide <= self.room
            ]
            if not ways:
                raise ValueError(one)
            high, wide, turned = max(ways) if self.standing else min(ways)
            self._order.append((-high, -wide, i, wide, turned))
        self._order.sort()

    def row(self) -> Row:
        """The tallest piece left and what goes best beside it."""
        negative, _, first, wide, turned = next(one for one in self._order if self.left[one[2]])
        height = -negative
        start = _Stack(first, wide, height, 1, turned)
        stacks = [start]
        self.left[first] -= 1
        options = [
            stack
            for i, count in enumerate(self.left)
            if count and (stack := self._stack(i, height)) is not None
        ]
        found = best_pattern(
            [stack.area for stack in options],
            [stack.wide for stack in options],
            [self.left[stack.piece] // stack.count for stack in options],
            self.room - wide,
            _STEPS,
        )
        for stack, count in zip(options, found.counts, strict=True):
            stacks += [stack] * count
            self.left[stack.piece] -= count * stack.count
        return Row(height, tuple(_spots(stacks)))

    def _stack(self, i: int, height: int) -> _Stack | None:
        """The way in which piece i fills a row of this height best."""
        one, best = self.pieces[i], None
        for wide, high, turned in (
            (one.width, one.height, False),
            (one.height, one.width, True),
        ):
            if high <= height and wide <= self.room:
                stack = _Stack(i, wide, high, min(self.left[i], height // high), turned)
                if best is None or stack.area * best.wide > best.area * stack.wide:
                    best = stack
        return best


def _spots(stacks: Sequence[_Stack]) -> list[Spot]:
    spots = []
    x = 0
    for stack in sorted(stacks, key=lambda one: (-one.high * one.count, one.piece)):
        spots += [Spot(stack.piece, x, n * stack.high, stack.turned) for n in range(stack.count)]
        x += stack.wide
    return spots
