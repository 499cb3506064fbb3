"""What is worth a line at the desk and decides nothing: room across, rules of a region."""

from __future__ import annotations

from fractions import Fraction
from typing import TYPE_CHECKING

from sizing.known_frames import wall_rules
from sizing.measures import Measure
from sizing.plausibility.findings import Finding, Severity

if TYPE_CHECKING:
    from collections.abc import Iterator

    from sizing.draft import Draft
    from sizing.standards import FrameKind

__all__ = ["notes"]


def notes(found: Draft, kind: FrameKind | None) -> Iterator[Finding]:
    """The notes on one cage [mm or count]; `kind` is the known frame it is, None where none.

    Where the box cannot give the room across, that is said and nothing is promised.
    Source: the `across_…` figures; the rules in `data/known.toml`.
    """
    yield from _too_few_out(found)
    yield from _no_room_across(found)
    if kind is not None:
        yield from _against_rules(found, kind)


def _too_few_out(found: Draft) -> Iterator[Finding]:
    given, least = found.lengths.frames_out, found.across.least
    if given is not None and least is not None and given < least:
        yield Finding(
            "frames-out-too-few",
            Severity.NOTE,
            (Measure.FRAMES_OUT,),
            Fraction(given),
            (Fraction(least), None),
            "workshop-judgement",
        )


def _no_room_across(found: Draft) -> Iterator[Finding]:
    room, aim = found.across.gap.nominal, found.across.gap.aim[0]
    if room is not None and aim is not None and room < aim:
        yield Finding(
            "no-room-across",
            Severity.NOTE,
            (Measure.INSIDE_ACROSS,),
            room,
            (aim, None),
            "workshop-judgement",
        )


def _against_rules(found: Draft, kind: FrameKind) -> Iterator[Finding]:
    inside = found.lengths.inside_along
    if inside is None:
        return
    each = (inside - found.lengths.side_to_side) / 2
    for rule in wall_rules():
        if kind.id in rule.kinds and each < rule.least:
            yield Finding(
                "wall-rule",
                Severity.NOTE,
                (Measure.INSIDE_ALONG,),
                each,
                (rule.least, None),
                rule.source,
            )
