"""Room across the frames: how many places the caged frame takes.

It decides nothing: one more frame out cures it.
"""

from __future__ import annotations

from dataclasses import dataclass
from fractions import Fraction
from typing import TYPE_CHECKING

from sizing.accepted import WORKSHOP_DEFAULT, Assumed, Known, pitch
from sizing.fit import Gap, GapVerdict, Role, Term, judged
from sizing.measures import GapName, Measure

if TYPE_CHECKING:
    from sizing.accepted import Accepted
    from sizing.units import Mm
    from sizing.workshop import Figures

__all__ = ["Across", "across"]

_ONE = Fraction(1)


@dataclass(frozen=True, slots=True)
class Across:
    """The gap across [mm], the places given up, and what was assumed for them.

    `least` is the smallest count that reaches the aim; None where a length is missing.
    """

    gap: Gap
    frames_out: int
    least: int | None
    assumed: tuple[Assumed, ...]


def across(lengths: Accepted, depth_outside: Mm | None, figures: Figures) -> Across:
    """Room [mm] left across with the cage hung in, and the places given up for it.

    Given up are the least places that reach the aim, or what the beekeeper gives up if that
    is more; the workshop's usual number where the least cannot be worked out.
    Source: the `across_…` figures of `data/workshop.toml`.
    """
    step = pitch(lengths)
    aim = _aim(step.value, figures)
    least = _least(lengths, step.value, depth_outside, aim)
    assumed = [step.assumed] if step.assumed else []
    if least is not None:
        out = max(least, lengths.frames_out or 0)
    elif lengths.frames_out is not None:
        out = lengths.frames_out
    else:
        out = int(figures.frames_out)
        assumed.append(Assumed(Measure.FRAMES_OUT, Fraction(out), WORKSHOP_DEFAULT))
    if lengths.frames_held is not None:
        out = min(out, lengths.frames_held)
    terms = _terms(lengths, step, depth_outside, out)
    values = [term.value for term in terms]
    missing = tuple(dict.fromkeys(name for term in terms for name in term.missing))
    gap = Gap(
        gap=GapName.ACROSS,
        terms=terms,
        nominal=None if None in values else _room(lengths, step.value, depth_outside, out),
        must=(None, None),
        aim=(aim, None),
        beyond=False,
        verdict=GapVerdict.OPEN,
        missing=missing,
    )
    return Across(judged(gap), out, least, tuple(assumed))


def _aim(step: Mm | None, figures: Figures) -> Mm | None:
    if step is None:
        return None
    passage = figures.across_passage - (step - figures.across_comb) / 2
    return max(figures.across_least, 2 * passage)


def _room(lengths: Accepted, step: Mm | None, depth: Mm | None, out: int) -> Mm | None:
    inside, held = lengths.inside_across, lengths.frames_held
    if inside is None or held is None or step is None or depth is None:
        return None
    return inside - (held - out) * step - depth


def _least(lengths: Accepted, step: Mm | None, depth: Mm | None, aim: Mm | None) -> int | None:
    held = lengths.frames_held
    if held is None or aim is None:
        return None
    for out in range(1, held + 1):
        room = _room(lengths, step, depth, out)
        if room is None:
            return None
        if room >= aim:
            return out
    return held


def _terms(lengths: Accepted, step: Known, depth: Mm | None, out: int) -> tuple[Term, ...]:
    held = lengths.frames_held
    beside = _ONE if held is None else Fraction(held - out)
    depth_from = lengths.lacking(Measure.WIDEST_WOOD, Measure.COMB_THICKNESS)
    return (
        Term(
            Measure.INSIDE_ACROSS.value,
            Role.HIVE,
            lengths.inside_across,
            missing=lengths.lacking(Measure.INSIDE_ACROSS),
        ),
        Term(
            step.name,
            Role.FRAME,
            None if held is None else step.value,
            -beside,
            (*lengths.lacking(Measure.FRAMES_HELD), *step.missing),
        ),
        Term("depth_outside", Role.CUT, depth, -_ONE, depth_from),
    )
