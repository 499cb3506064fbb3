"""Flat patterns and wires as a DXF drawing, for machines that cut and people who bend.

CUT holds closed outlines and nothing else, BEND the middle of each bend, WIRE the centre line of
each wire, TEXT what each part is. Nobody's own words stand in it, so none can be taken for codes
of the format.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from decimal import ROUND_HALF_UP, Decimal
from fractions import Fraction
from io import StringIO
from typing import TYPE_CHECKING

from babel.numbers import format_decimal

from conversations import reference
from conversations.locale import catalogue
from sizing.cage import Design
from sizing.errors import NotSizedError
from sizing.fabrication.flat import Line, Pattern, Point, WirePanel
from sizing.fabrication.sheet import patterns, wire_panels
from sizing.workshop import Figures

if TYPE_CHECKING:
    from ezdxf.document import Drawing
    from ezdxf.layouts.layout import Modelspace

__all__ = ["LAYERS", "PlacedCage", "as_bytes", "flat_patterns", "new_drawing"]

LAYERS = {"CUT": 1, "BEND": 5, "WIRE": 3, "TEXT": 7}
"""Every layer of our drawings, with the number of its colour: red, blue, green, black."""

_VERSION = "R2010"  # older ones lose the unit
_BETWEEN = 12.0
_TEXT_HEIGHT = 5.0
_LINE = 8.0
_SMALLEST = Decimal("0.01")


@dataclass(frozen=True, slots=True)
class PlacedCage:
    """One kind of cage of an order, with the figures it was sized with."""

    item: int
    pieces: int
    design: Design
    figures: Figures


def new_drawing() -> Drawing:
    """An empty drawing in millimetres with our layers; nothing in it tells when it was made."""
    # Imported here: it looks for a file of settings as soon as it is.
    from ezdxf import options, units  # type: ignore[attr-defined]  # says not what it exports
    from ezdxf.filemanagement import new

    options.write_fixed_meta_data_for_testing = True
    drawing = new(_VERSION, units=units.MM)
    for name, colour in LAYERS.items():
        drawing.layers.add(name, color=colour)
    return drawing


def as_bytes(drawing: Drawing) -> bytes:
    """The drawing as a file."""
    text = StringIO()
    drawing.write(text)
    return text.getvalue().encode(drawing.output_encoding, "dxfreplace")


def flat_patterns(number: str, cages: Sequence[PlacedCage], language: str) -> bytes:
    """Every sheet part and every panel of wires of an order, one above the other.

    A cage whose parts cannot be cut, because a size is open or leaves no sheet, is named and
    has nothing drawn.
    """
    drawing = new_drawing()
    sheet = _Sheet(drawing.modelspace(), language)
    for cage in cages:
        try:
            parts = patterns(cage.design, cage.figures)
        except NotSizedError:
            sheet.head("bench.cage_open", number, cage)
            continue
        sheet.head("bench.cage", number, cage)
        for pattern in parts:
            sheet.pattern(pattern, cage.pieces)
        for panel in wire_panels(cage.design, cage.figures):
            sheet.panel(panel, cage.pieces)
    return as_bytes(drawing)


class _Sheet:
    """Sets one thing under the other, from y = 0 downwards."""

    def __init__(self, space: Modelspace, language: str) -> None:
        self._space = space
        self._language = language
        self._texts = catalogue(language)
        self._level = 0.0

    def head(self, key: str, number: str, cage: PlacedCage) -> None:
        self._level -= _BETWEEN
        self._write(key, number=reference.format(number), item=cage.item, pieces=cage.pieces)

    def pattern(self, pattern: Pattern, pieces: int) -> None:
        self._level -= _BETWEEN
        self._write(
            "bench.pattern",
            part=self._texts.text(f"part.{pattern.part}"),
            count=pattern.count * pieces,
            thickness=self._mm(pattern.thickness),
            width=self._mm(pattern.width),
            height=self._mm(pattern.height),
        )
        if pattern.bends:
            bend = pattern.bends[0]
            way = "outward" if bend.outward else "away"
            self._write(
                "bench.bends",
                count=len(pattern.bends),
                turned=bend.turned,
                radius=self._mm(bend.radius),
                way=self._texts.text(f"bench.bend.{way}"),
            )
        self._down(pattern.height)
        self._space.add_lwpolyline(
            [self._at(point) for point in pattern.outline],
            close=True,
            dxfattribs={"layer": "CUT"},
        )
        for bend in pattern.bends:
            self._line(bend.line, "BEND")

    def panel(self, panel: WirePanel, pieces: int) -> None:
        self._level -= _BETWEEN
        self._write(
            "bench.panel",
            panel=self._texts.text(f"bench.panel.{panel.panel}"),
            count=panel.count * pieces,
            wires=len(panel.wires),
            diameter=self._mm(panel.diameter),
            length=self._mm(panel.length),
            opening=self._mm(panel.opening),
        )
        self._down(panel.length)
        for wire in (*panel.wires, *panel.stays):
            self._line(wire, "WIRE")

    def _down(self, height: Fraction) -> None:
        """Make room for something `height` high, its lower left corner on the new level."""
        self._level -= float(height) + _LINE / 2

    def _at(self, point: Point) -> tuple[float, float]:
        return float(point[0]), self._level + float(point[1])

    def _line(self, line: Line, layer: str) -> None:
        start, end = line
        self._space.add_line(self._at(start), self._at(end), dxfattribs={"layer": layer})

    def _write(self, key: str, **values: object) -> None:
        self._level -= _LINE
        self._space.add_text(
            self._texts.text(key).format(**values),
            height=_TEXT_HEIGHT,
            dxfattribs={"layer": "TEXT", "insert": (0.0, self._level)},
        )

    def _mm(self, value: Fraction) -> str:
        exact = Decimal(value.numerator) / Decimal(value.denominator)
        hundredth = exact.quantize(_SMALLEST, rounding=ROUND_HALF_UP)
        return str(format_decimal(hundredth, format="0.##", locale=self._language))
