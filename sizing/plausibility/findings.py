"""A doubt with a code. Rules give findings, never exceptions; the words are made elsewhere."""

from __future__ import annotations

from dataclasses import dataclass
from enum import StrEnum
from fractions import Fraction

from sizing.measures import Measure

__all__ = ["Finding", "Severity"]


class Severity(StrEnum):
    """What a finding asks for: a line for the desk, a question, or a halt."""

    NOTE = "note"
    CHECK = "check"
    STOP = "stop"


@dataclass(frozen=True, slots=True)
class Finding:
    """One doubt: `seen` [mm or count] lies outside `expected` (None = no limit on that side)."""

    code: str
    severity: Severity
    measures: tuple[Measure, ...]
    seen: Fraction
    expected: tuple[Fraction | None, Fraction | None]
    source: str
