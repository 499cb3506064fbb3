"""Does a cut cage hang in the true hive with the true frame in it?

The musts of the trade, on true lengths; written apart from `sizing.fit`, whose chains it does
not use. z counts up from the ledge face. The cage is taken as cut to the drawing.
"""

from __future__ import annotations

from beekeepers.truth import Truth

from sizing.cage import Design
from sizing.measures import Ears, LidKind

__all__ = ["failures"]

END_CLEAR = 0.5
COMB_CLEAR = 3.0
WALL_CLEAR = 0.5
BEARING = 1.0


def _inside(design: Design, true: dict[str, float]) -> dict[str, bool]:
    """The frame in the cage."""
    cage = design.cage
    lift = float(cage.lift)
    found = {"frame_end": (float(cage.length_inside) - true["side_to_side"]) / 2 > END_CLEAR}
    if cage.drop_below_ledge is not None:
        floor = -float(cage.drop_below_ledge) + float(cage.floor_thickness)
        lowest = lift - (true["top_to_bottom"] - true["lug_thickness"])
        found["frame_bottom"] = lowest > floor
    if cage.depth_inside is not None:
        depth = float(cage.depth_inside)
        found["comb_face"] = (depth - true["comb_thickness"]) / 2 >= COMB_CLEAR
        found["wood_goes_in"] = depth > true["widest_wood"]
    return found


def _on_the_ledge(design: Design, true: dict[str, float]) -> dict[str, bool]:
    """The cage along the hive."""
    cage = design.cage
    walls, room = true["inside_along"], true["lug_room"]
    side, bar = true["side_to_side"], true["lug_to_lug"]
    outside, span = float(cage.length_outside), float(cage.ear_span)
    on_ledge = (walls + room) / 2
    if cage.ears is Ears.BESIDE_LUG:
        lug = bar - on_ledge
    else:
        lug = (bar - side) / 2 - (float(cage.length_inside) - side)
    found = {
        "hive_end": (walls - outside) / 2 >= WALL_CLEAR,
        "ear_play": room > span,
        "ear_bearing": span - on_ledge >= BEARING,
        "lug_bearing": lug >= BEARING,
    }
    if design.lid.kind is LidKind.END_OPEN:
        found["lid_end"] = room - span < float(design.wire.gap_limit)
    elif design.lid.kind is LidKind.CLOSED and design.lid.length is not None:
        lid = float(design.lid.length)
        found["lid_room"] = room > lid
        found["lug_in_lid"] = lid - 1.6 > bar
    elif design.lid.kind is LidKind.CLOSED_BETWEEN_WALLS:
        found["lid_room"] = walls > outside
    return found


def _up_and_down(design: Design, truth: Truth) -> dict[str, bool]:
    """The cage between what lies under and over this body."""
    cage, true = design.cage, truth.lengths
    if cage.drop_below_ledge is None:
        return {}
    drop = float(cage.drop_below_ledge)
    top = float(cage.height_overall) - drop
    over = true["ledge_up"]
    if design.lid.kind is LidKind.CLOSED_BETWEEN_WALLS:
        over += 1000 if truth.above == "cloth" else true["above_space"]
    return {"below": true["ledge_down"] + truth.space_below > drop, "head_room": over > top}


def failures(design: Design, truth: Truth) -> list[str]:
    """The musts that do not hold."""
    found = _inside(design, truth.lengths) | _on_the_ledge(design, truth.lengths)
    found |= _up_and_down(design, truth)
    return [name for name, holds in found.items() if not holds]
