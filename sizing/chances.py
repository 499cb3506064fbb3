"""How sure the fit is: the chains of `sizing.fit` with the uncertainty of every length in them.

Once sized, the cage is a set of numbers on a drawing. What stays uncertain is the true frame
against the cage, the true hive against the cage, and the making. Chains are linear, so each
gap is a sum of independent errors, and two gaps are correlated through the errors they share.
"""

from __future__ import annotations

from dataclasses import dataclass, replace
from fractions import Fraction
from math import inf, prod
from typing import TYPE_CHECKING

from sizing.fit import GapVerdict, Role
from sizing.measures import Ears, GapName, LidKind, Measure
from sizing.probability import Row, chance, chance_of_group, deviation, groups, scaled
from sizing.uncertainty.making import cut
from sizing.uncertainty.spread import spread
from sizing.uncertainty.wood import ACROSS_BODY, ACROSS_FRAME, movement

if TYPE_CHECKING:
    from collections.abc import Iterator, Mapping

    from sizing.accepted import Accepted
    from sizing.fit import Case, Gap, Term
    from sizing.uncertainty.reading import Reading
    from sizing.units import Mm

__all__ = ["Chances", "Piece", "chances", "errors", "piece", "second_readings"]

_NINETY_FIVE = 1.959964
_ROUND = 1000

_SAME_BOX = {
    Measure.BELOW_SPACE: (
        (Measure.LEDGE_UP, Role.HIVE, 1.0),
        (Measure.LUG_THICKNESS, Role.FRAME, -1.0),
    ),
    Measure.ABOVE_SPACE: (
        (Measure.LEDGE_DOWN, Role.HIVE, 1.0),
        (Measure.TOP_TO_BOTTOM, Role.FRAME, -1.0),
        (Measure.LUG_THICKNESS, Role.FRAME, 1.0),
    ),
}
"""What a space is made of where a box of the same kind was assumed: its rise, its hang."""


@dataclass(frozen=True, slots=True)
class Piece:
    """The one cut length in a chain: its name, how often it counts, its nominal size [mm]."""

    name: str
    factor: float
    size: Mm
    grade: str


@dataclass(frozen=True, slots=True)
class Chances:
    """The gaps with their intervals and probabilities, and what they come to together.

    `probability`: that all musts hold [1]; None where a gap that is needed is open.
    `weakest`: the gap whose must is the least sure.
    """

    gaps: tuple[Gap, ...]
    probability: float | None
    weakest: GapName | None
    rows: tuple[Row, ...]
    readings: Mapping[Measure, Reading]


def piece(name: GapName, case: Case) -> Piece | None:
    """The cut length [mm] in the chain of the gap `name`; None where there is none.

    Chains share a piece by its name: it is off by the same in all of them. Along the cage,
    inside and outside are one cut; inside height and drop are one; ears and end-open lid
    share their length.
    """
    found = _PIECES.get(name)
    if name is GapName.LID_ROOM and case.lid is LidKind.CLOSED:
        found = ("lid", -1.0)
    elif name is GapName.LUG_BEARING and case.cage.ears is Ears.BESIDE_LUG:
        found = None
    size = None if found is None else _size(found[0], case)
    if found is None or size is None:
        return None
    figures = case.figures
    grade = figures.cutting_ears if found[0] == "ears" else figures.cutting
    return Piece(*found, size, grade)


_PIECES: dict[GapName, tuple[str, float]] = {
    GapName.FRAME_END: ("length", 0.5),
    GapName.FRAME_BOTTOM: ("drop", 1.0),
    GapName.COMB_FACE: ("depth", 0.5),
    GapName.HIVE_END: ("length", -0.5),
    GapName.EAR_PLAY: ("ears", -1.0),
    GapName.EAR_BEARING: ("ears", 1.0),
    GapName.LUG_BEARING: ("length", -1.0),
    GapName.LID_END: ("ears", -1.0),
    GapName.LID_ROOM: ("length", -1.0),
    GapName.LUG_IN_LID: ("lid", 1.0),
    GapName.BELOW: ("drop", -1.0),
    GapName.HEAD_ROOM: ("top", -1.0),
}


def _size(name: str, case: Case) -> Mm | None:
    cage, lengths, figures = case.cage, case.lengths, case.figures
    if name == "length":
        return cage.length_outside
    if name == "ears":
        return cage.ear_span
    if name == "drop":
        return cage.drop_below_ledge
    if name == "depth":
        return cage.depth_inside
    if name == "lid":
        return lengths.lug_to_lug + figures.lid_over_tips + 2 * figures.lid_sheet
    if lengths.lug_thickness is None:
        return None
    return lengths.lug_thickness + cage.lift + cage.lid_clear + figures.lid_sheet


def errors(gap: Gap, case: Case, readings: Mapping[Measure, Reading]) -> dict[str, float]:
    """The independent errors in the chain of `gap`, by name, each with its share [mm].

    Readings, frame-to-frame and box-to-box spread, wood, and the making of the piece.
    Source: the rooms of `sizing.uncertainty`.
    """
    found: dict[str, float] = {}
    for measure, role, factor, other in _true_lengths(gap.terms, case.lengths):
        value = getattr(case.lengths, measure)
        shares = {f"read {measure}": readings[measure].uncertainty} if measure in readings else {}
        shares[f"spread {measure}{other}"] = spread(measure, case.figures)
        if measure in (ACROSS_BODY if role is Role.HIVE else ACROSS_FRAME):
            shares[f"wood {role}"] = movement(value, case.figures)
        for name, share in shares.items():
            found[name] = found.get(name, 0.0) + factor * share
    cut_piece = piece(gap.gap, case)
    if cut_piece is not None:
        share = cut(cut_piece.grade, cut_piece.size)
        found[f"cut {cut_piece.name}"] = cut_piece.factor * share
    return {name: share for name, share in found.items() if share}


def _true_lengths(
    terms: tuple[Term, ...], lengths: Accepted
) -> Iterator[tuple[Measure, Role, float, str]]:
    """The true lengths in a chain: measure, whose, factor, and a mark for those of other boxes.

    A space of exactly nothing was told, not measured: it adds no doubt.
    """
    for term in terms:
        if term.role is Role.CUT:
            continue
        measure, factor = Measure(term.name), float(term.factor)
        if getattr(lengths, measure) is None:
            for part, role, sign in _SAME_BOX[measure]:
                yield part, role, factor * sign, f" of the box of {measure}"
        elif term.value:
            yield measure, term.role, factor, ""


def chances(gaps: tuple[Gap, ...], case: Case, readings: Mapping[Measure, Reading]) -> Chances:
    """`gaps` of `case` with 95 % intervals [mm] and probabilities [1], and their joint.

    Gaps without a must (`across`) are in no probability; an open one has none and leaves the
    joint open.
    """
    shown, rows, least = [], [], inf
    weakest: GapName | None = None
    known = True
    for gap in gaps:
        if gap.gap is GapName.ACROSS or gap.unlimited:
            shown.append(gap)
        elif gap.verdict is GapVerdict.OPEN or gap.nominal is None:
            known = False
            shown.append(gap)
        else:
            row = _row(gap, errors(gap, case, readings))
            alone = chance(row)
            if alone < least:
                least, weakest = alone, gap.gap
            rows.append(row)
            shown.append(_with_chance(gap, row, alone))
    return Chances(
        gaps=tuple(shown),
        probability=prod(map(chance_of_group, groups(rows))) if known else None,
        weakest=weakest if known else None,
        rows=tuple(rows),
        readings=readings,
    )


def _row(gap: Gap, shares: dict[str, float]) -> Row:
    low, high = gap.must
    return Row(
        float(gap.nominal or 0),
        shares,
        -inf if low is None else float(low),
        inf if high is None else float(high),
    )


def _with_chance(gap: Gap, row: Row, alone: float) -> Gap:
    reach = _NINETY_FIVE * deviation(row.errors)
    return replace(
        gap,
        low=Fraction(round((row.mean - reach) * _ROUND), _ROUND),
        high=Fraction(round((row.mean + reach) * _ROUND), _ROUND),
        probability=alone,
    )


def second_readings(found: Chances) -> dict[Measure, float]:
    """The joint [1] after one more reading of each measure that says the same, best first.

    Only measures that stand in a chain; empty where the joint is open.
    """
    if found.probability is None:
        return {}
    parts = [(group, chance_of_group(group)) for group in groups(found.rows)]
    after = {}
    for measure, reading in found.readings.items():
        name = f"read {measure}"
        ratio = reading.once_more().uncertainty / reading.uncertainty
        touched = False
        joint = 1.0
        for group, before in parts:
            if any(name in row.errors for row in group):
                touched = True
                joint *= _once_more(group, name, ratio)
            else:
                joint *= before
        if touched:
            after[measure] = joint
    return dict(sorted(after.items(), key=lambda entry: -entry[1]))


def _once_more(group: tuple[Row, ...], name: str, ratio: float) -> float:
    return prod(map(chance_of_group, groups([scaled(row, name, ratio) for row in group])))
