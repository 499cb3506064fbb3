"""Patterns of one bar: which pieces together come out of it. Whole numbers throughout.

A cut loses the same everywhere and the last piece needs none after it. So n pieces come out of
a bar if, each made longer by one cut, they fit a bar made longer by one cut; `sizes` and `room`
here are such lengthened ones. `most` says how many of each piece are wanted at all.
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from collections.abc import Sequence

    from sizing.fabrication.nesting.ports import Counts

__all__ = ["Priced", "best_pattern", "greedy_pattern", "maximal_patterns"]


def greedy_pattern(sizes: Sequence[int], most: Sequence[int], room: int) -> Counts:
    """As many of the first piece as fit, then of the next, and so on.

    `sizes` and `room` in one unit of length, descending `sizes` make it first fit decreasing.
    """
    counts = []
    for size, wanted in zip(sizes, most, strict=True):
        count = min(wanted, room // size)
        room -= count * size
        counts.append(count)
    return tuple(counts)


def maximal_patterns(
    sizes: Sequence[int], most: Sequence[int], room: int, limit: int
) -> tuple[Counts, ...] | None:
    """Every pattern to which no piece can be added; None if there are more than `limit`.

    `sizes` and `room` in one unit of length. Source: plain enumeration; a test compares it with
    trying out all counts.
    """
    found: list[Counts] = []
    counts = [0] * len(sizes)

    def fill(i: int, rest: int) -> bool:
        if i == len(sizes):
            if all(
                size > rest or count == wanted
                for size, count, wanted in zip(sizes, counts, most, strict=True)
            ):
                found.append(tuple(counts))
            return len(found) <= limit
        for count in range(min(most[i], rest // sizes[i]), -1, -1):
            counts[i] = count
            if not fill(i + 1, rest - count * sizes[i]):
                return False
        counts[i] = 0
        return True

    return tuple(found) if fill(0, room) else None


@dataclass(frozen=True, slots=True)
class Priced:
    """The dearest pattern found; none is worth more than `at_most`."""

    counts: Counts
    value: int
    at_most: int


def best_pattern(
    prices: Sequence[int], sizes: Sequence[int], most: Sequence[int], room: int, steps: int
) -> Priced:
    """The pattern whose pieces are together worth most; `sizes` and `room` in one unit of length.

    Exact unless more than `steps` branches would have to be looked at; then `at_most` says how
    much better it could be. Source: branch and bound by price for length; a test compares it
    with trying out all patterns.
    """
    order = sorted(
        (i for i in range(len(sizes)) if prices[i] > 0 and most[i] > 0 and sizes[i] <= room),
        key=lambda i: (-prices[i] / sizes[i], i),
    )
    search = _Search(
        [prices[i] for i in order], [sizes[i] for i in order], [most[i] for i in order], steps
    )
    search.go(0, room, 0)
    counts = [0] * len(sizes)
    for i, count in zip(order, search.best_counts, strict=True):
        counts[i] = count
    at_most = search.best
    if search.steps < 0:
        at_most = max(at_most, *(room * prices[i] // sizes[i] for i in order))
    return Priced(tuple(counts), search.best, at_most)


class _Search:
    """Depth first through the patterns, dearest for its length first."""

    def __init__(self, prices: list[int], sizes: list[int], most: list[int], steps: int) -> None:
        self._prices, self._sizes, self._most = prices, sizes, most
        self._counts = [0] * len(sizes)
        self.steps = steps
        self.best = 0
        self.best_counts = list(self._counts)

    def go(self, first: int, room: int, value: int) -> None:
        for i in range(first, len(self._sizes)):
            price, size = self._prices[i], self._sizes[i]
            if value + room * price // size <= self.best:
                return
            for count in range(min(self._most[i], room // size), 0, -1):
                self.steps -= 1
                if self.steps < 0:
                    return
                self._counts[i] = count
                worth = value + count * price
                if worth > self.best:
                    self.best, self.best_counts = worth, list(self._counts)
                self.go(i + 1, room - count * size, worth)
                self._counts[i] = 0
