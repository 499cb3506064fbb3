"""What is usual and what is possible, a band for every measure (`data/ranges.toml`).

A value outside the soft band is doubted once; one outside the hard band cannot be built
or cannot be a frame. A bare number is read in a unit only where exactly one unit fits the
soft band.
"""

from __future__ import annotations

from dataclasses import dataclass
from fractions import Fraction
from functools import cache

from sizing.data import table
from sizing.errors import DataError
from sizing.measures import Measure

__all__ = ["Band", "Interval", "band", "relation"]

_FILE = "ranges.toml"


@dataclass(frozen=True, slots=True)
class Band:
    """The usual and the possible values of one measure [mm, or a count], bounds included."""

    soft_low: Fraction
    soft_high: Fraction
    hard_low: Fraction
    hard_high: Fraction
    source: str

    def usual(self, value: Fraction) -> bool:
        """Whether `value` [mm, or a count] lies in the soft band."""
        return self.soft_low <= value <= self.soft_high

    def possible(self, value: Fraction) -> bool:
        """Whether `value` [mm, or a count] lies in the hard band."""
        return self.hard_low <= value <= self.hard_high


@dataclass(frozen=True, slots=True)
class Interval:
    """What a relation between measures usually gives [mm]; None = no limit on that side."""

    low: Fraction | None
    high: Fraction | None
    source: str

    def holds(self, value: Fraction) -> bool:
        """Whether `value` [mm] lies in the interval, bounds included."""
        return (self.low is None or value >= self.low) and (self.high is None or value <= self.high)


@cache
def _bands() -> dict[Measure, Band]:
    rows = table(_FILE)["measure"]
    bands = {}
    for measure in Measure:
        if measure not in rows:
            raise DataError(_FILE, measure, "missing")
        row = rows[measure]
        soft_low, soft_high = (Fraction(bound) for bound in row["soft"])
        hard_low, hard_high = (Fraction(bound) for bound in row["hard"])
        if not hard_low <= soft_low <= soft_high <= hard_high:
            raise DataError(_FILE, measure, "soft-band-outside-hard-band")
        bands[measure] = Band(soft_low, soft_high, hard_low, hard_high, row["source"])
    return bands


@cache
def _relations() -> dict[str, Interval]:
    def bound(row: dict[str, object], key: str) -> Fraction | None:
        return Fraction(str(row[key])) if key in row else None

    return {
        code: Interval(bound(row, "low"), bound(row, "high"), row["source"])
        for code, row in table(_FILE)["relation"].items()
    }


def band(measure: Measure) -> Band:
    """The usual and the possible values of `measure` [mm, or a count].

    Source: `data/ranges.toml`, each band with its own.
    """
    return _bands()[measure]


def relation(code: str) -> Interval:
    """What the relation `code` usually gives [mm]; raises `KeyError` for a code not in the data.

    Source: `data/ranges.toml`, each relation with its own.
    """
    return _relations()[code]
