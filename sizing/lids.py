"""Hanging and closing: where the ears lie, how long they are, which lid and why.

Ears and end-open lid share one length, so that what keeps the queen in at the lid's ends is
the play of the ears. Over the ledge stands the wall of the next box: nothing above the rim
is free there, so a low body gets its ears beside the lugs and a lid between the walls.
"""

from __future__ import annotations

from dataclasses import dataclass
from enum import StrEnum
from fractions import Fraction
from typing import TYPE_CHECKING

from sizing.measures import Ears, GapName, LidChoice, LidKind, Purpose

if TYPE_CHECKING:
    from sizing.accepted import Accepted
    from sizing.bees import GapBand
    from sizing.units import Mm
    from sizing.workshop import Figures

__all__ = ["Hanging", "Lid", "LidReason", "hanging", "lid_of"]


class LidReason(StrEnum):
    """Why the cage gets this lid."""

    LID_END_GAP_HOLDS = "lid-end-gap-holds"
    """End-open, ears as long as the top bar."""
    EARS_CUT_TO_THE_HIVE = "ears-cut-to-the-hive"
    """End-open, ears longer or shorter than the top bar."""
    LOW_RISE = "low-rise"
    NO_ROOM_OVER_LUGS = "no-room-over-lugs"
    """Closed was asked for and does not go over the tips."""
    ASKED_FOR = "asked-for"
    LUG_ROOM_MISSING = "lug-room-missing"


@dataclass(frozen=True, slots=True)
class Hanging:
    """How the cage hangs and is closed; lengths in mm.

    `closing` is the lid whose gaps count while `lid` is an open question.
    `made`: whether the workshop makes this lid.
    """

    lid: LidKind
    why: LidReason
    closing: LidKind
    ears: Ears
    ear_span: Mm
    lift: Mm
    lid_clear: Mm
    made: bool


@dataclass(frozen=True, slots=True)
class Lid:
    """The lid in the result; lengths in mm, None where they do not apply or are not known.

    `length` is outside, along. `end_gap_each` with the cage in the middle, `end_gap_worst`
    pushed over. The notch is that of a lid between the walls.
    """

    kind: LidKind
    why: LidReason
    length: Mm | None
    end_gap_each: Mm | None = None
    end_gap_worst: Mm | None = None
    notch_width: Mm | None = None
    notch_over_lug: Mm | None = None


def _closed_fits(lengths: Accepted, figures: Figures) -> bool | None:
    if lengths.lug_room is None:
        return None
    outside = lengths.lug_to_lug + figures.lid_over_tips + 2 * figures.lid_sheet
    aim = figures.gaps[GapName.LID_ROOM].aim_low
    return lengths.lug_room - outside >= (aim or 0)


def _closing(
    choice: LidChoice, lengths: Accepted, over_lugs: bool, figures: Figures
) -> tuple[LidKind, LidReason | None]:
    """The lid, and why; None where the length of the ears says why."""
    if choice is LidChoice.CLOSED_BETWEEN_WALLS:
        return LidKind.CLOSED_BETWEEN_WALLS, LidReason.ASKED_FOR
    if choice is LidChoice.END_OPEN:
        return LidKind.END_OPEN, LidReason.ASKED_FOR
    if not over_lugs:
        return LidKind.CLOSED_BETWEEN_WALLS, LidReason.LOW_RISE
    if choice is LidChoice.AUTO:
        return LidKind.END_OPEN, None
    if _closed_fits(lengths, figures) is False:
        return LidKind.CLOSED_BETWEEN_WALLS, LidReason.NO_ROOM_OVER_LUGS
    return LidKind.CLOSED, LidReason.ASKED_FOR


def _end_open_span(lengths: Accepted, purpose: Purpose, band: GapBand, figures: Figures) -> Mm:
    if lengths.lug_room is None:
        return lengths.lug_to_lug
    if purpose is Purpose.ISOLATE:
        low, high = figures.ears_as_bar_low_isolate, figures.ears_as_bar_high_isolate
    else:
        low, high = figures.ears_as_bar_low_introduce, figures.ears_as_bar_high_introduce
    if low <= lengths.lug_room - lengths.lug_to_lug <= high:
        return lengths.lug_to_lug
    return lengths.lug_room - band.limit / 2


def _closed_span(lengths: Accepted, figures: Figures) -> Mm:
    if lengths.lug_room is None:
        return lengths.lug_to_lug
    return min(lengths.lug_to_lug, lengths.lug_room - figures.closed_ear_room)


def _lid_clear(closing: LidKind, lengths: Accepted, figures: Figures) -> Mm:
    if closing is LidKind.CLOSED_BETWEEN_WALLS or lengths.rise is None:
        return figures.lid_clear
    left = lengths.rise - figures.end_sheet - figures.lid_sheet - figures.lid_head_room
    return min(figures.lid_clear, max(figures.lid_clear_least, left))


def hanging(
    choice: LidChoice, purpose: Purpose, lengths: Accepted, band: GapBand, figures: Figures
) -> Hanging:
    """How the cage hangs and which lid closes it; lengths in mm.

    A rise that is not known counts as enough for ears under the lugs; a lug room that is not
    known and would decide makes the lid an open question.
    Source: the rules of the workshop; their figures in `data/workshop.toml`.
    """
    over_lugs = lengths.rise is None or lengths.rise >= figures.rise_over_lugs
    closing, why = _closing(choice, lengths, over_lugs, figures)
    if closing is LidKind.END_OPEN:
        span = _end_open_span(lengths, purpose, band, figures)
    else:
        span = _closed_span(lengths, figures)
    lid = closing
    if lengths.lug_room is None and closing is not LidKind.CLOSED_BETWEEN_WALLS:
        lid, why = LidKind.OPEN_QUESTION, LidReason.LUG_ROOM_MISSING
    if why is None:
        as_bar = span == lengths.lug_to_lug
        why = LidReason.LID_END_GAP_HOLDS if as_bar else LidReason.EARS_CUT_TO_THE_HIVE
    between_walls = closing is LidKind.CLOSED_BETWEEN_WALLS
    under_lug = over_lugs or not between_walls
    return Hanging(
        lid=lid,
        why=why,
        closing=closing,
        ears=Ears.UNDER_LUG if under_lug else Ears.BESIDE_LUG,
        ear_span=span,
        lift=figures.end_sheet if under_lug else Fraction(0),
        lid_clear=_lid_clear(closing, lengths, figures),
        made=figures.makes_lid_between_walls or not between_walls,
    )


def lid_of(how: Hanging, length_outside: Mm, lengths: Accepted, figures: Figures) -> Lid:
    """The lid of a cage of `length_outside` [mm] that hangs as `how` says; lengths in mm."""
    if how.lid is LidKind.END_OPEN and lengths.lug_room is not None:
        worst = lengths.lug_room - how.ear_span
        return Lid(how.lid, how.why, how.ear_span, worst / 2, worst)
    if how.lid is LidKind.CLOSED:
        length = lengths.lug_to_lug + figures.lid_over_tips + 2 * figures.lid_sheet
        return Lid(how.lid, how.why, length)
    if how.lid is LidKind.CLOSED_BETWEEN_WALLS:
        width = lengths.lug_width
        return Lid(
            how.lid,
            how.why,
            length_outside,
            notch_width=None if width is None else width + figures.notch_beside_lug,
            notch_over_lug=figures.notch_over_lug,
        )
    return Lid(how.lid, how.why, None)
