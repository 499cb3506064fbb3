"""The units people type, and how many millimetres they are."""

from __future__ import annotations

from enum import StrEnum

from sizing.units import CENTIMETRE, FOOT, INCH, METRE, Mm, exact

__all__ = ["BARE", "METRIC", "Symbol", "Unit"]


class Unit(StrEnum):
    """The units a reading is echoed in."""

    MM = "mm"
    CM = "cm"
    M = "m"
    IN = "in"


class Symbol(StrEnum):
    """The units a person may type; two of them are echoed in a neighbour."""

    MM = "mm"
    CM = "cm"
    DM = "dm"
    M = "m"
    IN = "in"
    FT = "ft"

    @property
    def size(self) -> Mm:
        """One of it [mm]."""
        return _SIZES[self]

    @property
    def unit(self) -> Unit:
        """The unit it is echoed in."""
        return _ECHOED[self]


_SIZES = {
    Symbol.MM: exact(1),
    Symbol.CM: CENTIMETRE,
    Symbol.DM: 10 * CENTIMETRE,
    Symbol.M: METRE,
    Symbol.IN: INCH,
    Symbol.FT: FOOT,
}
_ECHOED = {
    Symbol.MM: Unit.MM,
    Symbol.CM: Unit.CM,
    Symbol.DM: Unit.CM,
    Symbol.M: Unit.M,
    Symbol.IN: Unit.IN,
    Symbol.FT: Unit.IN,
}

BARE = (Symbol.MM, Symbol.CM, Symbol.IN)
"""What a number without a unit may be; metres besides where it is under one."""
METRIC = (Symbol.MM, Symbol.CM, Symbol.DM, Symbol.M)
