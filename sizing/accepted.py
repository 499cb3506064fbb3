"""The accepted lengths of one request, and what is assumed for those that are missing."""

from __future__ import annotations

from dataclasses import dataclass, fields
from typing import TYPE_CHECKING

from sizing.measures import Above, Below, Frame, Hive, Length, Measure, Spacer

if TYPE_CHECKING:
    from fractions import Fraction

    from sizing.measures import Request
    from sizing.units import Mm

__all__ = ["ASKED", "Accepted", "Assumed", "Known", "accept", "pitch", "space_above", "space_below"]

ASKED: tuple[str, ...] = tuple(field.name for kind in (Frame, Hive) for field in fields(kind))
"""Names of everything a request can say about frame and hive, in the order of the contract."""

SAME_KIND = "box-of-the-same-kind"
WORKSHOP_DEFAULT = "workshop-default"


@dataclass(frozen=True, slots=True)
class Assumed:
    """A value that was not given and is used all the same, and where it comes from."""

    measure: str
    value: Fraction | str
    source: str


@dataclass(frozen=True, slots=True)
class Known:
    """A length as far as it is known: its value [mm], or the names that are missing for it.

    `unlimited`: nothing hard stands there at all. `name` is the measure the value came from.
    """

    name: str
    value: Mm | None
    missing: tuple[str, ...] = ()
    assumed: Assumed | None = None
    unlimited: bool = False


@dataclass(frozen=True, slots=True)
class Accepted:
    """The accepted readings [mm] and counts; None = not given."""

    side_to_side: Mm
    top_to_bottom: Mm
    lug_to_lug: Mm
    lug_thickness: Mm | None
    lug_width: Mm | None
    widest_wood: Mm | None
    comb_thickness: Mm | None
    inside_along: Mm | None
    lug_room: Mm | None
    ledge_down: Mm | None
    ledge_up: Mm | None
    below: Below | None
    below_space: Mm | None
    above: Above | None
    above_space: Mm | None
    inside_across: Mm | None
    spacing: Mm | None
    spacer: Spacer | None
    frames_held: int | None
    frames_out: int | None

    @property
    def rise(self) -> Mm | None:
        """How far the top bar lies below the rim [mm]; None where a length is missing."""
        if self.ledge_up is None or self.lug_thickness is None:
            return None
        return self.ledge_up - self.lug_thickness

    @property
    def hang(self) -> Mm | None:
        """How far the frame ends above the body's lower edge [mm]; None likewise."""
        if self.ledge_down is None or self.lug_thickness is None:
            return None
        return self.ledge_down - (self.top_to_bottom - self.lug_thickness)

    def lacking(self, *names: Measure) -> tuple[str, ...]:
        """Those of `names` that were not given."""
        return tuple(name.value for name in names if getattr(self, name) is None)


def accept(request: Request) -> Accepted:
    """The mean of the readings [mm] of every length of `request`, and its counts and choices."""

    def value(length: Length | None) -> Mm | None:
        return None if length is None else length.value

    frame, hive = request.frame, request.hive
    return Accepted(
        side_to_side=frame.side_to_side.value,
        top_to_bottom=frame.top_to_bottom.value,
        lug_to_lug=frame.lug_to_lug.value,
        lug_thickness=value(frame.lug_thickness),
        lug_width=value(frame.lug_width),
        widest_wood=value(frame.widest_wood),
        comb_thickness=value(frame.comb_thickness),
        inside_along=value(hive.inside_along),
        lug_room=value(hive.lug_room),
        ledge_down=value(hive.ledge_down),
        ledge_up=value(hive.ledge_up),
        below=hive.below,
        below_space=value(hive.below_space),
        above=hive.above,
        above_space=value(hive.above_space),
        inside_across=value(hive.inside_across),
        spacing=value(hive.spacing),
        spacer=hive.spacer,
        frames_held=hive.frames_held,
        frames_out=hive.frames_out,
    )


def space_below(lengths: Accepted) -> Known:
    """From the lower edge of this body to the first hard thing under it [mm].

    Over a box of the same kind its frames lie as far below its rim as these: this body's
    own rise is assumed.
    """
    name = Measure.BELOW_SPACE.value
    if lengths.below_space is not None:
        return Known(name, lengths.below_space)
    if lengths.below is None:
        return Known(name, None, ("below",))
    if lengths.below is Below.FLOOR:
        return Known(name, None, (name,))
    rise = lengths.rise
    if rise is None:
        return Known(name, None, lengths.lacking(Measure.LUG_THICKNESS, Measure.LEDGE_UP))
    return Known(name, rise, assumed=Assumed(name, rise, SAME_KIND))


def space_above(lengths: Accepted) -> Known:
    """From the rim of this body to the first hard thing above it, inside the walls [mm].

    Under a box of the same kind its frames hang as far above the rim as these above their
    lower edge: this body's own hang is assumed. Cloth gives way: no limit.
    """
    name = Measure.ABOVE_SPACE.value
    if lengths.above_space is not None:
        return Known(name, lengths.above_space)
    if lengths.above is None:
        return Known(name, None, ("above",))
    if lengths.above is Above.CLOTH:
        return Known(name, None, unlimited=True)
    if lengths.above is Above.COVER:
        return Known(name, None, (name,))
    hang = lengths.hang
    if hang is None:
        return Known(name, None, lengths.lacking(Measure.LUG_THICKNESS, Measure.LEDGE_DOWN))
    return Known(name, hang, assumed=Assumed(name, hang, SAME_KIND))


def pitch(lengths: Accepted) -> Known:
    """Centre to centre of two neighbouring frames [mm].

    Measured, or the widest wood of frames that touch by shoulders or pins. Shoulders are
    assumed where nothing was said.
    """
    if lengths.spacing is not None:
        return Known(Measure.SPACING, lengths.spacing)
    assumed = None
    if lengths.spacer is None:
        assumed = Assumed("spacer", Spacer.SHOULDERS.value, WORKSHOP_DEFAULT)
    if lengths.spacer in (Spacer.STRAIGHT, Spacer.LOOSE):
        return Known(Measure.SPACING, None, (Measure.SPACING.value,))
    missing = lengths.lacking(Measure.WIDEST_WOOD)
    return Known(Measure.WIDEST_WOOD, lengths.widest_wood, missing, assumed)
