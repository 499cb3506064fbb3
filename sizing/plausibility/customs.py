"""Remarks on an order as a whole, for the desk; nobody is asked for them.

How people round, kinds that are nearly met, what the same person said before.
"""

from __future__ import annotations

from fractions import Fraction
from typing import TYPE_CHECKING

from sizing.measures import Measure
from sizing.plausibility.findings import Finding, Severity
from sizing.plausibility.mistakes import LONG
from sizing.plausibility.ranges import relation
from sizing.standards import frame_kinds

if TYPE_CHECKING:
    from collections.abc import Callable, Iterator, Mapping

__all__ = ["CUSTOMS", "all_rounded", "differs_from_before", "near_known", "remarks"]

_FRAME = (Measure.SIDE_TO_SIDE, Measure.TOP_TO_BOTTOM, Measure.LUG_TO_LUG)
_ROUND = 5


def _apart(lengths: Mapping[Measure, Fraction]) -> Iterator[dict[Measure, Fraction]]:
    """How far the frame lies [mm] from each kind of which all three lengths are known."""
    for kind in frame_kinds():
        known = {measure: kind.value(measure) for measure in _FRAME}
        if None not in known.values():
            yield {m: lengths[m] - value for m, value in known.items() if value is not None}


def near_known(lengths: Mapping[Measure, Fraction]) -> Iterator[Finding]:
    """A frame that has two lengths [mm] of a known kind and the third of none.

    A kind is met within the limit of the relation. Reason: one wrong number in a known frame
    looks so. Source: `relation.near-known` in `data/ranges.toml`.
    """
    limit = relation("near-known")
    if not all(measure in lengths for measure in _FRAME):
        return
    nearest: tuple[Fraction, Measure, Fraction] | None = None
    for apart in _apart(lengths):
        off = [measure for measure in _FRAME if not limit.holds(abs(apart[measure]))]
        if not off:
            return
        (measure, *more) = off
        distance = abs(apart[measure])
        if not more and (nearest is None or distance < nearest[0]):
            nearest = distance, measure, lengths[measure] - apart[measure]
    if nearest is not None:
        _, measure, known = nearest
        around = limit.high or Fraction(0)
        expected = (known - around, known + around)
        seen = lengths[measure]
        yield Finding("near-known", Severity.NOTE, (measure,), seen, expected, limit.source)


def all_rounded(lengths: Mapping[Measure, Fraction]) -> Iterator[Finding]:
    """More long lengths [count] than chance gives end in 0 or 5, and none in anything else.

    Reason: who rounds to 5 mm is off by up to 2.5. Source: `relation.all-rounded`.
    """
    long = [measure for measure in LONG if measure in lengths]
    limit = relation("all-rounded")
    seen = Fraction(len(long))
    if all(lengths[measure] % _ROUND == 0 for measure in long) and not limit.holds(seen):
        expected = (limit.low, limit.high)
        yield Finding("all-rounded", Severity.NOTE, tuple(long), seen, expected, limit.source)


def differs_from_before(
    lengths: Mapping[Measure, Fraction], earlier: Mapping[Measure, Fraction]
) -> Iterator[Finding]:
    """A frame that is that of an `earlier` order of the same person but for one length [mm].

    Reason: the same frame has not changed. Source: `relation.differs-from-before`.
    """
    limit = relation("differs-from-before")
    both = [measure for measure in LONG if measure in lengths and measure in earlier]
    off = [m for m in both if not limit.holds(lengths[m] - earlier[m])]
    if len(off) == 1 and len(both) >= len(_FRAME):
        (measure,) = off
        low, high = limit.low or Fraction(0), limit.high or Fraction(0)
        expected = (earlier[measure] + low, earlier[measure] + high)
        seen = lengths[measure]
        yield Finding(
            "differs-from-before", Severity.NOTE, (measure,), seen, expected, limit.source
        )


CUSTOMS: tuple[Callable[[Mapping[Measure, Fraction]], Iterator[Finding]], ...] = (
    near_known,
    all_rounded,
)
"""The remarks that need this order alone."""


def remarks(lengths: Mapping[Measure, Fraction]) -> tuple[Finding, ...]:
    """What is worth a line at the desk about `lengths` [mm]. Source: `data/ranges.toml`."""
    return tuple(found for custom in CUSTOMS for found in custom(lengths))
