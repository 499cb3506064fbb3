"""The details of the cage picture: its corners at ledge and bottom, and the cut across.

Here the gaps are seen; one that is tight or fails carries words, not only a number.
"""

from __future__ import annotations

from dataclasses import replace

from sizing.accepted import space_below
from sizing.drawings.cage_plan import Plan, hive, left_end, lid_ends, lid_ink
from sizing.drawings.parts import (
    body_corner,
    body_foot,
    comb_end,
    frame_corner,
    frame_end,
    frame_foot,
    torn,
)
from sizing.drawings.shapes import (
    Area,
    Dimension,
    Ink,
    Path,
    Point,
    Shape,
    Side,
    View,
    moved,
    rectangle,
)
from sizing.fit import GapVerdict
from sizing.measures import GapName, LidKind, Spacer

__all__ = ["across", "lower", "upper"]

_CUT = 46.0
"""How much [mm] of the upright parts a corner shows."""
_OPEN = 12.0
"""From this gap [mm] on an arrow has room between the faces."""
_REACH = 62.0
"""How much [mm] of the lying parts a corner shows."""


def _gap(
    plan: Plan, name: GapName, start: Point, end: Point, parts: tuple[str, str], words: Side
) -> tuple[Dimension, ...]:
    """The arrow of one gap, set off where it is tight; none while it is open."""
    found = next((gap for gap in plan.design.gaps if gap.gap is name), None)
    if found is None or found.nominal is None:
        return ()
    label = {
        GapVerdict.TIGHT: "picture.cage.tight",
        GapVerdict.FAILS: "picture.cage.fails",
    }.get(found.verdict)
    upright = start[0] == end[0]
    if start == end:
        end = (end[0], end[1] + 0.05) if upright else (end[0] + 0.05, end[1])
    return (
        Dimension(
            start, end, parts, label, found.nominal, upright=upright, words=words,
            tight=label is not None, inward=abs(found.nominal) < _OPEN,
        ),
    )  # fmt: skip


def upper(plan: Plan) -> View:
    """The corner at the ledge: end of the cage, ear, lug and lid."""
    m = replace(plan.model, wall=14.0)
    inner, half = m.inside_along / 2, m.side_to_side / 2
    tip, _ = lid_ends(plan)
    stop = _REACH - m.lug_to_lug / 2
    shapes: tuple[Shape, ...] = (
        *hive(plan, body_corner(m, _CUT)),
        *moved(frame_corner(m, _CUT, _REACH), 0, plan.lift),
        *left_end(plan, -_CUT),
        rectangle(-tip, plan.lid_under, stop, plan.lid_top, "lid", lid_ink(plan)),
    )
    inside, at = -plan.end + plan.end_sheet, stop - 12
    gaps = _gap(plan, GapName.FRAME_END, (inside, -31), (-half, -31),
                ("cage_end", "left_side_bar"), Side.RIGHT)  # fmt: skip
    if plan.lengths.inside_along is not None:
        gaps += _gap(plan, GapName.HIVE_END, (-inner, -12), (-plan.end, -12),
                     ("left_wall", "cage_end"), Side.RIGHT)  # fmt: skip
    if plan.design.lid.kind in (LidKind.END_OPEN, LidKind.CLOSED):
        head = _gap(plan, GapName.HEAD_ROOM, (at, plan.lid_top), (at, m.ledge_up),
                    ("lid", "rim"), Side.ABOVE)  # fmt: skip
        if head:
            rim = Path(((-m.lug_room / 2, m.ledge_up), (stop, m.ledge_up)), Ink.GHOST, "rim")
            shapes, gaps = (*shapes, rim), (*gaps, *head)
    return View(shapes, gaps, caption="picture.cage.upper", share=1.1)


def lower(plan: Plan) -> View:
    """The corner at the bottom: frame, floor of the cage, and what lies below."""
    m = replace(plan.model, wall=14.0)
    half, low = m.side_to_side / 2, -plan.drop
    stop = _REACH - half
    height = _CUT + max(0.0, -m.ledge_down - low)
    shapes: tuple[Shape, ...] = (
        *hive(plan, body_foot(m, height)),
        *moved(frame_foot(m, _CUT - 8, _REACH), 0, plan.lift),
        rectangle(-plan.end, low, -plan.end + plan.end_sheet, low + _CUT, "cage_end", Ink.METAL),
        rectangle(-plan.end, low, stop, low + plan.floor, "floor", Ink.METAL),
    )
    at = -half + 24
    gaps = _gap(plan, GapName.FRAME_BOTTOM, (at, plan.frame_bottom), (at, low + plan.floor),
                ("bottom_bar", "floor"), Side.ABOVE)  # fmt: skip
    space = space_below(plan.lengths).value
    if space is not None and plan.lengths.ledge_down is not None:
        ground = -m.ledge_down - float(space)
        edge = torn((stop, ground - 10), (stop, ground), 2)
        shapes = (
            *shapes,
            Area(((-half - 10, ground - 10), *edge, (-half - 10, ground)), part="below"),
        )
        gaps += _gap(plan, GapName.BELOW, (at + 22, low), (at + 22, ground),
                     ("floor", "below"), Side.BELOW)  # fmt: skip
    return View(shapes, gaps, caption="picture.cage.lower", share=1.1)


def across(plan: Plan) -> View:
    """The cage cut across, its height shortened: comb, wood and wires."""
    cage = plan.design.cage
    assert cage.depth_inside is not None
    assert cage.depth_outside is not None
    m = replace(plan.model, top_to_bottom=86.0, shoulder_length=40.0)
    inside, outside = float(cage.depth_inside) / 2, float(cage.depth_outside) / 2
    low = m.bottom + plan.lift - float(cage.gap_under) - plan.floor
    spacer = plan.lengths.spacer or Spacer.SHOULDERS
    comb = comb_end(m)
    fattest = max(comb.points)
    shapes = (
        *moved((*frame_end(spacer, m), comb), 0, plan.lift),
        *(
            rectangle(min(x, y), low, max(x, y), plan.frame_top, part, Ink.METAL)
            for x, y, part in (
                (-outside, -inside, "left_face"), (inside, outside, "right_face"),
            )
        ),
        rectangle(-outside, low, outside, low + plan.floor, "floor", Ink.METAL),
        rectangle(-outside, plan.lid_under, outside, plan.lid_top, "lid", Ink.METAL),
    )  # fmt: skip
    at = fattest[1] + plan.lift
    sizes = (
        Dimension(
            (-outside, low), (outside, low), ("left_face", "right_face"),
            length=cage.depth_outside, at=low - 9, words=Side.BELOW,
        ),
        Dimension(
            (-fattest[0], at), (fattest[0], at), ("comb", "comb"),
            length=plan.lengths.comb_thickness, at=plan.lid_top + 9,
        ),
    )  # fmt: skip
    gap = _gap(plan, GapName.COMB_FACE, (fattest[0], at), (inside, at),
               ("comb", "right_face"), Side.RIGHT)  # fmt: skip
    return View(shapes, (*sizes, *gap), caption="picture.cage.across", share=0.8)
