"""What is measured and what is chosen: the words of the trade, one name each.

Axes: along = along the top bar, down = vertical, across = from comb to comb.
All lengths are exact millimetres (`sizing.units.Mm`). The names are those of the
JSON contract, of the texts, the tables and the drawings.
"""

from __future__ import annotations

from dataclasses import dataclass, field
from enum import StrEnum
from fractions import Fraction

from sizing.units import Mm

__all__ = [
    "COUNTS", "FRAME_LENGTHS", "HIVE_LENGTHS", "Above", "Below", "Ears", "Floor", "Frame",
    "GapName", "Hive", "Length", "LidChoice", "LidKind", "Material", "Measure", "MeasuredWith",
    "Purpose", "Request", "Spacer", "Tape",
]  # fmt: skip


class Measure(StrEnum):
    """Everything that is answered with a number: lengths first, then counts."""

    SIDE_TO_SIDE = "side_to_side"
    """S: outside of one side bar to outside of the other, widest place, no lugs."""
    TOP_TO_BOTTOM = "top_to_bottom"
    """H: top face of the top bar to the lowest wood."""
    LUG_TO_LUG = "lug_to_lug"
    """L: tip of one lug to tip of the other, along the top bar."""
    LUG_THICKNESS = "lug_thickness"
    """u: level of the top bar's top face to the face on which the lug lies."""
    TOP_BAR_THICKNESS = "top_bar_thickness"
    """t: top face to underside of the top bar between the side bars."""
    LUG_WIDTH = "lug_width"
    """Across the lug; needed only where a lid goes round it."""
    WIDEST_WOOD = "widest_wood"
    """W: through the frame, face to face, where the wood is widest."""
    COMB_THICKNESS = "comb_thickness"
    """C: through the comb at its fattest."""
    INSIDE_ALONG = "inside_along"
    """A: inner wall to opposite inner wall, along the frame, below the ledge."""
    LUG_ROOM = "lug_room"
    """R: what stops one lug to what stops the other, at ledge height."""
    LEDGE_DOWN = "ledge_down"
    """D: face on which the lug lies to the lower edge of this hive body."""
    LEDGE_UP = "ledge_up"
    """U: the same face to the upper edge of this hive body."""
    BELOW_SPACE = "below_space"
    """Lower edge of this body to the first hard thing under it."""
    ABOVE_SPACE = "above_space"
    """Rim of this body to the first hard thing above, inside the walls."""
    INSIDE_ACROSS = "inside_across"
    """Inner wall to inner wall, across the frames."""
    SPACING = "spacing"
    """Centre to centre of two frames pushed together."""
    FRAMES_HELD = "frames_held"
    """N: places for frames in the body (a count)."""
    FRAMES_OUT = "frames_out"
    """k: places given up, the caged frame's own included (a count, at least 1)."""
    PIECES = "pieces"
    """How many of this cage (a count)."""


FRAME_LENGTHS: tuple[Measure, ...] = (
    Measure.SIDE_TO_SIDE, Measure.TOP_TO_BOTTOM, Measure.LUG_TO_LUG, Measure.LUG_THICKNESS,
    Measure.TOP_BAR_THICKNESS, Measure.LUG_WIDTH, Measure.WIDEST_WOOD, Measure.COMB_THICKNESS,
)  # fmt: skip
HIVE_LENGTHS: tuple[Measure, ...] = (
    Measure.INSIDE_ALONG, Measure.LUG_ROOM, Measure.LEDGE_DOWN, Measure.LEDGE_UP,
    Measure.BELOW_SPACE, Measure.ABOVE_SPACE, Measure.INSIDE_ACROSS, Measure.SPACING,
)  # fmt: skip
COUNTS: tuple[Measure, ...] = (Measure.FRAMES_HELD, Measure.FRAMES_OUT, Measure.PIECES)


class Purpose(StrEnum):
    """What the wire must stop."""

    ISOLATE = "isolate"
    """Hold the queen on this comb while workers pass."""
    INTRODUCE = "introduce"
    """Keep queen and workers apart while a new queen is introduced."""


class LidChoice(StrEnum):
    """Which lid is asked for; `auto` leaves it to the rules."""

    AUTO = "auto"
    END_OPEN = "end-open"
    CLOSED = "closed"
    CLOSED_BETWEEN_WALLS = "closed-between-walls"


class LidKind(StrEnum):
    """Which lid the cage gets."""

    END_OPEN = "end-open"
    """Closed along the two long sides; its ends are closed by the hive once it hangs."""
    CLOSED = "closed"
    """Closed on all four sides, over the lug tips."""
    CLOSED_BETWEEN_WALLS = "closed-between-walls"
    """Closed on all four sides, as long as the cage, notched round the lugs."""
    OPEN_QUESTION = "open-question"
    """A length that decides it is missing."""


class Ears(StrEnum):
    """Where the ear of the cage lies on the ledge of the hive."""

    UNDER_LUG = "under-lug"
    BESIDE_LUG = "beside-lug"


class Floor(StrEnum):
    """What closes the cage underneath."""

    WIRED = "wired"
    FLAT = "flat"
    """One flat stiffened sheet, where the stack is tight."""


class GapName(StrEnum):
    """Every gap that is worked out, in the order in which it is shown."""

    FRAME_END = "frame_end"
    """Side bar to the end wall of the cage, at each end."""
    FRAME_BOTTOM = "frame_bottom"
    """Lowest wood to the floor of the cage."""
    COMB_FACE = "comb_face"
    """Comb to the wire, at each face."""
    HIVE_END = "hive_end"
    """End of the cage to the hive wall, at each end."""
    EAR_PLAY = "ear_play"
    """Play of the ears along the ledge, both ends together."""
    EAR_BEARING = "ear_bearing"
    """Length of ear left on the ledge when the cage is pushed over."""
    LUG_BEARING = "lug_bearing"
    """Length of lug left on what carries it when the frame is pushed over."""
    LID_END = "lid_end"
    """Opening at one end of an end-open lid when the cage is pushed over."""
    LID_ROOM = "lid_room"
    """Room for a closed lid along the frame, both ends together."""
    LUG_IN_LID = "lug_in_lid"
    """Lug tips to the inside of a closed lid, both ends together."""
    BELOW = "below"
    """Lowest point of the cage to the first hard thing under it."""
    HEAD_ROOM = "head_room"
    """Top of the lid to the first hard thing above it."""
    ACROSS = "across"
    """Room left across the frames; decides nothing, one more frame out cures it."""


class Material(StrEnum):
    """Sheet the frame of the cage is made of."""

    GALVANISED = "galvanised"
    ALUMINIUM_ZINC = "aluminium-zinc"


class Below(StrEnum):
    """What stands under this hive body."""

    BOX = "box"
    FLOOR = "floor"


class Above(StrEnum):
    """What lies on top of this hive body."""

    BOX = "box"
    COVER = "cover"
    CLOTH = "cloth"


class Spacer(StrEnum):
    """How frames keep their distance."""

    STRAIGHT = "straight"
    SHOULDERS = "shoulders"
    PINS = "pins"
    LOOSE = "loose"


class Tape(StrEnum):
    """Accuracy class printed on the tape (Directive 2014/32/EU, Annex X)."""

    I = "I"  # noqa: E741 - the class is called I in the directive
    II = "II"
    III = "III"
    UNKNOWN = "unknown"


@dataclass(frozen=True, slots=True)
class MeasuredWith:
    """Tape class and smallest step read [mm]; the default for plain numbers."""

    tape: Tape = Tape.UNKNOWN
    step: Mm = Fraction(1)


@dataclass(frozen=True, slots=True)
class Length:
    """One measured length: one or more readings [mm] which count as their mean.

    `step` [mm] and `plus_minus` [mm] are those of these readings, where they differ from
    what the whole request was measured with.
    """

    readings: tuple[Mm, ...]
    step: Mm | None = None
    plus_minus: Mm | None = None

    @property
    def value(self) -> Mm:
        """The accepted reading [mm]: the mean of the readings."""
        return sum(self.readings, Fraction(0)) / len(self.readings)


@dataclass(frozen=True, slots=True)
class Frame:
    """The lengths of one frame; what is None was not measured."""

    side_to_side: Length
    top_to_bottom: Length
    lug_to_lug: Length
    lug_thickness: Length | None = None
    top_bar_thickness: Length | None = None
    lug_width: Length | None = None
    widest_wood: Length | None = None
    comb_thickness: Length | None = None


@dataclass(frozen=True, slots=True)
class Hive:
    """The lengths of the hive body the frame hangs in; what is None was not measured."""

    inside_along: Length | None = None
    lug_room: Length | None = None
    ledge_down: Length | None = None
    ledge_up: Length | None = None
    below: Below | None = None
    below_space: Length | None = None
    above: Above | None = None
    above_space: Length | None = None
    inside_across: Length | None = None
    spacing: Length | None = None
    spacer: Spacer | None = None
    frames_held: int | None = None
    frames_out: int | None = None


@dataclass(frozen=True, slots=True)
class Request:
    """What one cage is to be made for.

    `left_to_us` names the choices nobody made (`lid`, `material`, `pieces`): they stand at
    the workshop's default here and are listed as assumed in the result.
    """

    purpose: Purpose
    frame: Frame
    hive: Hive = field(default_factory=Hive)
    lid: LidChoice = LidChoice.AUTO
    material: Material = Material.GALVANISED
    pieces: int = 1
    measured_with: MeasuredWith = field(default_factory=MeasuredWith)
    left_to_us: tuple[str, ...] = ()
