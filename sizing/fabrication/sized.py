"""What the bench needs of a cage that was sized: the numbers on its drawing, no gap, no verdict.

A `sizing.cage.Design` is one; so is what stands before it is put together.
"""

from __future__ import annotations

from typing import TYPE_CHECKING, Protocol

if TYPE_CHECKING:
    from collections.abc import Sequence

    from sizing.fabrication.stays import Stays
    from sizing.fabrication.wires import WireRow
    from sizing.fit import Cage
    from sizing.lids import Lid
    from sizing.units import Mm

__all__ = ["SizedCage", "SizedPanel", "SizedWire", "WiredCage"]


class SizedPanel(Protocol):
    """Equal panels with one row of wires [mm]."""

    @property
    def panel(self) -> str:
        """`face` or `floor`."""

    @property
    def count(self) -> int:
        """How many of them a cage has."""

    @property
    def row(self) -> WireRow:
        """The wires of one of them."""

    @property
    def stays(self) -> Stays | None:
        """What keeps these apart; None where a length is missing or no stay helps."""


class SizedWire(Protocol):
    """All wires of a cage."""

    @property
    def diameter(self) -> Mm:
        """Coated [mm]."""

    @property
    def panels(self) -> Sequence[SizedPanel]:
        """The panels."""


class SizedCage(Protocol):
    """Box and lid of a cage [mm]."""

    @property
    def cage(self) -> Cage:
        """The box."""

    @property
    def lid(self) -> Lid:
        """The lid."""


class WiredCage(SizedCage, Protocol):
    """The same with its wires."""

    @property
    def wire(self) -> SizedWire:
        """The wires."""
