"""The solver that planning asks, HiGHS, and a watch with a clock on it."""

from __future__ import annotations

from collections.abc import Callable
from fractions import Fraction
from time import monotonic

import highspy
import numpy as np

from sizing.fabrication.nesting.ports import Counts, Cover, Relaxed

__all__ = ["Deadline", "HighsSolver"]

Tell = Callable[[Fraction, Fraction], None]
_HALF = 0.5
_LONGEST = 5.0


class Deadline:
    """Says to go on until `seconds` are over; passes on how far planning is.

    What is planned depends on the clock only where the time runs out.
    """

    def __init__(self, seconds: float, tell: Tell | None = None) -> None:
        self._end = monotonic() + seconds
        self._tell = tell

    def __call__(self, best: Fraction, bound: Fraction) -> bool:
        """Whether there is time left."""
        if self._tell is not None:
            self._tell(best, bound)
        return self.left() > 0

    def left(self) -> float:
        """Seconds left, at least 0."""
        return max(0.0, self._end - monotonic())


class HighsSolver:
    """Fulfils `sizing.fabrication.nesting.ports.PatternSolver`; one thread, no chance."""

    def __init__(self, deadline: Deadline) -> None:
        self._deadline = deadline

    def program(self, demand: Counts) -> _Program:
        """One for this demand, without any pattern yet."""
        return _Program(demand, self._deadline)


class _Quiet(highspy.Highs):
    """Is told to be silent before it greets on standard output."""

    def enableCallbacks(self) -> None:  # noqa: N802, the library's name
        self.setOptionValue("output_flag", False)
        super().enableCallbacks()  # type: ignore[no-untyped-call]


class _Program:
    """Keeps the model between two questions, so that each begins where the last one ended."""

    def __init__(self, demand: Counts, deadline: Deadline) -> None:
        self._deadline = deadline
        self._count = 0
        self._model = _Quiet()  # type: ignore[no-untyped-call]
        for option, value in (("threads", 1), ("random_seed", 0)):
            self._model.setOptionValue(option, value)
        for count in demand:
            self._model.addRow(count, highspy.kHighsInf, 0, [], [])

    def add(self, pattern: Counts) -> None:
        """One more pattern to choose from, each costing one bar."""
        rows = [i for i, count in enumerate(pattern) if count]
        counts = [float(pattern[i]) for i in rows]
        self._model.addCol(1.0, 0.0, highspy.kHighsInf, len(rows), rows, counts)
        self._count += 1

    def relaxed(self) -> Relaxed:
        """The least cover in parts of patterns."""
        self._model.run()
        found = self._model.getSolution()
        return Relaxed(tuple(found.col_value), tuple(found.row_dual))

    def cover(self) -> Cover | None:
        """The least whole cover found until the deadline, or in a few seconds."""
        columns = np.arange(self._count, dtype=np.int32)
        whole = np.full(self._count, highspy.HighsVarType.kInteger)
        self._model.changeColsIntegrality(self._count, columns, whole)
        seconds = min(_LONGEST, self._deadline.left())
        self._model.setOptionValue("time_limit", self._model.getRunTime() + seconds)
        self._model.setOptionValue("mip_abs_gap", 1 - 1e-6)  # whole patterns: closer is equal
        self._model.run()
        if self._model.getInfo().primal_solution_status != highspy.kSolutionStatusFeasible:
            return None
        times = tuple(int(value + _HALF) for value in self._model.getSolution().col_value)
        return Cover(times, self._model.getModelStatus() == highspy.HighsModelStatus.kOptimal)
