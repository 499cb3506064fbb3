"""How many wires a panel needs, counted in exact arithmetic.

Wires are parallel and lie inside an opening without a wire on its edges, so n wires make
n + 1 gaps, the two end gaps included. All gaps are made equal.
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

from sizing.bees import GapBand

if TYPE_CHECKING:
    from sizing.units import Mm

__all__ = [
    "WireRow",
    "equal_gap",
    "filler_strip",
    "least_wires",
    "made_gap",
    "nominal_band",
    "wire_row",
]


@dataclass(frozen=True, slots=True)
class WireRow:
    """The wires of one opening: the least that hold, and those that are made; gaps in mm."""

    opening: Mm
    least_wires: int
    least_gap: Mm
    wires: int
    gap: Mm


def _ceil(value: Mm) -> int:
    return -(-value.numerator // value.denominator)


def least_wires(opening: Mm, diameter: Mm, limit: Mm) -> int:
    """Least number of wires so that no gap in `opening` [mm] is wider than `limit` [mm].

    `diameter` [mm] is that of the coated wire. 0 where the opening itself holds.
    Raises `ValueError` unless all three are above 0.
    Source: own derivation; a test compares it with counting up wire by wire.
    """
    if opening <= 0 or diameter <= 0 or limit <= 0:
        raise ValueError(opening, diameter, limit)
    return max(0, _ceil((opening - limit) / (limit + diameter)))


def equal_gap(opening: Mm, diameter: Mm, wires: int) -> Mm:
    """Each gap [mm] when `wires` wires of `diameter` [mm] share `opening` [mm] equally.

    Source: own derivation, (opening - wires x diameter) / (wires + 1).
    """
    return (opening - wires * diameter) / (wires + 1)


def wire_row(opening: Mm, diameter: Mm, band: GapBand) -> WireRow:
    """The wires of one `opening` [mm]: least count and made count, with their gaps [mm].

    Made is the count whose gap lies nearest the middle of the band, if one lies in it;
    else the least that holds. Of two equally near counts the one with fewer wires.
    Raises `ValueError` unless opening and diameter are above 0.
    Source: own derivation.
    """
    least = least_wires(opening, diameter, band.limit)
    made = least
    wires = least
    while equal_gap(opening, diameter, wires) >= band.least:
        if _nearer(opening, diameter, band, wires, made):
            made = wires
        wires += 1
    return WireRow(
        opening=opening,
        least_wires=least,
        least_gap=equal_gap(opening, diameter, least),
        wires=made,
        gap=equal_gap(opening, diameter, made),
    )


def made_gap(gap: Mm, diameter_off: Mm, place_off: Mm) -> tuple[Mm, Mm]:
    """Least and most [mm] that a gap drawn as `gap` [mm] can be once it is made.

    A wire may be `diameter_off` [mm] thicker or thinner and lie `place_off` [mm] to either side;
    both wires of a gap may. Least is never under 0. Raises `ValueError` for a negative one.
    Source: own derivation, gap ± (diameter_off + 2 x place_off).
    """
    if diameter_off < 0 or place_off < 0:
        raise ValueError(diameter_off, place_off)
    off = diameter_off + 2 * place_off
    return max(gap - off, gap * 0), gap + off


def nominal_band(band: GapBand, diameter_off: Mm, place_off: Mm) -> GapBand | None:
    """The gaps [mm] that may be drawn so that every made one lies in `band` [mm].

    None where the band is too narrow for what wire and jig vary: then only gauging holds it.
    Raises `ValueError` for a negative `diameter_off` or `place_off` [mm].
    Source: own derivation, the band less (diameter_off + 2 x place_off) at each side.
    """
    _, least = made_gap(band.least, diameter_off, place_off)
    limit = band.limit - (least - band.least)
    return GapBand(least, limit) if least <= limit else None


def filler_strip(opening: Mm, diameter: Mm, band: GapBand) -> Mm:
    """Least width [mm] to be closed so that equal gaps in the rest of `opening` [mm] lie in `band`.

    0 where some number of wires of `diameter` [mm] does it anyway, and where the opening itself
    is no wider than the least gap. Raises `ValueError` unless opening and diameter are above 0.
    Source: own derivation; a test compares it with closing a little more and more.
    """
    if opening <= 0 or diameter <= 0:
        raise ValueError(opening, diameter)
    most = -_ceil((band.least - opening) / (band.least + diameter))
    if most < 0:
        return opening * 0
    return max(opening - (most * diameter + (most + 1) * band.limit), opening * 0)


def _nearer(opening: Mm, diameter: Mm, band: GapBand, wires: int, made: int) -> bool:
    def distance(count: int) -> Mm:
        return abs(equal_gap(opening, diameter, count) - band.middle)

    return distance(wires) < distance(made)
