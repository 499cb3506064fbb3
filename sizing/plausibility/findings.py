"""A doubt with a code. Rules give findings, never exceptions; the words are made elsewhere."""

from __future__ import annotations

from dataclasses import dataclass
from enum import StrEnum
from fractions import Fraction

from sizing.measures import Measure
from sizing.plausibility.mistakes import Mistake

__all__ = ["Finding", "Severity", "Weight"]


class Severity(StrEnum):
    """What a finding asks for: a line for the desk, a question, or a halt."""

    NOTE = "note"
    CHECK = "check"
    STOP = "stop"


@dataclass(frozen=True, slots=True)
class Weight:
    """One story about the numbers and how much it weighs among all that are told of them.

    `measures` and `true`: the answers it doubts and what they would be without the mistake
    [mm]. `prior`: how likely it is before looking [probability]; `likelihood`: how much likelier
    the numbers are with it than if all is as it was said; `weight`: its share [probability].
    """

    mistake: Mistake
    measures: tuple[Measure, ...]
    true: tuple[Fraction, ...]
    prior: float
    likelihood: float
    weight: float


@dataclass(frozen=True, slots=True)
class Finding:
    """One doubt: `seen` [mm or count] lies outside `expected` (None = no limit on that side)."""

    code: str
    severity: Severity
    measures: tuple[Measure, ...]
    seen: Fraction
    expected: tuple[Fraction | None, Fraction | None]
    source: str
    weights: tuple[Weight, ...] = ()
    """For a suspicion: the stories that were weighed, the weightiest first."""
