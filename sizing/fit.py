"""Every fit is a chain of lengths: signed terms whose sum is the gap.

Once sized, the cage is a set of numbers on a drawing (`CUT` terms). What is true of the
frame and of the hive are terms of their own, so that a later look at how sure each of
them is finds the chain as it stands.
"""

from __future__ import annotations

from dataclasses import dataclass, replace
from enum import StrEnum
from fractions import Fraction
from typing import TYPE_CHECKING

from sizing.accepted import space_above, space_below
from sizing.measures import Ears, Floor, GapName, LidKind, Measure

if TYPE_CHECKING:
    from collections.abc import Callable

    from sizing.accepted import Accepted
    from sizing.units import Mm
    from sizing.workshop import Figures

__all__ = [
    "Cage",
    "Case",
    "Gap",
    "GapVerdict",
    "Role",
    "Term",
    "gap_below",
    "gap_of",
    "gaps_of",
    "judged",
]

ONE = Fraction(1)
HALF = Fraction(1, 2)


class Role(StrEnum):
    """Whose length a term is."""

    CUT = "cut"
    """A number on the drawing of the cage."""
    FRAME = "frame"
    """The true length of the frame that will hang in the cage."""
    HIVE = "hive"
    """The true length of the hive the cage will hang in."""


class GapVerdict(StrEnum):
    """How a gap stands to its must and its aim."""

    OK = "ok"
    TIGHT = "tight"
    """Inside its must, outside its aim."""
    FAILS = "fails"
    """Outside its must: something touches, jams, falls or leaks."""
    OPEN = "open"
    """A length is missing."""


@dataclass(frozen=True, slots=True)
class Term:
    """One length of a chain [mm], times `factor`; None = not known, `missing` says why."""

    name: str
    role: Role
    value: Mm | None
    factor: Fraction = ONE
    missing: tuple[str, ...] = ()


@dataclass(frozen=True, slots=True)
class Gap:
    """One gap [mm] with its chain, its must, its aim and its verdict.

    `beyond`: lying exactly on the must is outside it. `low`, `high` (95 % interval) and
    `probability` are None until they are worked out. `missing` names the measures without
    which the gap is open. `unlimited`: nothing hard stands there at all.
    """

    gap: GapName
    terms: tuple[Term, ...]
    nominal: Mm | None
    must: tuple[Mm | None, Mm | None]
    aim: tuple[Mm | None, Mm | None]
    beyond: bool
    verdict: GapVerdict
    missing: tuple[str, ...] = ()
    unlimited: bool = False
    low: Mm | None = None
    high: Mm | None = None
    probability: float | None = None


@dataclass(frozen=True, slots=True)
class Cage:
    """The numbers on the drawing [mm]; None where a length for it is missing.

    `frames_out` is a count. `ear_width` is each tab's, across, of ears beside the lugs.
    """

    length_outside: Mm
    length_inside: Mm
    height_overall: Mm
    drop_below_ledge: Mm | None
    depth_inside: Mm | None
    depth_outside: Mm | None
    ears: Ears
    ear_span: Mm
    lift: Mm
    floor: Floor
    floor_thickness: Mm
    gap_under: Mm
    lid_clear: Mm
    guide_each: Mm | None
    frames_out: int
    ear_width: Mm | None = None


def _outside(value: Mm, bounds: tuple[Mm | None, Mm | None], beyond: bool) -> bool:
    low, high = bounds
    if low is not None and (value < low or (beyond and value == low)):
        return True
    return high is not None and (value > high or (beyond and value == high))


def _verdict(gap: Gap) -> GapVerdict:
    if gap.unlimited:
        return GapVerdict.OK
    if gap.nominal is None:
        return GapVerdict.OPEN
    if _outside(gap.nominal, gap.must, gap.beyond):
        return GapVerdict.FAILS
    if gap.missing:
        return GapVerdict.OPEN
    if _outside(gap.nominal, gap.aim, beyond=False):
        return GapVerdict.TIGHT
    return GapVerdict.OK


def judged(gap: Gap) -> Gap:
    """`gap` with the verdict that its nominal, must, aim and missing measures [mm] give."""
    return replace(gap, verdict=_verdict(gap))


@dataclass(frozen=True, slots=True)
class Case:
    """One cage in one hive body, closed by one lid: what the chains are built from."""

    lengths: Accepted
    cage: Cage
    lid: LidKind
    gap_limit: Mm
    figures: Figures

    def frame(self, measure: Measure, factor: Fraction = ONE) -> Term:
        """A true length of the frame [mm]."""
        return self._measured(measure, Role.FRAME, factor)

    def hive(self, measure: Measure, factor: Fraction = ONE) -> Term:
        """A true length of the hive [mm]."""
        return self._measured(measure, Role.HIVE, factor)

    def reading(self, measure: Measure, factor: Fraction = ONE) -> Term:
        """An accepted reading [mm] to which the cage is cut."""
        return self._measured(measure, Role.CUT, factor)

    def cut(self, name: str, factor: Fraction = ONE, of: tuple[Measure, ...] = ()) -> Term:
        """A number of the cage [mm]; it is not known unless the measures `of` are."""
        value = getattr(self.cage, name)
        return Term(name, Role.CUT, value, factor, self.lengths.lacking(*of))

    def figure(self, name: str, factor: Fraction = ONE) -> Term:
        """A workshop figure [mm] to which the cage is cut."""
        return Term(name, Role.CUT, getattr(self.figures, name), factor)

    def _measured(self, measure: Measure, role: Role, factor: Fraction) -> Term:
        value = getattr(self.lengths, measure)
        return Term(measure.value, role, value, factor, self.lengths.lacking(measure))


def _frame_end(case: Case) -> tuple[Term, ...]:
    return (case.cut("length_inside", HALF), case.frame(Measure.SIDE_TO_SIDE, -HALF))


def _frame_bottom(case: Case) -> tuple[Term, ...]:
    return (
        case.cut("gap_under"),
        case.reading(Measure.TOP_TO_BOTTOM),
        case.reading(Measure.LUG_THICKNESS, -ONE),
        case.frame(Measure.TOP_TO_BOTTOM, -ONE),
        case.frame(Measure.LUG_THICKNESS),
    )


def _comb_face(case: Case) -> tuple[Term, ...]:
    depth_from = (Measure.WIDEST_WOOD, Measure.COMB_THICKNESS)
    return (
        case.cut("depth_inside", HALF, depth_from),
        case.frame(Measure.COMB_THICKNESS, -HALF),
    )


def _hive_end(case: Case) -> tuple[Term, ...]:
    return (case.hive(Measure.INSIDE_ALONG, HALF), case.cut("length_outside", -HALF))


def _ear_play(case: Case) -> tuple[Term, ...]:
    return (case.hive(Measure.LUG_ROOM), case.cut("ear_span", -ONE))


def _on_the_ledge(case: Case, span: Term) -> tuple[Term, ...]:
    return (span, case.hive(Measure.INSIDE_ALONG, -HALF), case.hive(Measure.LUG_ROOM, -HALF))


def _ear_bearing(case: Case) -> tuple[Term, ...]:
    return _on_the_ledge(case, case.cut("ear_span"))


def _lug_bearing(case: Case) -> tuple[Term, ...]:
    if case.cage.ears is Ears.BESIDE_LUG:
        return _on_the_ledge(case, case.frame(Measure.LUG_TO_LUG))
    # (L - S) / 2 of lug, less the whole play of the frame in the cage, length_inside - S
    return (
        case.frame(Measure.LUG_TO_LUG, HALF),
        case.frame(Measure.SIDE_TO_SIDE, HALF),
        case.cut("length_inside", -ONE),
    )


def _lid_room(case: Case) -> tuple[Term, ...]:
    if case.lid is LidKind.CLOSED_BETWEEN_WALLS:
        return (case.hive(Measure.INSIDE_ALONG), case.cut("length_outside", -ONE))
    return (
        case.hive(Measure.LUG_ROOM),
        case.reading(Measure.LUG_TO_LUG, -ONE),
        case.figure("lid_over_tips", -ONE),
        case.figure("lid_sheet", Fraction(-2)),
    )


def _lug_in_lid(case: Case) -> tuple[Term, ...]:
    return (
        case.reading(Measure.LUG_TO_LUG),
        case.figure("lid_over_tips"),
        case.frame(Measure.LUG_TO_LUG, -ONE),
    )


def _below(case: Case) -> tuple[Term, ...]:
    under = space_below(case.lengths)
    return (
        case.hive(Measure.LEDGE_DOWN),
        case.cut("drop_below_ledge", -ONE, (Measure.LUG_THICKNESS,)),
        Term(under.name, Role.HIVE, under.value, missing=under.missing),
    )


def _head_room(case: Case) -> tuple[Term, ...]:
    terms = (
        case.hive(Measure.LEDGE_UP),
        case.reading(Measure.LUG_THICKNESS, -ONE),
        case.cut("lift", -ONE),
        case.cut("lid_clear", -ONE),
        case.figure("lid_sheet", -ONE),
    )
    if case.lid is not LidKind.CLOSED_BETWEEN_WALLS:
        return terms
    above = space_above(case.lengths)
    return (*terms, Term(above.name, Role.HIVE, above.value, missing=above.missing))


_CHAINS: dict[GapName, Callable[[Case], tuple[Term, ...]]] = {
    GapName.FRAME_END: _frame_end,
    GapName.FRAME_BOTTOM: _frame_bottom,
    GapName.COMB_FACE: _comb_face,
    GapName.HIVE_END: _hive_end,
    GapName.EAR_PLAY: _ear_play,
    GapName.EAR_BEARING: _ear_bearing,
    GapName.LUG_BEARING: _lug_bearing,
    GapName.LID_END: _ear_play,
    GapName.LID_ROOM: _lid_room,
    GapName.LUG_IN_LID: _lug_in_lid,
    GapName.BELOW: _below,
    GapName.HEAD_ROOM: _head_room,
}

_OF_LID: dict[GapName, frozenset[LidKind]] = {
    GapName.LID_END: frozenset({LidKind.END_OPEN}),
    GapName.LID_ROOM: frozenset({LidKind.CLOSED, LidKind.CLOSED_BETWEEN_WALLS}),
    GapName.LUG_IN_LID: frozenset({LidKind.CLOSED}),
}


def applies(name: GapName, lid: LidKind) -> bool:
    """Whether the gap `name` is one of a cage with this lid."""
    return name not in _OF_LID or lid in _OF_LID[name]


def _missing(terms: tuple[Term, ...]) -> tuple[str, ...]:
    return tuple(dict.fromkeys(name for term in terms for name in term.missing))


def _sum(terms: tuple[Term, ...]) -> Mm | None:
    total = Fraction(0)
    for term in terms:
        if term.value is None:
            return None
        total += term.factor * term.value
    return total


def _gap(name: GapName, terms: tuple[Term, ...], aim_low: Mm | None, case: Case) -> Gap:
    rule = case.figures.gaps[name]
    gap = Gap(
        gap=name,
        terms=terms,
        nominal=_sum(terms),
        must=(rule.must_low, case.gap_limit if name is GapName.LID_END else None),
        aim=(aim_low, rule.aim_high),
        beyond=rule.beyond,
        verdict=GapVerdict.OPEN,
        missing=_missing(terms),
    )
    return judged(gap)


def gap_below(case: Case) -> Gap:
    """`below` [mm]: lowest point of the cage to the first hard thing under it.

    Its aim grows with the depth of the hive body, whose wood moves; where the depth is not
    wholly known the gap stays open.
    Source: the rule of the workshop in `data/workshop.toml`.
    """
    rule = case.figures.gaps[GapName.BELOW]
    aim = rule.aim_low
    depth = [case.lengths.ledge_down or 0, case.lengths.ledge_up or 0]
    if aim is not None and rule.aim_share_of_depth is not None:
        aim = max(aim, rule.aim_share_of_depth * sum(depth))
    gap = _gap(GapName.BELOW, _below(case), aim, case)
    missing = dict.fromkeys((*gap.missing, *case.lengths.lacking(Measure.LEDGE_UP)))
    return judged(replace(gap, missing=tuple(missing)))


def gap_of(name: GapName, case: Case) -> Gap:
    """The gap `name` [mm] of `case` with its chain and verdict; not `across` (see `sizing.room`).

    Source: musts and aims stand in `data/workshop.toml`.
    """
    if name is GapName.BELOW:
        return gap_below(case)
    gap = _gap(name, _CHAINS[name](case), case.figures.gaps[name].aim_low, case)
    walls = case.lid is LidKind.CLOSED_BETWEEN_WALLS
    if name is GapName.HEAD_ROOM and walls and space_above(case.lengths).unlimited:
        return judged(replace(gap, nominal=None, missing=(), unlimited=True))
    return gap


def gaps_of(case: Case) -> tuple[Gap, ...]:
    """Every gap [mm] of `case` that applies to its lid, in shown order, without `across`."""
    names = (name for name in _CHAINS if applies(name, case.lid))
    return tuple(gap_of(name, case) for name in names)
