"""What is drawn of a cage in its hive, as plain numbers, and the parts that views share."""

from __future__ import annotations

from dataclasses import dataclass, replace
from typing import TYPE_CHECKING

from sizing.accepted import accept
from sizing.drawings.model import MODEL, Model
from sizing.drawings.shapes import (
    Area,
    Ink,
    Point,
    Shape,
    inked,
    rectangle,
)
from sizing.measures import Ears, LidKind

if TYPE_CHECKING:
    from sizing.accepted import Accepted
    from sizing.cage import Design
    from sizing.measures import Request
    from sizing.units import Mm
    from sizing.workshop import Figures

__all__ = ["Plan", "hive", "left_end", "lid_ends", "lid_ink", "mirrored", "plan_of"]


@dataclass(frozen=True, slots=True)
class Plan:
    """Everything that is drawn, in mm; z = 0 on the ledge."""

    lengths: Accepted
    design: Design
    model: Model
    hive_known: bool
    end: float
    drop: float
    end_sheet: float
    lid_sheet: float

    @property
    def lift(self) -> float:
        """How far [mm] the ear lifts the frame off the ledge."""
        return float(self.design.cage.lift)

    @property
    def floor(self) -> float:
        """Thickness [mm] of the cage's floor."""
        return float(self.design.cage.floor_thickness)

    @property
    def frame_top(self) -> float:
        """Height [mm] of the top bar's top face over the ledge."""
        return self.model.top + self.lift

    @property
    def frame_bottom(self) -> float:
        """Height [mm] of the frame's lowest wood over the ledge (negative)."""
        return self.model.bottom + self.lift

    @property
    def lid_under(self) -> float:
        """Height [mm] of the lid's underside over the ledge."""
        return self.frame_top + float(self.design.cage.lid_clear)

    @property
    def lid_top(self) -> float:
        """Height [mm] of the lid's top over the ledge."""
        return self.lid_under + self.lid_sheet

    @property
    def ear_tip(self) -> float:
        """Distance [mm] of the tip of the ear from the middle."""
        return float(self.design.cage.ear_span) / 2


def plan_of(request: Request, design: Design, figures: Figures) -> Plan:
    """The lengths [mm] that are drawn; what the request lacks as it usually is."""
    lengths = accept(request)
    frame = replace(
        MODEL,
        side_to_side=float(lengths.side_to_side),
        top_to_bottom=float(lengths.top_to_bottom),
        lug_to_lug=float(lengths.lug_to_lug),
        lug_thickness=_or(lengths.lug_thickness, MODEL.lug_thickness),
    )
    frame = replace(frame, top_bar_thickness=max(frame.lug_thickness, 10.0))
    inside = _or(lengths.inside_along, frame.side_to_side + 15)
    model = replace(
        frame,
        inside_along=inside,
        lug_room=_or(lengths.lug_room, max(frame.lug_to_lug + 2, inside + 8)),
        ledge_down=_or(lengths.ledge_down, frame.top_to_bottom - frame.lug_thickness + 3),
        ledge_up=_or(lengths.ledge_up, frame.lug_thickness + 7),
        comb_thickness=_or(lengths.comb_thickness, MODEL.comb_thickness),
        widest_wood=_or(lengths.widest_wood, MODEL.widest_wood),
    )
    cage = design.cage
    drop = frame.top_to_bottom - frame.lug_thickness - float(cage.lift)
    return Plan(
        lengths=lengths,
        design=design,
        model=model,
        hive_known=None
        not in (lengths.inside_along, lengths.lug_room, lengths.ledge_down, lengths.ledge_up),
        end=float(cage.length_outside) / 2,
        drop=drop + float(cage.gap_under) + float(cage.floor_thickness),
        end_sheet=float(figures.end_sheet),
        lid_sheet=float(figures.lid_sheet),
    )


def _or(value: Mm | None, usual: float) -> float:
    return usual if value is None else float(value)


def hive(plan: Plan, shapes: tuple[Shape, ...]) -> tuple[Shape, ...]:
    """The shapes of the hive, dashed where it was not measured."""
    return shapes if plan.hive_known else inked(shapes, Ink.GHOST)


def lid_ends(plan: Plan) -> tuple[float, tuple[Point, ...]]:
    """Where the left end of the lid lies [mm], and the outline of its end wall if it has one."""
    kind, q = plan.design.lid.kind, plan.lid_sheet
    if kind is LidKind.CLOSED:
        length = plan.design.lid.length
        tip = plan.model.lug_to_lug / 2 + q if length is None else float(length) / 2
        low = plan.lift
    elif kind is LidKind.CLOSED_BETWEEN_WALLS:
        tip, low = plan.end, plan.frame_top + float(plan.design.lid.notch_over_lug or 0)
    else:
        return plan.ear_tip, ()
    return tip, ((-tip, low), (-tip + q, low), (-tip + q, plan.lid_top), (-tip, plan.lid_top))


def mirrored(shapes: tuple[Shape, ...]) -> tuple[Shape, ...]:
    """The same shapes at the other end."""
    return tuple(replace(s, points=tuple((-x, y) for x, y in s.points)) for s in shapes)


def left_end(plan: Plan, low: float) -> tuple[Shape, ...]:
    """End wall down to `low` [mm], ear, and the end of the lid, at the left."""
    ear_top = plan.lift if plan.design.cage.ears is Ears.UNDER_LUG else plan.end_sheet
    shapes: list[Shape] = [
        rectangle(-plan.end, low, -plan.end + plan.end_sheet, ear_top, "cage_end", Ink.METAL),
        rectangle(-plan.ear_tip, 0, -plan.end, ear_top, "ear", Ink.METAL),
    ]
    _, wall = lid_ends(plan)
    if wall:
        shapes.append(Area(wall, Ink.METAL, "lid"))
    return tuple(shapes)


def lid_ink(plan: Plan) -> Ink:
    """Dashed while it is open which lid the cage gets."""
    return Ink.GHOST if plan.design.lid.kind is LidKind.OPEN_QUESTION else Ink.METAL
