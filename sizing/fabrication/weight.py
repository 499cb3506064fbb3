"""What a cage weighs: its sheet parts by the area of their flat patterns, its wires by length."""

from __future__ import annotations

from fractions import Fraction
from math import pi
from typing import TYPE_CHECKING, Protocol

from sizing.errors import NotSizedError
from sizing.fabrication.sheet import patterns, wire_length
from sizing.materials import steel

if TYPE_CHECKING:
    from collections.abc import Iterable, Sequence

    from sizing.fabrication.sized import WiredCage
    from sizing.materials import Sheet
    from sizing.units import Mm
    from sizing.workshop import Figures

__all__ = ["area", "cage_mass", "sheet_mass", "wire_mass"]

_PI = Fraction(pi)
_MM2_PER_M2 = 1_000_000
_MM3_PER_CM3 = 1000


class Piece(Protocol):
    """A part cut from sheet, `count` times: its outline and thickness [mm]."""

    @property
    def count(self) -> int:
        """How many of them."""

    @property
    def thickness(self) -> Mm:
        """Thickness of the sheet [mm]."""

    @property
    def outline(self) -> Sequence[tuple[Mm, Mm]]:
        """Corners [mm] in order, the first not repeated."""


def area(outline: Sequence[tuple[Mm, Mm]]) -> Fraction:
    """Area [mm²] inside a closed line through these corners [mm], whichever way round it goes.

    Source: shoelace formula; textbook.
    """
    twice = sum(
        (x * outline[i - 1][1] - outline[i - 1][0] * y for i, (x, y) in enumerate(outline)),
        Fraction(0),
    )
    return abs(twice) / 2


def sheet_mass(pieces: Iterable[Piece], sheet: Sheet) -> Fraction:
    """Mass [g] of all `pieces` cut from this coated sheet.

    Raises `ValueError` for a piece thinner than the coating.
    Source: density and coating in `data/materials.toml`.
    """
    return sum(
        (
            piece.count * area(piece.outline) / _MM2_PER_M2 * sheet.mass_per_area(piece.thickness)
            for piece in pieces
        ),
        Fraction(0),
    )


def wire_mass(length: Mm, diameter: Mm) -> Fraction:
    """Mass [g] of `length` [mm] of round steel wire of `diameter` [mm], taken as steel throughout.

    Raises `ValueError` for a negative length and a diameter that is not above 0.
    Source: π/4 d² x density of `data/materials.toml`.
    """
    if length < 0 or diameter <= 0:
        raise ValueError(length, diameter)
    return _PI / 4 * diameter**2 * length / _MM3_PER_CM3 * steel().density


def cage_mass(sized: WiredCage, sheet: Sheet, figures: Figures) -> Fraction | None:
    """Mass [g] of one cage with its lid, all of its `sheet` parts, wires and stays; no solder.

    None where a size is open, and where a part would be thinner than its coating.
    Source: flat patterns and wires of `sizing.fabrication.sheet`.
    """
    try:
        parts, wire = patterns(sized, figures), wire_length(sized, figures)
    except NotSizedError:
        return None
    if any(part.thickness < 2 * sheet.coating_each for part in parts):
        return None
    return sheet_mass(parts, sheet) + wire_mass(wire, sized.wire.diameter)
