"""The cage with its frame in its hive: cut along, cut across, and its two tight corners.

To scale, from the lengths of the request and of the design made for it. What was not
measured is drawn dashed, as it usually is, and carries no number.
"""

from __future__ import annotations

from typing import TYPE_CHECKING

from sizing.drawings.cage_corners import across, lower, upper
from sizing.drawings.cage_plan import Plan, hive, left_end, lid_ends, lid_ink, mirrored, plan_of
from sizing.drawings.parts import body_along, frame_front
from sizing.drawings.shapes import (
    Dimension,
    Ink,
    Path,
    Row,
    Scene,
    Shape,
    Side,
    View,
    moved,
    rectangle,
)

if TYPE_CHECKING:
    from sizing.cage import Design
    from sizing.measures import Request
    from sizing.workshop import Figures

__all__ = ["cage_scene"]

_CORNERS = 0.49
"""Height over width of the row of details."""


def cage_scene(request: Request, design: Design, figures: Figures) -> Scene:
    """The scene of the cage `design` [mm] in the frame and hive of `request`.

    `figures` are the workshop's with which it was designed.
    """
    plan = plan_of(request, design, figures)
    corners: tuple[View, ...] = (upper(plan), lower(plan))
    if design.cage.depth_outside is not None:
        corners = (across(plan), *corners)
    first = _tallness(plan)
    whole = first + _CORNERS
    return Scene(
        "cage", (Row((_along(plan),), first / whole), Row(corners, 1 - first / whole)), whole
    )


def _step(plan: Plan) -> float:
    """Distance [mm] between arrows one beside the other, enough for words at any scale."""
    m = plan.model
    return 0.082 * max(m.inside_along + 2 * m.wall, m.ledge_down + m.ledge_up)


def _tallness(plan: Plan) -> float:
    """Height over width that the long section needs with its arrows and words."""
    m = plan.model
    high = max(m.ledge_up, plan.lid_top) + max(plan.drop, m.ledge_down) + 3.5 * _step(plan)
    wide = m.inside_along + 2 * m.wall + 5 * _step(plan)
    return min(0.74, max(0.4, high / wide)) + 0.07


def _wires(plan: Plan) -> tuple[Shape, ...]:
    """A patch of the wires of the face, spaced as they are made."""
    row = plan.design.wire.panels[0].row
    pitch = float(row.gap) + float(plan.design.wire.diameter)
    first = -plan.end + plan.end_sheet + float(row.gap) + float(plan.design.wire.diameter) / 2
    high, low = plan.lift, -plan.drop + plan.floor
    patch = min(row.wires, int(plan.end * 0.4 / pitch))
    return tuple(
        Path(((first + i * pitch, low), (first + i * pitch, high)), Ink.FAINT, "wire")
        for i in range(patch)
    )


def _along(plan: Plan) -> View:
    m = plan.model
    left = left_end(plan, -plan.drop)
    tip, _ = lid_ends(plan)
    shapes = (
        *hive(plan, body_along(m)),
        *moved(frame_front(m), 0, plan.lift),
        *_wires(plan),
        *left,
        *mirrored(left),
        rectangle(-plan.end, -plan.drop, plan.end, -plan.drop + plan.floor, "floor", Ink.METAL),
        rectangle(-tip, plan.lid_under, tip, plan.lid_top, "lid", lid_ink(plan)),
    )
    sizes = (*_frame_sizes(plan), *_cage_sizes(plan), *_hive_sizes(plan))
    return View(shapes, sizes, caption="picture.cage.along")


def _frame_sizes(plan: Plan) -> tuple[Dimension, ...]:
    m, lengths = plan.model, plan.lengths
    half, lug = m.side_to_side / 2, m.lug_to_lug / 2
    top, low = plan.frame_top, plan.frame_bottom
    bars = ("left_side_bar", "right_side_bar")
    at = low + m.top_to_bottom * 0.24
    return (
        Dimension(
            (-half, at), (half, at), bars, length=lengths.side_to_side,
            words=Side.ON,
        ),
        Dimension(
            (half * 0.55, top), (half * 0.55, low), ("top_bar", "bottom_bar"),
            length=lengths.top_to_bottom, upright=True, words=Side.ON,
        ),
        Dimension(
            (-lug, top), (lug, top), ("top_bar", "top_bar"), "picture.cage.frame",
            lengths.lug_to_lug, at=max(m.ledge_up, plan.lid_top) + 18, words=Side.ON,
        ),
    )  # fmt: skip


def _cage_sizes(plan: Plan) -> tuple[Dimension, ...]:
    cage, low = plan.design.cage, -plan.drop
    foot = min(low, -plan.model.ledge_down)
    outer = plan.model.inside_along / 2 + plan.model.wall
    return (
        Dimension(
            (-plan.end, low), (plan.end, low), ("cage_end", "cage_end"), "picture.cage.cage",
            cage.length_outside, at=foot - 20, words=Side.ON,
        ),
        Dimension(
            (plan.end, plan.lid_top), (plan.end, low), ("lid", "floor"), "picture.cage.cage",
            cage.height_overall, upright=True, at=outer + 16, words=Side.RIGHT,
        ),
    )  # fmt: skip


def _hive_sizes(plan: Plan) -> tuple[Dimension, ...]:
    m, lengths = plan.model, plan.lengths
    inner, ledge, walls = m.inside_along / 2, m.lug_room / 2, ("left_wall", "right_wall")
    low = -m.ledge_down
    sizes = []
    if lengths.inside_along is not None:
        foot = min(low, -plan.drop) - 20 - _step(plan)
        sizes.append(
            Dimension(
                (-inner, low), (inner, low), walls, "picture.cage.hive", lengths.inside_along,
                at=foot, words=Side.ON,
            )
        )  # fmt: skip
    if lengths.lug_room is not None:
        over = max(m.ledge_up, plan.lid_top) + 18 + _step(plan)
        sizes.append(
            Dimension(
                (-ledge, m.ledge_up), (ledge, m.ledge_up), walls, "picture.cage.hive",
                lengths.lug_room, at=over, words=Side.ON,
            )
        )  # fmt: skip
    if lengths.ledge_down is not None:
        sizes.append(
            Dimension(
                (-ledge, 0), (-inner, low), ("left_wall", "left_wall"), "picture.cage.hive",
                lengths.ledge_down, upright=True, at=-inner - m.wall - 16,
                words=Side.LEFT,
            )
        )  # fmt: skip
    return tuple(sizes)
