"""Hangs cages that were made into hives as they are: plain geometry, many at once.

Nothing here knows of chains or probabilities: heights are counted from the ledge, up is
positive, and each check asks whether one thing clears another. Lengths are numpy arrays, mm.
"""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from sizing.cage import Design
from sizing.measures import Ears, LidKind, Request
from sizing.workshop import Figures

Many = NDArray[np.float64]
Holds = NDArray[np.bool_]


@dataclass(frozen=True)
class Made:
    """Cages as they left the bench."""

    outside: Many
    inside: Many
    depth: Many
    ears: Many
    drop: Many
    top: Many
    """Top of the lid over the ledge."""
    lid: Many
    """Inside length of a closed lid over the tips."""


SIZES = ("length", "depth", "ears", "drop", "top", "lid")


def sizes(design: Design, request: Request, figures: Figures) -> dict[str, float]:
    """The nominal size of each piece that is cut."""
    cage, lug = design.cage, request.frame.lug_thickness
    assert lug is not None
    assert cage.depth_inside is not None
    assert cage.drop_below_ledge is not None
    top = lug.value + cage.lift + cage.lid_clear + figures.lid_sheet
    lid = request.frame.lug_to_lug.value + figures.lid_over_tips
    parts = (cage.length_outside, cage.depth_inside, cage.ear_span, cage.drop_below_ledge, top, lid)
    return {name: float(size) for name, size in zip(SIZES, parts, strict=True)}


def made(design: Design, pieces: dict[str, Many]) -> Made:
    """The cages from pieces as they were cut."""
    walls = float(design.cage.length_outside - design.cage.length_inside)
    return Made(
        outside=pieces["length"],
        inside=pieces["length"] - walls,
        depth=pieces["depth"],
        ears=pieces["ears"],
        drop=pieces["drop"],
        top=pieces["top"],
        lid=pieces["lid"],
    )


def holds(design: Design, cages: Made, true: dict[str, Many], figures: Figures) -> dict[str, Holds]:
    """For every must whether it holds, cage by cage, in these frames and hives.

    `true` has the lengths of the frame, of the body, and the free space below and above it.
    """
    cage, limit = design.cage, float(design.wire.gap_limit)
    side, height = true["side_to_side"], true["top_to_bottom"]
    bar, lug = true["lug_to_lug"], true["lug_thickness"]
    walls, room = true["inside_along"], true["lug_room"]
    ledge = (room - walls) / 2
    closing, under = design.lid.kind, cage.ears is Ears.UNDER_LUG
    lug_lies_at = float(cage.lift)
    floor_lies_at = float(cage.floor_thickness) - cages.drop
    slack = cages.inside - side
    found = {
        "frame_end": slack / 2 > 0.5,
        "frame_bottom": lug_lies_at + lug - height - floor_lies_at > 0,
        "comb_face": (cages.depth - true["comb_thickness"]) / 2 >= 3,
        "hive_end": (walls - cages.outside) / 2 >= 0.5,
        "ear_play": room - cages.ears > 0,
        "ear_bearing": ledge - (room - cages.ears) >= 1,
        "lug_bearing": (bar - side) / 2 - slack >= 1 if under else ledge - (room - bar) >= 1,
        "below": true["ledge_down"] + true["below_space"] - cages.drop > 0,
    }
    over = true["ledge_up"] - cages.top
    if closing is LidKind.CLOSED_BETWEEN_WALLS:
        found["lid_room"] = walls - cages.outside > 0
        over = over + true["above_space"]
    elif closing is LidKind.CLOSED:
        found["lid_room"] = room - cages.lid - 2 * float(figures.lid_sheet) > 0
        found["lug_in_lid"] = cages.lid - bar > 0
    else:
        found["lid_end"] = room - cages.ears < limit
    found["head_room"] = over > 0
    return found


def all_hold(every: dict[str, Holds]) -> Holds:
    """Whether a cage goes in, hangs and holds."""
    together: Holds = np.logical_and.reduce(list(every.values()))
    return together
