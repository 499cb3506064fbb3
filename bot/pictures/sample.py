"""An invented order to show what a cage picture looks like."""

from __future__ import annotations

from fractions import Fraction

from sizing.measures import Above, Below, Frame, Hive, Length, Purpose, Request, Spacer

__all__ = ["SAMPLE"]


def _mm(*readings: str) -> Length:
    return Length(tuple(Fraction(reading) for reading in readings))


SAMPLE = Request(
    purpose=Purpose.ISOLATE,
    frame=Frame(
        side_to_side=_mm("360"),
        top_to_bottom=_mm("260"),
        lug_to_lug=_mm("391"),
        lug_thickness=_mm("10"),
        top_bar_thickness=_mm("10"),
        lug_width=_mm("25"),
        widest_wood=_mm("35"),
        comb_thickness=_mm("27"),
    ),
    hive=Hive(
        inside_along=_mm("375"),
        lug_room=_mm("393", "393.5"),
        ledge_down=_mm("253"),
        ledge_up=_mm("17"),
        below=Below.BOX,
        above=Above.BOX,
        inside_across=_mm("375"),
        spacer=Spacer.SHOULDERS,
        frames_held=10,
    ),
)
"""A 360 x 260 frame in a body of 375 x 375 x 270."""
