"""How ink looks and how big words are: the one place for the look of all pictures.

Made for a phone in sunlight and for a printer without colour: what is asked is told apart by
thickness and hatching first, colour only repeats it. One pixel is one unit.
"""

from __future__ import annotations

from dataclasses import dataclass

from sizing.drawings.shapes import Ink

__all__ = [
    "ARROW",
    "BLACK",
    "CAPTION",
    "CROSS",
    "EDGE",
    "EXTENSION",
    "FONT",
    "GREEN",
    "GREY",
    "HALO",
    "HATCH_STEP",
    "HEAD",
    "HONEY",
    "INKS",
    "LABEL",
    "LEADER",
    "NOTE",
    "RED",
    "STRIP",
    "STRUCK",
    "WHITE",
    "WIDTH",
    "Font",
    "Look",
    "Pen",
]

WIDTH = 720
"""Width of every sheet [px]."""
EDGE = 14
"""Nothing but grounds comes nearer to the edge of its view than this [px]."""
BLACK = "#101010"
GREY = "#7d7d7d"
HONEY = "#f2b632"
RED = "#c1121f"
GREEN = "#1b6b34"
STRIP = "#f1efe9"
WHITE = "#ffffff"

LABEL = 27.0
CAPTION = 23.0
NOTE = 22.0


@dataclass(frozen=True, slots=True)
class Pen:
    """A line: colour, width [px] and dashes [px on, px off]."""

    colour: str
    width: float
    dash: tuple[float, float] | None = None


@dataclass(frozen=True, slots=True)
class Look:
    """Fill, outline and hatching of a shape."""

    fill: str | None
    line: Pen | None
    hatch: Pen | None = None


@dataclass(frozen=True, slots=True)
class Font:
    """Extents of the one face that is used, in parts of its size.

    Every character of DejaVu Sans Mono is equally wide, so a text's width is known without
    looking into the font; `up` and `down` hold accents and descenders of all languages.
    Characters are set a little closer than the face has them, and a whole number of pixels
    apart: they look alike wherever they stand, and the file is smaller.
    """

    advance: float = 0.602
    closer: float = 0.03
    up: float = 0.94
    down: float = 0.24

    def step(self, size: float) -> int:
        """From one character to the next [px]."""
        return round((self.advance - self.closer) * size)

    def tracking(self, size: float) -> float:
        """What the typesetter adds to the width of a character [px] (negative)."""
        return self.step(size) - self.advance * size

    def width(self, text: str, size: float) -> float:
        """Width [px] of one line."""
        return len(text) * self.step(size)

    def height(self, size: float) -> float:
        """Height [px] of one line."""
        return (self.up + self.down) * size


FONT = Font()

INKS = {
    Ink.CONTEXT: Look("#e3e0d8", Pen(GREY, 2)),
    Ink.ASKED: Look(HONEY, Pen(BLACK, 4.5), Pen(BLACK, 2)),
    Ink.FAINT: Look("#f4f2ec", Pen("#b9b4a8", 1.5)),
    Ink.GHOST: Look(None, Pen(GREY, 2.2, (9, 7))),
    Ink.METAL: Look(BLACK, Pen(BLACK, 2.5)),
    Ink.STRIPED: Look(HONEY, Pen(BLACK, 2.5), Pen(BLACK, 5)),
}
EXTENSION = Pen(BLACK, 2)
ARROW = Pen(BLACK, 5.5)
STRUCK = Pen("#4a4a4a", 4, (11, 8))
LEADER = Pen(BLACK, 2)
CROSS = Pen(RED, 8)
HALO = Pen(WHITE, 14)
HATCH_STEP = 16.0
HEAD = (22.0, 9.5)
"""Length and half width [px] of an arrow head."""
