"""Lengths out of bars, as few bars as can be: exact patterns, and a bound that says how few.

First the plain way: fill each bar with the longest pieces still wanted. If that takes more bars
than the lengths alone would need, a solver chooses among patterns: among all of them where they
are few, else among those that its prices ask for (P. C. Gilmore and R. E. Gomory, A Linear
Programming Approach to the Cutting-Stock Problem, Operations Research 9, 1961). Prices give the
bound (A. A. Farley, A Note on Bounding a Class of Linear Programming Problems, Operations
Research 38, 1990).
"""

from __future__ import annotations

from dataclasses import dataclass
from fractions import Fraction
from typing import TYPE_CHECKING

from sizing.errors import StockTooSmallError
from sizing.fabrication.nesting.patterns import best_pattern, greedy_pattern, maximal_patterns
from sizing.fabrication.nesting.whole import parts_in_a_mm

if TYPE_CHECKING:
    from collections.abc import Iterable, Mapping, Sequence

    from sizing.fabrication.nesting.ports import Counts, PatternProgram, PatternSolver, Watch
    from sizing.units import Mm

__all__ = ["Bar", "BarPlan", "BarRun", "most_pieces", "plan_bars"]

_FEW_PATTERNS = 2000
_ROUNDS = 1000
_STEPS = 100_000
_CLOSE = Fraction(1, 500)
_UNIT = 10**9
"""Worth of one whole bar when prices are made whole numbers."""


@dataclass(frozen=True, slots=True)
class Bar:
    """A bar as it is bought [mm], and what each cut loses [mm]."""

    length: Mm
    kerf: Mm


@dataclass(frozen=True, slots=True)
class BarRun:
    """`times` bars cut alike: (length [mm], count), longest first; `rest` [mm] of each is left."""

    pieces: tuple[tuple[Mm, int], ...]
    times: int
    rest: Mm


@dataclass(frozen=True, slots=True)
class BarPlan:
    """How bars are cut; `bound`: no plan does with fewer bars."""

    bar: Bar
    runs: tuple[BarRun, ...]
    bound: int

    @property
    def bars(self) -> int:
        """How many bars are taken."""
        return sum(run.times for run in self.runs)

    @property
    def use(self) -> Fraction:
        """Share of the bars that becomes pieces, 0 to 1."""
        used = sum(
            (run.times * length * count for run in self.runs for length, count in run.pieces),
            Fraction(0),
        )
        return used / (self.bars * self.bar.length) if self.runs else Fraction(1)


def most_pieces(length: Mm, bar: Bar) -> int:
    """How many pieces of `length` [mm] come out of one bar, a cut lost between two of them.

    0 where the piece is longer than the bar. Raises `ValueError` unless it is above 0.
    Source: n pieces need n x length + (n - 1) x kerf.
    """
    if length <= 0:
        raise ValueError(length)
    return int((bar.length + bar.kerf) // (length + bar.kerf))


def plan_bars(demand: Mapping[Mm, int], bar: Bar, solver: PatternSolver, watch: Watch) -> BarPlan:
    """A plan for `demand`, pieces by length [mm], with as few bars as were found.

    Raises `StockTooSmallError` for a piece longer than the bar, `ValueError` for a length that
    is not above 0. Source: above.
    """
    wanted = {length: count for length, count in demand.items() if count > 0}
    for length in wanted:
        if most_pieces(length, bar) < 1:
            raise StockTooSmallError((length,), (bar.length,))
    lengths = sorted(wanted, reverse=True)
    planner = _Planner(lengths, [wanted[length] for length in lengths], bar, solver, watch)
    cover, bound = planner.plan()
    runs = []
    for counts, times in cover:
        pieces = tuple((lengths[i], count) for i, count in enumerate(counts) if count)
        taken = sum((count * (length + bar.kerf) for length, count in pieces), Fraction(0))
        runs.append(BarRun(pieces, times, max(Fraction(0), bar.length - taken)))
    return BarPlan(bar, tuple(runs), bound)


Cut = list[tuple["Counts", int]]
"""Patterns and how often each is cut."""


class _Planner:
    """One demand on one kind of bar, in whole numbers."""

    def __init__(
        self,
        lengths: Sequence[Mm],
        demand: Sequence[int],
        bar: Bar,
        solver: PatternSolver,
        watch: Watch,
    ) -> None:
        parts = parts_in_a_mm((*lengths, bar.length, bar.kerf))
        self._sizes = [int((length + bar.kerf) * parts) for length in lengths]
        self._room = int((bar.length + bar.kerf) * parts)
        self._demand = tuple(demand)
        self._solver = solver
        self._watch = watch
        self._most = [
            min(count, self._room // size) for size, count in zip(self._sizes, demand, strict=True)
        ]
        self._best = self._greedy(self._demand)
        self._bound = self._by_length()

    def plan(self) -> tuple[Cut, int]:
        """The best cover found, and how many bars are needed at least."""
        if not self._done():
            program = self._solver.program(self._demand)
            every = maximal_patterns(self._sizes, self._most, self._room, _FEW_PATTERNS)
            patterns = every or self._first_patterns()
            for counts in patterns:
                program.add(counts)
            if every is None:
                patterns = self._asked_for(program, patterns)
            self._round(program, patterns)
            if self._choose(program, patterns) and every is not None:
                self._bound = _bars(self._best)
        return self._best, self._bound

    def _by_length(self) -> int:
        total = sum(size * count for size, count in zip(self._sizes, self._demand, strict=True))
        return -(-total // self._room)

    def _done(self) -> bool:
        return _bars(self._best) <= self._bound

    def _close(self) -> bool:
        """Whether so few bars more than the bound are taken that a search is not worth the wait."""
        return _bars(self._best) <= self._bound * (1 + _CLOSE)

    def _greedy(self, demand: Sequence[int]) -> Cut:
        left = list(demand)
        cover: Cut = []
        while any(left):
            counts = greedy_pattern(self._sizes, left, self._room)
            times = min(have // count for have, count in zip(left, counts, strict=True) if count)
            cover.append((counts, times))
            left = [have - times * count for have, count in zip(left, counts, strict=True)]
        return cover

    def _raise_bound(self, prices: Sequence[float]) -> tuple[Counts, bool]:
        """The pattern that these prices ask for, and whether it is worth more than a bar."""
        whole = [max(0, round(price * _UNIT)) for price in prices]
        priced = best_pattern(whole, self._sizes, self._most, self._room, _STEPS)
        if priced.at_most > 0:
            total = sum(price * count for price, count in zip(whole, self._demand, strict=True))
            self._bound = max(self._bound, -(-total // priced.at_most))
        return priced.counts, priced.value > _UNIT + _UNIT // 10**6

    def _first_patterns(self) -> tuple[Counts, ...]:
        """Those of the plain way, and one for each piece alone."""
        alone = (
            tuple(most if i == j else 0 for j in range(len(self._most)))
            for i, most in enumerate(self._most)
        )
        return tuple(dict.fromkeys((*(counts for counts, _ in self._best), *alone)))

    def _asked_for(
        self, program: PatternProgram, patterns: tuple[Counts, ...]
    ) -> tuple[Counts, ...]:
        """Patterns enough for the least cover in parts of bars, unless it took too long."""
        found = dict.fromkeys(patterns)
        for _ in range(_ROUNDS):
            relaxed = program.relaxed()
            counts, wanted = self._raise_bound(relaxed.prices)
            settled = sum(relaxed.times) <= self._bound
            if not wanted or settled or counts in found or self._done():
                break
            found[counts] = None
            program.add(counts)
            if not self._watch(Fraction(_bars(self._best)), Fraction(self._bound)):
                break
        return tuple(found)

    def _round(self, program: PatternProgram, patterns: Sequence[Counts]) -> None:
        """Cut the whole bars of the least cover in parts, and what is then left the plain way."""
        relaxed = program.relaxed()
        self._raise_bound(relaxed.prices)
        cover, left = self._trimmed(zip(patterns, map(int, relaxed.times), strict=True))
        self._take([*cover, *self._greedy(left)])

    def _choose(self, program: PatternProgram, patterns: Sequence[Counts]) -> bool:
        """Take the solver's cover if it is better; whether it says that none is better still."""
        found = None if self._close() else program.cover()
        if found is None:
            return False
        cover, left = self._trimmed(zip(patterns, found.times, strict=True))
        if any(left):
            return False
        self._take(cover)
        return found.least and _bars(cover) == _bars(self._best)

    def _take(self, cover: Cut) -> None:
        if _bars(cover) < _bars(self._best):
            self._best = cover

    def _trimmed(self, cover: Iterable[tuple[Counts, int]]) -> tuple[Cut, list[int]]:
        """The cover without what would be cut too often, and what it lacks."""
        left = list(self._demand)
        trimmed: Cut = []
        for counts, times in cover:
            for _ in range(times):
                taken = tuple(min(have, count) for have, count in zip(left, counts, strict=True))
                left = [have - count for have, count in zip(left, taken, strict=True)]
                if trimmed and trimmed[-1][0] == taken:
                    trimmed[-1] = (taken, trimmed[-1][1] + 1)
                elif any(taken):
                    trimmed.append((taken, 1))
        return trimmed, left


def _bars(cover: Cut) -> int:
    return sum(times for _, times in cover)
