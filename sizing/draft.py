"""One cage worked out once: sizes, lid, every gap, and what they come to.

`sizing.alternatives` draws up further drafts to see what would work instead; the result
people get is put together in `sizing.cage`.
"""

from __future__ import annotations

from dataclasses import dataclass, replace
from enum import StrEnum
from fractions import Fraction
from typing import TYPE_CHECKING

from sizing.accepted import ASKED, accept, space_above, space_below
from sizing.bees import gap_band
from sizing.chances import chances
from sizing.fit import Cage, Case, GapVerdict, gap_below, gaps_of
from sizing.lids import hanging, lid_of
from sizing.measures import Ears, Floor, GapName, LidKind, Measure
from sizing.room import across
from sizing.uncertainty.reading import readings

if TYPE_CHECKING:
    from collections.abc import Iterator

    from sizing.accepted import Accepted, Assumed
    from sizing.bees import GapBand
    from sizing.chances import Chances
    from sizing.fit import Gap
    from sizing.lids import Hanging, Lid
    from sizing.measures import Request
    from sizing.room import Across
    from sizing.units import Mm
    from sizing.workshop import Figures

__all__ = ["NO_CHANGE", "Changes", "Draft", "Verdict", "draft"]


class Verdict(StrEnum):
    """What becomes of the order of one cage."""

    MAKE = "make"
    ASK = "ask"
    """A length that is needed is missing, or it is not sure enough that all musts hold."""
    CANNOT = "cannot"
    """A must fails in the cage that the rules give."""


@dataclass(frozen=True, slots=True)
class Changes:
    """What a draft does otherwise than the rules [mm]; None = as the rules say."""

    allowance_along: Mm | None = None
    ear_span: Mm | None = None
    flat_floor_gap: Mm | None = None
    """A flat floor, whatever the aim of `below`, with this gap under the frame."""


NO_CHANGE = Changes()


@dataclass(frozen=True, slots=True)
class Draft:
    """One cage worked out; lengths in mm. `open` names what is missing and was not assumed.

    `case` is what its chains are built from, `gaps` and `chances` say how sure they are.
    """

    lengths: Accepted
    band: GapBand
    hanging: Hanging
    case: Case
    lid: Lid
    chances: Chances
    across: Across
    open: tuple[str, ...]
    needed: tuple[str, ...]
    assumed: tuple[Assumed, ...]
    verdict: Verdict

    @property
    def cage(self) -> Cage:
        """The numbers on the drawing [mm]."""
        return self.case.cage

    @property
    def gaps(self) -> tuple[Gap, ...]:
        """Every gap [mm], in the order in which it is shown."""
        return self.chances.gaps

    def gap(self, name: GapName) -> Gap | None:
        """The gap `name`; None where it is none of this lid's."""
        return next((gap for gap in self.gaps if gap.gap is name), None)


def draft(request: Request, figures: Figures, changes: Changes = NO_CHANGE) -> Draft:
    """Work out the cage for `request` by the rules of the workshop; lengths in mm.

    Source: the rules of the workshop; their figures in `data/workshop.toml`.
    """
    lengths = accept(request)
    band = gap_band(request.purpose, figures)
    how = _changed(hanging(request.lid, request.purpose, lengths, band, figures), changes)
    along = changes.allowance_along
    if along is None:
        along = _allowance_along(lengths, figures)
    depth = _depth_inside(lengths, figures)
    outside = None if depth is None else depth + 2 * figures.face_thickness
    beside = across(lengths, outside, figures)
    settled = _Along(along, depth, beside.frames_out, changes.flat_floor_gap)
    case = _case_with_floor(lengths, how, band, figures, settled)
    sure = chances((*gaps_of(case), beside.gap), case, readings(request, figures))
    gaps = sure.gaps
    needed = _names(
        *(gap.missing for gap in gaps if gap.gap is not GapName.ACROSS),
        _lug_width_for_notch(lengths, how),
    )
    return Draft(
        lengths=lengths,
        band=band,
        hanging=how,
        case=case,
        lid=lid_of(how, case.cage.length_outside, lengths, figures),
        chances=sure,
        across=beside,
        open=_names(needed, beside.gap.missing),
        needed=needed,
        assumed=tuple(_assumed(lengths, how, beside)),
        verdict=_verdict(sure, how, needed, figures),
    )


@dataclass(frozen=True, slots=True)
class _Along:
    """What is settled before the floor is: allowance along, depth, places, a floor to be."""

    allowance: Mm
    depth_inside: Mm | None
    frames_out: int
    flat_floor_gap: Mm | None


def _changed(how: Hanging, changes: Changes) -> Hanging:
    if changes.ear_span is None:
        return how
    return replace(how, ear_span=changes.ear_span)


def _allowance_along(lengths: Accepted, figures: Figures) -> Mm:
    if lengths.inside_along is None:
        return figures.allowance_along
    room = lengths.inside_along - lengths.side_to_side
    wanted = figures.gaps[GapName.HIVE_END].aim_low or Fraction(0)
    if (room - figures.allowance_along) / 2 >= wanted:
        return figures.allowance_along
    return max(figures.allowance_along_least, room - 2 * wanted)


def _depth_inside(lengths: Accepted, figures: Figures) -> Mm | None:
    if lengths.widest_wood is None or lengths.comb_thickness is None:
        return None
    return max(
        lengths.widest_wood + 2 * figures.wood_clear,
        lengths.comb_thickness + 2 * figures.comb_clear,
    )


def _case_with_floor(
    lengths: Accepted, how: Hanging, band: GapBand, figures: Figures, along: _Along
) -> Case:
    """The cage with the first floor that reaches the aim of `below`, else with the last."""
    floors: tuple[tuple[Floor, Mm, Mm], ...] = (
        (Floor.WIRED, figures.floor_wired, figures.gap_under),
        (Floor.FLAT, figures.floor_flat, figures.gap_under),
        (Floor.FLAT, figures.floor_flat, figures.gap_under_least),
    )
    if along.flat_floor_gap is not None:
        floors = ((Floor.FLAT, figures.floor_flat, along.flat_floor_gap),)
    for floor, thickness, gap_under in floors:
        cage = _cage(lengths, how, figures, along, (floor, thickness, gap_under))
        case = Case(lengths, cage, how.closing, band.limit, figures)
        if gap_below(case).verdict not in (GapVerdict.TIGHT, GapVerdict.FAILS):
            break
    return case


def _cage(
    lengths: Accepted,
    how: Hanging,
    figures: Figures,
    along: _Along,
    bottom: tuple[Floor, Mm, Mm],
) -> Cage:
    floor, thickness, gap_under = bottom
    height, lug = lengths.top_to_bottom, lengths.lug_thickness
    length = lengths.side_to_side + along.allowance
    depth = along.depth_inside
    outside = None if depth is None else depth + 2 * figures.face_thickness
    guide = None
    if depth is not None and lengths.widest_wood is not None:
        guide = (depth - lengths.widest_wood) / 2 - figures.wood_clear
    tab = None
    if how.ears is Ears.BESIDE_LUG and outside is not None and lengths.lug_width is not None:
        tab = (outside - lengths.lug_width - figures.tabs_beside_lug) / 2
    return Cage(
        length_outside=length,
        length_inside=length - 2 * figures.end_sheet,
        height_overall=height + gap_under + thickness + how.lid_clear + figures.lid_sheet,
        drop_below_ledge=None if lug is None else height - lug - how.lift + gap_under + thickness,
        depth_inside=depth,
        depth_outside=outside,
        ears=how.ears,
        ear_span=how.ear_span,
        lift=how.lift,
        floor=floor,
        floor_thickness=thickness,
        gap_under=gap_under,
        lid_clear=how.lid_clear,
        guide_each=guide,
        frames_out=along.frames_out,
        ear_width=tab,
    )


def _lug_width_for_notch(lengths: Accepted, how: Hanging) -> tuple[str, ...]:
    if how.closing is LidKind.CLOSED_BETWEEN_WALLS:
        return lengths.lacking(Measure.LUG_WIDTH)
    return ()


def _names(*groups: tuple[str, ...]) -> tuple[str, ...]:
    named = {name for group in groups for name in group}
    return tuple(name for name in ASKED if name in named)


def _assumed(lengths: Accepted, how: Hanging, beside: Across) -> Iterator[Assumed]:
    spaces = [space_below(lengths)]
    if how.closing is LidKind.CLOSED_BETWEEN_WALLS:
        spaces.append(space_above(lengths))
    for space in spaces:
        if space.assumed is not None:
            yield space.assumed
    yield from beside.assumed


def _verdict(sure: Chances, how: Hanging, needed: tuple[str, ...], figures: Figures) -> Verdict:
    if not how.made or any(gap.verdict is GapVerdict.FAILS for gap in sure.gaps):
        return Verdict.CANNOT
    if needed or sure.probability is None or sure.probability < figures.make_at:
        return Verdict.ASK
    return Verdict.MAKE
