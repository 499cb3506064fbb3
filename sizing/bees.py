"""What the bees set: how wide the gaps between the wires may be, and who gets through them."""

from __future__ import annotations

from dataclasses import dataclass
from enum import StrEnum
from functools import cache
from math import erfc, exp, pi, sqrt
from typing import TYPE_CHECKING

from sizing.data import table
from sizing.measures import Purpose

if TYPE_CHECKING:
    from sizing.units import Mm
    from sizing.workshop import Figures

__all__ = [
    "Caste", "GapBand", "Level", "Risk", "Wired", "caste", "finds_a_way", "gap_band", "passes",
    "risks",
]  # fmt: skip

_FILE = "bees.toml"
_REACH = 6.0
_STEPS = 120


@dataclass(frozen=True, slots=True)
class GapBand:
    """The clear gap between two wires [mm]: `limit` must not be passed, `least` is aimed at."""

    least: Mm
    limit: Mm

    @property
    def middle(self) -> Mm:
        """Middle of the band [mm], the gap that is aimed at."""
        return (self.least + self.limit) / 2

    def holds(self, gap: Mm) -> bool:
        """Whether `gap` [mm] lies in the band, bounds included."""
        return self.least <= gap <= self.limit


def gap_band(purpose: Purpose, figures: Figures) -> GapBand:
    """The band of gaps [mm] that serves `purpose`: about 4.1 to 4.3, or 2.8 to 3.25.

    Source: the workshop figures `gap_least_…` and `gap_limit_…`.
    """
    if purpose is Purpose.ISOLATE:
        return GapBand(figures.gap_least_isolate, figures.gap_limit_isolate)
    return GapBand(figures.gap_least_introduce, figures.gap_limit_introduce)


class Level(StrEnum):
    """How much something is to be feared. Coarse on purpose: the model is no finer."""

    LOW = "low"
    WATCH = "watch"
    HIGH = "high"


@dataclass(frozen=True, slots=True)
class Caste:
    """The gap that a bee of this caste just gets through [mm]: its middle and its spread."""

    name: str
    middle: float
    spread: float


@dataclass(frozen=True, slots=True)
class Wired:
    """All gaps of a cage: as drawn [mm], spread of the made ones [mm], how many they are."""

    gap: float
    spread: float
    gaps: int


@dataclass(frozen=True, slots=True)
class Risk:
    """One thing that may go wrong at the wires, and how much it is to be feared."""

    name: str
    level: Level


@cache
def caste(name: str) -> Caste:
    """The caste `worker`, `queen`, `small-queen` or `drone`; raises `KeyError` for another.

    Passage in mm. Source: `data/bees.toml`, set by hand on published gaps.
    """
    row = table(_FILE)["caste"][name]
    return Caste(name, float(row["middle"]), float(row["spread"]))


def passes(bee: Caste, gap: float, spread: float = 0.0, extra: float = 0.0) -> float:
    """Probability [0 to 1] that a bee gets through one gap of `gap` ± `spread` [mm].

    `extra` [mm] is room for passing without a squeeze. Raises `ValueError` for a negative spread.
    Source: own model, difference of two normal lengths.
    """
    if spread < 0:
        raise ValueError(spread)
    return _below((gap - bee.middle - extra) / sqrt(bee.spread**2 + spread**2))


def finds_a_way(bee: Caste, wired: Wired) -> float:
    """Probability [0 to 1] that a bee gets through the widest of all gaps [mm].

    An upper estimate: she may never try that one. Raises `ValueError` unless there is a gap and
    the spread is not negative. Source: own model; the mean over the widest of all
    gaps of the probability that the bee passes it, by Simpson's rule.
    """
    if wired.gaps < 1:
        raise ValueError(wired.gaps)
    if wired.spread == 0:
        return passes(bee, wired.gap)
    if wired.spread < 0:
        raise ValueError(wired.spread)
    reach = _REACH * wired.spread
    width = 2 * reach / _STEPS
    total = 0.0
    for step in range(_STEPS + 1):
        widest = wired.gap - reach + step * width
        weight = 1 if step in (0, _STEPS) else 4 if step % 2 else 2
        total += weight * _density_of_widest(wired, widest) * passes(bee, widest)
    return total * width / 3


def _density_of_widest(wired: Wired, at: float) -> float:
    away = (at - wired.gap) / wired.spread
    one = exp(-away * away / 2) / (wired.spread * sqrt(2 * pi))
    return wired.gaps * one * _below(away) ** (wired.gaps - 1)


def _below(z: float) -> float:
    """The share of a standard normal that lies below z."""
    return erfc(-z / sqrt(2)) / 2


def _density(bee: Caste, at: float) -> float:
    away = (at - bee.middle) / bee.spread
    return exp(-away * away / 2) / (bee.spread * sqrt(2 * pi))


def risks(purpose: Purpose, wired: Wired) -> tuple[Risk, ...]:
    """What may go wrong at wires [mm] that serve `purpose`, each as low, watch or high.

    Source: `data/bees.toml`, bounds and castes.
    """
    return tuple(
        Risk(name, _level(_probability(row, wired), row))
        for name, row in table(_FILE)["risk"].items()
        if row["purpose"] == purpose
    )


def _probability(row: dict[str, object], wired: Wired) -> float:
    bee = caste(str(row["caste"]))
    if row.get("turned"):
        return 1 - passes(bee, wired.gap, wired.spread, float(str(row["extra"])))
    return finds_a_way(bee, wired)


def _level(probability: float, row: dict[str, object]) -> Level:
    if probability >= float(str(row["high"])):
        return Level.HIGH
    return Level.WATCH if probability >= float(str(row["watch"])) else Level.LOW
