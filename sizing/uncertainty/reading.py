"""How sure one measured length is: the tape, and what is new each time somebody reads it."""

from __future__ import annotations

from dataclasses import dataclass, replace
from functools import cache
from math import sqrt
from typing import TYPE_CHECKING

from sizing.measures import FRAME_LENGTHS, HIVE_LENGTHS, Measure, Tape
from sizing.uncertainty.tape import tape_limit

if TYPE_CHECKING:
    from fractions import Fraction

    from sizing.measures import Length, MeasuredWith, Request
    from sizing.units import Mm
    from sizing.workshop import Figures

__all__ = ["Reading", "reading", "readings"]


@dataclass(frozen=True, slots=True)
class Reading:
    """Standard uncertainty [mm] of the mean of `count` readings.

    `tape` is the part that stays however often one reads; `each` is new every time.
    """

    tape: float
    each: float
    count: int

    @property
    def uncertainty(self) -> float:
        """Standard uncertainty [mm] of the accepted reading."""
        return sqrt(self.tape**2 + self.each**2 / self.count)

    def once_more(self) -> Reading:
        """The same after one more reading that says the same."""
        return replace(self, count=self.count + 1)


def reading(length: Length, with_: MeasuredWith, figures: Figures) -> Reading:
    """How sure `length` [mm] is, measured as it says itself or else `with_` that.

    Tape class over √3 and landmark; for the step that was read over √12, or, where the
    person said how far it may be off, that over √3. Landmark and step shrink with the
    root of the number of readings, the tape's part does not.
    Source: JCGM 100 (GUM), 4.3.7 and F.2.2.1, 2008; tape: Directive 2014/32/EU.
    """
    return _reading(
        length.value,
        with_.tape,
        with_.step if length.step is None else length.step,
        length.plus_minus,
        len(length.readings),
        figures.landmark,
    )


@cache
def _tape_part(tape: Tape, limit_of: Mm) -> float:
    return float(tape_limit(tape, limit_of)) / sqrt(3)


def _reading(
    value: Mm, tape: Tape, step: Mm, plus_minus: Fraction | None, count: int, landmark: Mm
) -> Reading:
    seen = float(step) / sqrt(12) if plus_minus is None else float(plus_minus) / sqrt(3)
    return Reading(_tape_part(tape, value), sqrt(seen**2 + float(landmark) ** 2), count)


def readings(request: Request, figures: Figures) -> dict[Measure, Reading]:
    """How sure each length of `request` is [mm]. One of exactly 0 was told, not measured."""
    found = {}
    for holder, measures in ((request.frame, FRAME_LENGTHS), (request.hive, HIVE_LENGTHS)):
        for measure in measures:
            length = getattr(holder, measure)
            if length is not None and length.value:
                found[measure] = reading(length, request.measured_with, figures)
    return found
