"""What planning asks of the shell: a solver for linear programs, and whether to go on.

Neither is trusted: what a solver finds is counted anew in whole numbers, and a bound is worked
out exactly from its prices, so that a wrong price makes a weak bound and never a false one.
"""

from __future__ import annotations

from dataclasses import dataclass
from fractions import Fraction
from typing import Protocol, TypeAlias

__all__ = ["Counts", "Cover", "PatternProgram", "PatternSolver", "Relaxed", "Watch"]

Counts: TypeAlias = tuple[int, ...]
"""How often each piece is in a pattern, in the order in which the pieces were given."""


@dataclass(frozen=True, slots=True)
class Relaxed:
    """The least cover if patterns could be cut in part.

    `times` each pattern is cut; `prices`: what one more of each piece would cost.
    """

    times: tuple[float, ...]
    prices: tuple[float, ...]


@dataclass(frozen=True, slots=True)
class Cover:
    """How often each pattern is cut; `least`: the solver says that fewer do not do."""

    times: Counts
    least: bool


class PatternProgram(Protocol):
    """Covers one demand with the patterns added so far, as few of them as it can."""

    def add(self, pattern: Counts) -> None:
        """One more pattern to choose from."""

    def relaxed(self) -> Relaxed:
        """The least cover in parts of patterns; those added hold every piece."""

    def cover(self) -> Cover | None:
        """Whole numbers of patterns; None where none was found in time."""


class PatternSolver(Protocol):
    """Makes programs."""

    def program(self, demand: Counts) -> PatternProgram:
        """One for this demand, without any pattern yet."""


class Watch(Protocol):
    """Is told how far planning is, in bars or sheets, and says whether to go on."""

    def __call__(self, best: Fraction, bound: Fraction) -> bool:
        """`best` so far; no plan can need less than `bound`."""
