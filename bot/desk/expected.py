"""What an answer is expected to be: what the nearest known frame has, else what is usual."""

from __future__ import annotations

from dataclasses import dataclass
from fractions import Fraction

from sizing.measures import Measure
from sizing.plausibility.ranges import band
from sizing.standards import FrameKind, frame_kind

__all__ = ["NEAR", "Expected", "expected", "known_frame"]

NEAR = 15
"""[mm] a frame farther than this from every known one is none of them."""


@dataclass(frozen=True, slots=True)
class Expected:
    """From where to where an answer is expected to lie [mm, or a count], and by what.

    `kind` is the known frame it is taken from, None where it is what is usual of all frames.
    """

    low: Fraction
    high: Fraction
    kind: str | None

    def apart(self, value: Fraction) -> Fraction:
        """How far `value` lies above (below: negative) what is expected [mm, or a count]."""
        if value > self.high:
            return value - self.high
        return min(value - self.low, Fraction(0))


def known_frame(name: str, distance: float) -> FrameKind | None:
    """The known frame of that name, where it is near enough to expect anything by."""
    return frame_kind(name) if distance <= NEAR else None


def expected(question: str, known: FrameKind | None) -> Expected | None:
    """What the answer to `question` is expected to be; None where it is no measure."""
    if question not in frozenset(Measure):
        return None
    figure = known.figures.get(question) if known is not None else None
    if known is not None and figure is not None:
        return Expected(figure.value, figure.value, known.name)
    usual = band(Measure(question))
    return Expected(usual.soft_low, usual.soft_high, None)
