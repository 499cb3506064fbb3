"""The cut list of a cage: every wire, strip and blank that it is made of."""

from __future__ import annotations

from collections import Counter
from dataclasses import dataclass
from enum import StrEnum
from typing import TYPE_CHECKING

from sizing.fabrication.flat import Part
from sizing.fabrication.sheet import blanks, wire_panels

if TYPE_CHECKING:
    from collections.abc import Iterator

    from sizing.fabrication.flat import Blank, WirePanel
    from sizing.fabrication.sized import WiredCage
    from sizing.measures import Material
    from sizing.units import Mm
    from sizing.workshop import Figures

__all__ = ["Cut", "Stock", "WirePart", "cuts_of"]

_BARS = "bars"
_EDGES = frozenset({Part.TOP_EDGE, Part.BOTTOM_EDGE})


class Stock(StrEnum):
    """What a part is cut from."""

    WIRE = "wire"
    STRIP = "strip"
    """Sheet already slit to the width of the part, so that only its length is cut."""
    SHEET = "sheet"


class WirePart(StrEnum):
    """The wires of a cage; each value is also the key of its name in the texts."""

    FACE_WIRE = "face-wire"
    FLOOR_WIRE = "floor-wire"
    CROSS_WIRE = "cross-wire"
    """Lies across the others, so that none of them is free over too long a span."""


@dataclass(frozen=True, slots=True)
class Cut:
    """`count` equal pieces of `length` and `width` [mm], the length never the shorter.

    `thickness` [mm] is that of the sheet, or the coated diameter of the wire. `width` is None
    for a wire, `material` too: wire is bought as wire.
    """

    part: Part | WirePart
    stock: Stock
    material: Material | None
    thickness: Mm
    width: Mm | None
    length: Mm
    count: int


def cuts_of(sized: WiredCage, material: Material, pieces: int, figures: Figures) -> tuple[Cut, ...]:
    """All pieces of `pieces` equal cages of `material`: wires, then strips and blanks; in mm.

    Strips are told from blanks where the workshop cuts its edges off bars. Raises
    `NotSizedError` where a size is open, `ValueError` unless there is at least one cage.
    Source: own construction, as in `sizing.fabrication.sheet`.
    """
    if pieces < 1:
        raise ValueError(pieces)
    wires: Counter[tuple[WirePart, Mm]] = Counter()
    for panel in wire_panels(sized, figures):
        for part, length, count in _wires(panel, figures):
            wires[part, length] += count * panel.count * pieces
    return (
        *(
            Cut(part, Stock.WIRE, None, sized.wire.diameter, None, length, count)
            for (part, length), count in wires.items()
        ),
        *(_sheet(blank, material, pieces, figures) for blank in blanks(sized, figures)),
    )


def _wires(panel: WirePanel, figures: Figures) -> Iterator[tuple[WirePart, Mm, int]]:
    """Part, length and count of the wires of one panel."""
    part = WirePart.FACE_WIRE if panel.panel == "face" else WirePart.FLOOR_WIRE
    if panel.wires:
        yield part, panel.length, len(panel.wires)
    across = -(-panel.length // figures.wire_free_span) - 1
    if across:
        yield WirePart.CROSS_WIRE, panel.opening, across


def _sheet(blank: Blank, material: Material, pieces: int, figures: Figures) -> Cut:
    edge = blank.name in _EDGES and figures.edges_from == _BARS
    sides = sorted((blank.width, blank.height))
    return Cut(
        part=blank.name,
        stock=Stock.STRIP if edge else Stock.SHEET,
        material=material,
        thickness=blank.thickness,
        width=sides[0],
        length=sides[1],
        count=blank.count * pieces,
    )
