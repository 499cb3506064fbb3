"""A solver that knows nothing of the one that is used, and a watch without a clock."""

from __future__ import annotations

from fractions import Fraction

import numpy as np
import pytest
from scipy.optimize import Bounds, LinearConstraint, linprog, milp

from sizing.fabrication.nesting.ports import Counts, Cover, PatternProgram, PatternSolver, Relaxed


class ScipyProgram:
    """Covers through scipy, anew each time."""

    def __init__(self, demand: Counts) -> None:
        self._demand = np.array(demand, dtype=float)
        self._patterns: list[Counts] = []

    def add(self, pattern: Counts) -> None:
        """One more pattern."""
        self._patterns.append(pattern)

    def relaxed(self) -> Relaxed:
        """The least cover in parts."""
        counts = np.array(self._patterns, dtype=float).T
        found = linprog(np.ones(counts.shape[1]), A_ub=-counts, b_ub=-self._demand)
        return Relaxed(tuple(found.x), tuple(-found.ineqlin.marginals))

    def cover(self) -> Cover | None:
        """The least cover."""
        counts = np.array(self._patterns, dtype=float).T
        columns = counts.shape[1]
        found = milp(
            np.ones(columns),
            constraints=LinearConstraint(counts, lb=self._demand),
            integrality=np.ones(columns),
            bounds=Bounds(0),
        )
        return Cover(tuple(int(x + 0.5) for x in found.x), least=True)


class ScipySolver:
    """Makes them."""

    def program(self, demand: Counts) -> PatternProgram:
        """One for this demand."""
        return ScipyProgram(demand)


class Patience:
    """Goes on for ever, or for some questions; keeps what it was told."""

    def __init__(self, questions: int | None = None) -> None:
        self._questions = questions
        self.told: list[tuple[Fraction, Fraction]] = []

    def __call__(self, best: Fraction, bound: Fraction) -> bool:
        """Whether to go on."""
        self.told.append((best, bound))
        return self._questions is None or len(self.told) < self._questions


@pytest.fixture(scope="session")
def solver() -> PatternSolver:
    """Another solver than the one that is used."""
    return ScipySolver()


@pytest.fixture
def patience() -> Patience:
    """A watch that goes on for ever."""
    return Patience()


@pytest.fixture
def hurry() -> Patience:
    """A watch that stops when it is first asked."""
    return Patience(1)
