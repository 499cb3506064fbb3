"""How much sheet a bend takes up: DIN 6935, the workshop's own K, or a strip it has bent.

Outside lengths of the legs are what is measured on the folded part. A flat blank is their sum
plus one correction a bend; near a right angle the correction is negative.
"""

from __future__ import annotations

from dataclasses import dataclass
from math import log10, pi, radians, tan
from typing import TYPE_CHECKING

from sizing.units import nearest

if TYPE_CHECKING:
    from sizing.units import Mm
    from sizing.workshop import Figures

__all__ = [
    "Fold",
    "bend_allowance",
    "correction",
    "din_factor",
    "factor_of_strip",
    "fold_of",
    "least_flange",
]

_RIGHT_ANGLE = 90
_MIDDLE = 0.5
"""K of a neutral line in the middle of the sheet; a strip that says more was measured wrongly."""
_SHARP = 5
"""From this inside radius over thickness on the neutral line lies in the middle (k = 1)."""


@dataclass(frozen=True, slots=True)
class Fold:
    """A right-angled bend in one sheet; lengths in mm.

    `correction` is added to the outside lengths of the two legs and is negative; `setback` is
    the distance from the outside corner to where the sheet is straight again.
    """

    thickness: Mm
    radius: Mm
    correction: Mm

    @property
    def setback(self) -> Mm:
        """Outside corner to the end of the bent zone [mm]."""
        return self.radius + self.thickness

    @property
    def zone(self) -> Mm:
        """Width of the zone in the flat that becomes the bend [mm]."""
        return self.correction + 2 * self.setback


def din_factor(radius: Mm, thickness: Mm) -> float:
    """K of a bend by DIN 6935 [1], 0 to 0.5: half the correction factor k of the standard.

    k = 0.65 + 0.5 log10(radius / thickness), both [mm] and above 0, at most 1. Raises
    `ValueError` for a radius so sharp that no neutral line is left (k not above 0).
    Source: DIN 6935 as reported by excelution.at (2019); its upper limit: common practice.
    """
    if radius <= 0 or thickness <= 0:
        raise ValueError(radius, thickness)
    ratio = radius / thickness
    k = 1.0 if ratio > _SHARP else min(1.0, 0.65 + 0.5 * log10(ratio))
    if k <= 0:
        raise ValueError(radius, thickness)
    return k / 2


def bend_allowance(radius: Mm, thickness: Mm, factor: float, turned: float = 90) -> float:
    """Length of the neutral line [mm] in a bend that turns the sheet by `turned` degrees.

    Inside `radius` and `thickness` [mm]; `factor` K [1] 0 to 0.5; 0 to 180 degrees.
    Source: pi x turned / 180 x (radius + K x thickness), DPS GmbH on DIN 6935 (undated).
    """
    return radians(turned) * (float(radius) + factor * float(thickness))


def correction(radius: Mm, thickness: Mm, factor: float, turned: float = 90) -> float:
    """What is added to the outside lengths of two legs [mm] for the bend between them.

    `turned` degrees, 0 to 165; for more than 90 the legs are measured to the tangent across
    the bend, as DIN 6935 does. Lengths [mm], `factor` K [1].
    Source: DPS GmbH, K-Faktor und Biegezugabe im Zusammenhang mit der DIN 6935 (undated).
    """
    sides = float(radius + thickness)
    if turned < _RIGHT_ANGLE:
        sides *= tan(radians(turned) / 2)
    return bend_allowance(radius, thickness, factor, turned) - 2 * sides


def factor_of_strip(leg_a: Mm, leg_b: Mm, blank: Mm, radius: Mm, thickness: Mm) -> float:
    """K [1] from a strip of length `blank` [mm] that was bent once, at a right angle.

    `leg_a` and `leg_b` [mm] are its legs measured outside, all lengths above 0.
    Source: K = (allowance / angle - radius) / thickness, bendmath.com (undated).
    """
    allowance = blank - leg_a - leg_b + 2 * (radius + thickness)
    return float(allowance / thickness) / (pi / 2) - float(radius / thickness)


def fold_of(thickness: Mm, figures: Figures) -> Fold:
    """The right-angled bend of a sheet of `thickness` [mm] by the workshop's rule; above 0.

    Corrections are given to a thousandth of a millimetre. Raises `ValueError` where the rule
    leaves no neutral line between the inside and the middle of the sheet.
    Source: the figures `bend_…` and `strip_…` of `data/workshop.toml`.
    """
    radius = figures.bend_radius
    if figures.bend_rule == "own-k":
        factor = float(figures.bend_own_k)
    elif figures.bend_rule == "test-strip":
        factor = factor_of_strip(
            figures.strip_leg_a,
            figures.strip_leg_b,
            figures.strip_blank,
            figures.strip_radius,
            figures.strip_thickness,
        )
        if not 0 < factor <= _MIDDLE:
            raise ValueError(figures.strip_blank)
    else:
        factor = din_factor(radius, thickness)
    return Fold(thickness, radius, nearest(correction(radius, thickness, factor)))


def least_flange(thickness: Mm, figures: Figures) -> Mm:
    """Shortest leg, outside, that the bench can bend in a sheet of `thickness` [mm].

    Source: the figures `flange_per_sheet` and `flange_plus` of `data/workshop.toml`.
    """
    return figures.flange_per_sheet * thickness + figures.flange_plus
