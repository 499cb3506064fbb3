"""What would work instead: single changes, each worked out anew and offered only if it passes."""

from __future__ import annotations

from dataclasses import dataclass, replace
from enum import StrEnum
from fractions import Fraction
from typing import TYPE_CHECKING

from sizing.accepted import space_below
from sizing.chances import second_readings
from sizing.draft import Changes, Verdict, draft
from sizing.fit import GapVerdict
from sizing.measures import Floor, GapName, Length, LidChoice, Measure, Tape

if TYPE_CHECKING:
    from collections.abc import Callable, Iterator

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
    """One thing that would settle the order: `value` is a length [mm], a lid, a tape class.

    `probability` is the joint it would give. A floor with a length for its value is flat,
    with that gap over it.
    """

    id: Remedy
    measure: str | None
    value: Fraction | str | None
    probability: float | None = None


def would_work(request: Request, found: Draft, figures: Figures) -> tuple[WouldWork, ...]:
    """What would turn `found` into a cage that can be made; lengths in mm.

    For `ask` the measures that are missing; where none is, every second reading, tape class
    and single change of lid, ears, floor, allowance or rim that reaches `make_at`, with the
    joint probability it would give. For `cannot` the changes with which no must fails, each
    drafted anew and with its joint. Empty where no single change does, and for `make`.
    """
    if found.verdict is Verdict.MAKE:
        return ()
    if found.verdict is Verdict.CANNOT:
        return tuple(_changes(request, found, figures, _possible))
    if found.needed:
        return tuple(WouldWork(Remedy.MEASURE, name, None) for name in found.needed)
    surer = (*_readings(found, figures), *_tapes(request, figures))
    return (*surer, *_changes(request, found, figures, _made))


def _possible(other: Draft) -> bool:
    return other.verdict is not Verdict.CANNOT


def _made(other: Draft) -> bool:
    return other.verdict is Verdict.MAKE


def _readings(found: Draft, figures: Figures) -> Iterator[WouldWork]:
    for measure, joint in second_readings(found.chances).items():
        if joint >= figures.make_at:
            yield WouldWork(Remedy.SECOND_READING, measure.value, None, joint)


def _tapes(request: Request, figures: Figures) -> Iterator[WouldWork]:
    """The widest class that settles the order, where nobody has said which the tape is."""
    if request.measured_with.tape is not Tape.UNKNOWN:
        return
    for tape in (Tape.II, Tape.I):
        with_ = replace(request.measured_with, tape=tape)
        other = draft(replace(request, measured_with=with_), figures)
        if _made(other):
            yield WouldWork(Remedy.TAPE_CLASS, None, tape.value, other.chances.probability)
            return


def _changes(
    request: Request, found: Draft, figures: Figures, holds: Callable[[Draft], bool]
) -> Iterator[WouldWork]:
    """Single changes for which `holds`; of ears, floors and allowances the first that does."""
    yield from _lids(request, found, figures, holds)
    tries: tuple[tuple[Remedy, Iterator[tuple[Fraction | str, Changes]]], ...] = (
        (Remedy.EARS, _ear_spans(found, figures)),
        (Remedy.FLOOR, _floors(found, figures)),
        (Remedy.ALLOWANCE, _allowances(found, figures)),
    )
    for remedy, changes in tries:
        for value, change in changes:
            other = draft(request, figures, change)
            if holds(other):
                yield WouldWork(remedy, None, value, other.chances.probability)
                break
    for measure, rim, changed in _rims(request, found, figures):
        other = draft(changed, figures)
        if holds(other):
            yield WouldWork(Remedy.RIM, measure.value, rim, other.chances.probability)


def _weak(found: Draft, name: GapName, figures: Figures) -> bool:
    """Whether the gap fails, or alone takes up a quarter of the doubt that is allowed."""
    gap = found.gap(name)
    if gap is None or gap.probability is None:
        return False
    doubt = 1 - gap.probability
    return gap.verdict is GapVerdict.FAILS or doubt > (1 - figures.make_at) / 4


def _lids(
    request: Request, found: Draft, figures: Figures, holds: Callable[[Draft], bool]
) -> Iterator[WouldWork]:
    seen = {found.hanging.closing}
    for choice in (LidChoice.END_OPEN, LidChoice.CLOSED, LidChoice.CLOSED_BETWEEN_WALLS):
        other = draft(replace(request, lid=choice), figures)
        kind = other.hanging.closing
        if kind in seen or not holds(other):
            continue
        seen.add(kind)
        yield WouldWork(Remedy.LID, None, kind.value, other.chances.probability)


def _ear_spans(found: Draft, figures: Figures) -> Iterator[tuple[Mm, Changes]]:
    """Ears that lie longer on the ledge, or play in the middle of what the gap allows."""
    room, now = found.lengths.lug_room, found.cage.ear_span
    play = figures.gaps[GapName.EAR_PLAY].aim_low
    if room is None:
        return
    ends = (GapName.EAR_PLAY, GapName.LID_END)
    middle = room - found.band.limit / 2
    if middle != now and any(_weak(found, name, figures) for name in ends):
        yield middle, Changes(ear_span=middle)
    if play is not None and _weak(found, GapName.EAR_BEARING, figures) and room - play > now:
        yield room - play, Changes(ear_span=room - play)


def _floors(found: Draft, figures: Figures) -> Iterator[tuple[Fraction | str, Changes]]:
    """A flat floor instead of a wired one; then one with the least gap [mm] over it."""
    if not _weak(found, GapName.BELOW, figures):
        return
    if found.cage.floor is Floor.WIRED:
        yield Floor.FLAT.value, Changes(flat_floor_gap=figures.gap_under)
    if found.cage.gap_under > figures.gap_under_least:
        yield figures.gap_under_least, Changes(flat_floor_gap=figures.gap_under_least)


def _allowances(found: Draft, figures: Figures) -> Iterator[tuple[Mm, Changes]]:
    """Less added along, where the cage is too long for the body or the lugs too short for it."""
    crowded = (GapName.HIVE_END, GapName.LID_ROOM, GapName.LUG_BEARING)
    if not any(_weak(found, name, figures) for name in crowded):
        return
    now = found.cage.length_outside - found.lengths.side_to_side
    least = figures.allowance_along_least
    if least < now:
        yield least, Changes(allowance_along=least)
    inside = found.lengths.inside_along
    end = figures.gaps[GapName.HIVE_END].must_low
    if inside is not None and end is not None:
        most = inside - found.lengths.side_to_side - 2 * end
        if most < min(now, least):
            yield most, Changes(allowance_along=most)


def _rims(
    request: Request, found: Draft, figures: Figures
) -> Iterator[tuple[Measure, Mm, Request]]:
    """A rim on the body where the head room is short, under it where the cage stands on something.

    What was assumed for the box below stays what it was: it gets no rim.
    """
    hive, rise = request.hive, found.lengths.rise
    below = space_below(found.lengths).value
    low = _weak(found, GapName.HEAD_ROOM, figures) or not found.hanging.made
    if rise is not None and hive.ledge_up is not None and low:
        rim = max(figures.rim, _whole(figures.rise_over_lugs - rise))
        raised = replace(hive.ledge_up, readings=_raised(hive.ledge_up, rim))
        under = (
            hive.below_space
            if hive.below_space is not None or below is None
            else (replace(hive.ledge_up, readings=(below,)))
        )
        changed = replace(hive, ledge_up=raised, below_space=under)
        yield Measure.LEDGE_UP, rim, replace(request, hive=changed)
    gap = found.gap(GapName.BELOW)
    if below is not None and gap is not None and _weak(found, GapName.BELOW, figures):
        short = (gap.aim[0] or NOTHING) - (gap.nominal or NOTHING)
        rim = max(figures.rim, _whole(short))
        lowered = Length((below + rim,))
        yield Measure.BELOW_SPACE, rim, replace(request, hive=replace(hive, below_space=lowered))


def _raised(length: Length, by: Mm) -> tuple[Mm, ...]:
    return tuple(one + by for one in length.readings)


def _whole(value: Mm) -> Mm:
    """`value` [mm] raised to whole millimetres."""
    return value - value % 1 + (1 if value % 1 else 0)
