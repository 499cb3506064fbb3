"""What would work instead: single changes, each worked out anew and offered only if it passes."""

from __future__ import annotations

from dataclasses import dataclass, replace
from enum import StrEnum
from fractions import Fraction
from typing import TYPE_CHECKING

from sizing.accepted import space_below
from sizing.draft import Changes, Verdict, draft
from sizing.fit import GapVerdict
from sizing.measures import GapName, Length, LidChoice, Measure

if TYPE_CHECKING:
    from collections.abc import Iterator

    from sizing.draft import Draft
    from sizing.measures import Request
    from sizing.units import Mm
    from sizing.workshop import Figures

__all__ = ["Remedy", "WouldWork", "would_work"]


NOTHING = Fraction(0)


class Remedy(StrEnum):
    """What would be done otherwise."""

    SECOND_READING = "second-reading"
    TAPE_CLASS = "tape-class"
    MEASURE = "measure"
    """Give the measure that is missing."""
    LID = "lid"
    EARS = "ears"
    FLOOR = "floor"
    ALLOWANCE = "allowance"
    RIM = "rim"
    """A loose rim: on the body (`ledge_up`) or under it (`below_space`), `value` [mm] high."""


@dataclass(frozen=True, slots=True)
class WouldWork:
    """One thing that would settle the order: `value` is a length [mm] or a lid."""

    id: Remedy
    measure: str | None
    value: Fraction | str | None
    probability: float | None = None


def would_work(request: Request, found: Draft, figures: Figures) -> tuple[WouldWork, ...]:
    """What would turn `found` into a cage that can be made; lengths in mm.

    For `ask` the measures that are missing; for `cannot` the changes of lid, ears, allowance
    or rim with which no must fails, each drafted anew. Empty where no single change does,
    and for `make`.
    """
    if found.verdict is Verdict.ASK:
        return tuple(WouldWork(Remedy.MEASURE, name, None) for name in found.needed)
    if found.verdict is Verdict.CANNOT:
        return tuple(_passing(request, found, figures))
    return ()


def _passing(request: Request, found: Draft, figures: Figures) -> Iterator[WouldWork]:
    yield from _lids(request, found, figures)
    for span in _ear_spans(found, figures):
        if _passes(draft(request, figures, Changes(ear_span=span))):
            yield WouldWork(Remedy.EARS, None, span)
            break
    for along in _allowances(found, figures):
        if _passes(draft(request, figures, Changes(allowance_along=along))):
            yield WouldWork(Remedy.ALLOWANCE, None, along)
            break
    for measure, rim, changed in _rims(request, found, figures):
        if _passes(draft(changed, figures)):
            yield WouldWork(Remedy.RIM, measure.value, rim)


def _passes(other: Draft) -> bool:
    return other.verdict is not Verdict.CANNOT


def _fails(found: Draft, name: GapName) -> bool:
    gap = found.gap(name)
    return gap is not None and gap.verdict is GapVerdict.FAILS


def _lids(request: Request, found: Draft, figures: Figures) -> Iterator[WouldWork]:
    seen = {found.hanging.closing}
    for choice in (LidChoice.END_OPEN, LidChoice.CLOSED, LidChoice.CLOSED_BETWEEN_WALLS):
        other = draft(replace(request, lid=choice), figures)
        kind = other.hanging.closing
        if kind in seen or not _passes(other):
            continue
        seen.add(kind)
        yield WouldWork(Remedy.LID, None, kind.value)


def _ear_spans(found: Draft, figures: Figures) -> Iterator[Mm]:
    """Longer ears, where they lie too short on the ledge: as long as the hive lets them play."""
    room = found.lengths.lug_room
    play = figures.gaps[GapName.EAR_PLAY].aim_low
    if room is None or play is None or not _fails(found, GapName.EAR_BEARING):
        return
    if room - play > found.cage.ear_span:
        yield room - play


def _allowances(found: Draft, figures: Figures) -> Iterator[Mm]:
    """Less added along, where the cage is too long for the body or the lugs too short for it."""
    crowded = (GapName.HIVE_END, GapName.LID_ROOM, GapName.LUG_BEARING)
    if not any(_fails(found, name) for name in crowded):
        return
    now = found.cage.length_outside - found.lengths.side_to_side
    if figures.allowance_along_least < now:
        yield figures.allowance_along_least
    inside = found.lengths.inside_along
    end = figures.gaps[GapName.HIVE_END].must_low
    if inside is not None and end is not None:
        most = inside - found.lengths.side_to_side - 2 * end
        if most < min(now, figures.allowance_along_least):
            yield most


def _rims(
    request: Request, found: Draft, figures: Figures
) -> Iterator[tuple[Measure, Mm, Request]]:
    """A rim on the body where the head room is short, under it where the cage stands on something.

    What was assumed for the box below stays what it was: it gets no rim.
    """
    hive, rise = request.hive, found.lengths.rise
    below = space_below(found.lengths).value
    if rise is not None and hive.ledge_up is not None and _wants_rise(found):
        rim = max(figures.rim, _whole(figures.rise_over_lugs - rise))
        raised = Length((hive.ledge_up.value + rim,))
        under = None if below is None else Length((below,))
        changed = replace(hive, ledge_up=raised, below_space=under)
        yield Measure.LEDGE_UP, rim, replace(request, hive=changed)
    gap = found.gap(GapName.BELOW)
    if below is not None and gap is not None and gap.verdict is GapVerdict.FAILS:
        short = (gap.aim[0] or NOTHING) - (gap.nominal or NOTHING)
        rim = max(figures.rim, _whole(short))
        lowered = Length((below + rim,))
        yield Measure.BELOW_SPACE, rim, replace(request, hive=replace(hive, below_space=lowered))


def _wants_rise(found: Draft) -> bool:
    return _fails(found, GapName.HEAD_ROOM) or not found.hanging.made


def _whole(value: Mm) -> Mm:
    """`value` [mm] raised to whole millimetres."""
    return value - value % 1 + (1 if value % 1 else 0)
