"""The frame and hive body that every how-to-measure picture shows.

One set of real lengths, so that all pictures show the same thing: a 360 x 260 frame in a body
of 375 x 375 x 270. Frame, body, bars and shoulders as in the Polish Wielkopolska hive
(ApisWiki, Ul wielkopolski; Polish Wikibooks, Ul wielkopolski). The rest (walls, ledge, comb,
floor) is what such a hive usually has; it is drawn, never calculated with.
"""

from __future__ import annotations

from dataclasses import dataclass

__all__ = ["MODEL", "Model"]


@dataclass(frozen=True, slots=True)
class Model:
    """Lengths [mm] of what is shown; z = 0 is the face on which the lugs lie."""

    side_to_side: float = 360
    top_to_bottom: float = 260
    lug_to_lug: float = 391
    lug_thickness: float = 10
    top_bar_thickness: float = 10
    top_bar_width: float = 25
    bar: float = 10
    widest_wood: float = 35
    shoulder_length: float = 90
    comb_thickness: float = 27
    inside_along: float = 375
    inside_across: float = 375
    lug_room: float = 393
    ledge_down: float = 253
    ledge_up: float = 17
    wall: float = 28
    below_space: float = 20
    above_space: float = 9
    frames: int = 10

    @property
    def top(self) -> float:
        """Height [mm] of the top bar's top face over the ledge."""
        return self.lug_thickness

    @property
    def bottom(self) -> float:
        """Height [mm] of the frame's lowest wood over the ledge (negative)."""
        return self.lug_thickness - self.top_to_bottom


MODEL = Model()
