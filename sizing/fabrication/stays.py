"""Stays across the wires of a panel, so that a thumb does not open a gap.

A wire between two stays is a simple beam, a round steel bar resting on both. The thumb presses
square to the panel on the middle of one wire; the wires beside it stay where they are. The
two are then farther apart, slantwise, than they were drawn.
"""

from __future__ import annotations

from dataclasses import dataclass
from fractions import Fraction
from math import pi
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from sizing.units import Mm

__all__ = ["Press", "Stays", "bend_in_the_middle", "stays"]

_PI = Fraction(pi)


@dataclass(frozen=True, slots=True)
class Press:
    """What presses, and what it presses on.

    `load` [N] on the middle of one wire, `elasticity` [N/mm²] of the wire.
    """

    load: Fraction
    elasticity: Fraction


@dataclass(frozen=True, slots=True)
class Stays:
    """`count` stays at equal distances; `span` [mm] is the free length of wire left."""

    count: int
    span: Mm


def bend_in_the_middle(span: Mm, diameter: Mm, press: Press) -> Mm:
    """How far [mm] the middle of a wire of `diameter` [mm] gives way over `span` [mm].

    Raises `ValueError` unless span, diameter and elasticity are above 0 and the load is at
    least 0. Source: simple beam with a load in the middle, F L³ / (48 E I), and I = π d⁴ / 64 of
    a round bar; textbook formulas.
    """
    if span <= 0 or diameter <= 0 or press.elasticity <= 0 or press.load < 0:
        raise ValueError(span, diameter, press)
    moment = _PI * diameter**4 / 64
    return press.load * span**3 / (48 * press.elasticity * moment)


def stays(length: Mm, gap: Mm, diameter: Mm, limit: Mm, press: Press, longest: Mm) -> Stays | None:
    """Least stays over `length` [mm] so that a pressed gap stays within `limit` [mm].

    `gap` and `diameter` [mm] are those of the row; no span is longer than `longest` [mm]. None
    where the gap has no room left to its limit, so that no stay helps.
    Raises `ValueError` unless length, diameter, `longest` and elasticity are above 0.
    Source: own derivation, (gap + diameter)² + bend² ≤ (limit + diameter)².
    """
    if length <= 0 or longest <= 0:
        raise ValueError(length, longest)
    room = (limit + diameter) ** 2 - (gap + diameter) ** 2
    if room <= 0:
        return None
    count = -(-length.numerator * longest.denominator // (length.denominator * longest.numerator))
    while bend_in_the_middle(length / count, diameter, press) ** 2 > room:
        count += 1
    return Stays(count - 1, length / count)
