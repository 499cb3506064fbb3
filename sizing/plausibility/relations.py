"""Do the answers agree with each other? Bands on sums and differences of measures.

A relation speaks only where all its measures are given. The bands stand in
`data/ranges.toml`; no row of the frame data lies outside one, a test keeps it so.
"""

from __future__ import annotations

from dataclasses import dataclass
from fractions import Fraction
from typing import TYPE_CHECKING

from sizing.measures import FRAME_LENGTHS, HIVE_LENGTHS, Below, Measure
from sizing.plausibility.findings import Finding, Severity
from sizing.plausibility.ranges import band, relation

if TYPE_CHECKING:
    from collections.abc import Callable, Iterator

    from sizing.measures import Request

__all__ = ["doubts", "lengths_of"]


@dataclass(frozen=True, slots=True)
class _Relation:
    code: str
    measures: tuple[Measure, ...]
    value: Callable[..., Fraction]
    severity: Severity = Severity.CHECK


_RELATIONS: tuple[_Relation, ...] = (
    _Relation(
        "lug-sum",
        (Measure.LUG_TO_LUG, Measure.SIDE_TO_SIDE),
        lambda over_lugs, side: over_lugs - side,
    ),
    _Relation(
        "end-gap",
        (Measure.INSIDE_ALONG, Measure.SIDE_TO_SIDE),
        lambda inside, side: inside - side,
    ),
    _Relation(
        "lug-play",
        (Measure.LUG_ROOM, Measure.LUG_TO_LUG),
        lambda room, over_lugs: room - over_lugs,
    ),
    _Relation(
        "hang",
        (Measure.LEDGE_DOWN, Measure.TOP_TO_BOTTOM, Measure.LUG_THICKNESS),
        lambda down, height, lug: down - (height - lug),
    ),
    _Relation(
        "rise",
        (Measure.LEDGE_UP, Measure.LUG_THICKNESS),
        lambda up, lug: up - lug,
    ),
    _Relation(
        "ledges",
        (Measure.LUG_ROOM, Measure.INSIDE_ALONG),
        lambda room, inside: room - inside,
    ),
    _Relation(
        "stack",
        (Measure.LEDGE_DOWN, Measure.LEDGE_UP, Measure.TOP_TO_BOTTOM),
        lambda down, up, height: down + up - height,
    ),
    _Relation(
        "pitch",
        (Measure.INSIDE_ACROSS, Measure.FRAMES_HELD),
        lambda inside, held: inside / held,
    ),
    _Relation(
        "comb-in-wood",
        (Measure.COMB_THICKNESS, Measure.WIDEST_WOOD),
        lambda comb, wood: comb - wood,
        Severity.NOTE,
    ),
    _Relation(
        "lug-under-bar",
        (Measure.TOP_BAR_THICKNESS, Measure.LUG_THICKNESS),
        lambda bar, lug: bar - lug,
    ),
)


_DEEPER_OVER_A_FLOOR = frozenset({"hang", "stack"})


def doubts(request: Request) -> tuple[Finding, ...]:
    """What cannot well be true in `request`: single values first, then relations [mm].

    Source: the bands of `data/ranges.toml`; each finding names that of its band.
    """
    values = lengths_of(request)
    return (*_outside_bands(values), *_outside_relations(values, request.hive.below))


def lengths_of(request: Request) -> dict[Measure, Fraction]:
    """Every length [mm] and count of `request` that was given."""
    values: dict[Measure, Fraction] = {}
    for holder, measures in ((request.frame, FRAME_LENGTHS), (request.hive, HIVE_LENGTHS)):
        for measure in measures:
            length = getattr(holder, measure)
            if length is not None:
                values[measure] = length.value
    counts = {
        Measure.FRAMES_HELD: request.hive.frames_held,
        Measure.FRAMES_OUT: request.hive.frames_out,
        Measure.PIECES: request.pieces,
    }
    values |= {measure: Fraction(count) for measure, count in counts.items() if count is not None}
    return values


def _outside_bands(values: dict[Measure, Fraction]) -> Iterator[Finding]:
    for measure, value in values.items():
        usual = band(measure)
        if not usual.possible(value):
            expected = (usual.hard_low, usual.hard_high)
            yield Finding("not-possible", Severity.STOP, (measure,), value, expected, usual.source)
        elif not usual.usual(value):
            expected = (usual.soft_low, usual.soft_high)
            yield Finding("unusual", Severity.CHECK, (measure,), value, expected, usual.source)


def _outside_relations(values: dict[Measure, Fraction], below: Below | None) -> Iterator[Finding]:
    for rule in _RELATIONS:
        if not all(measure in values for measure in rule.measures):
            continue
        over_floor = rule.code in _DEEPER_OVER_A_FLOOR and below is Below.FLOOR
        usual = relation(f"{rule.code}-over-floor" if over_floor else rule.code)
        seen = rule.value(*(values[measure] for measure in rule.measures))
        if not usual.holds(seen):
            expected = (usual.low, usual.high)
            yield Finding(rule.code, rule.severity, rule.measures, seen, expected, usual.source)
