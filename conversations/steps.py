"""The questions of the conversation, by stable names.

A name is stored in sessions and printed in the JSON contract: it never changes its
meaning. Measures keep the name they have in `sizing.measures`.
"""

from __future__ import annotations

from enum import StrEnum

from sizing.measures import Measure

__all__ = ["Asker", "Mode", "Step"]


class Step(StrEnum):
    """One question, or a place where the conversation rests."""

    LANGUAGE = "language"
    PURPOSE = "purpose"
    FRAME_NAME = "frame_name"
    SIDE_TO_SIDE = "side_to_side"
    TOP_TO_BOTTOM = "top_to_bottom"
    LUG_TO_LUG = "lug_to_lug"
    LUG_THICKNESS = "lug_thickness"
    WIDEST_WOOD = "widest_wood"
    COMB_THICKNESS = "comb_thickness"
    INSIDE_ALONG = "inside_along"
    LUG_ROOM = "lug_room"
    LEDGE_DOWN = "ledge_down"
    LEDGE_UP = "ledge_up"
    BELOW = "below"
    BELOW_SPACE = "below_space"
    FRAMES_HELD = "frames_held"
    LUG_WIDTH = "lug_width"
    ABOVE = "above"
    ABOVE_SPACE = "above_space"
    INSIDE_ACROSS = "inside_across"
    SPACING = "spacing"
    FRAMES_OUT = "frames_out"
    SPACER = "spacer"
    LID = "lid"
    MATERIAL = "material"
    PIECES = "pieces"
    TAPE = "tape"
    """The accuracy class of the tape; asked only where it settles the order."""
    CONTACT = "contact"
    READ_BACK = "read_back"
    RESTING = "resting"
    """Nothing is asked: the order is with the workshop, or there is none."""

    @property
    def measure(self) -> Measure | None:
        """The measure this question asks for; None where the answer is not a number."""
        return Measure(self.value) if self.value in _MEASURES else None


_MEASURES = frozenset(Measure)


class Asker(StrEnum):
    """Why a question is asked."""

    SCRIPT = "script"
    """It is the next one."""
    DESK = "desk"
    """The desk wants this measured once more; the first value is not shown."""
    DOUBT = "doubt"
    """It does not go with other answers; asked once more, the first value is not shown."""
    CHANGE = "change"
    """The person wants to change the answer; the old one is shown."""
    SECOND = "second"
    """A second reading of a length makes the cage surer; the first value is not shown."""


class Mode(StrEnum):
    """How the question stands: asked plainly, or about what was just typed."""

    PLAIN = "plain"
    PRECISION = "precision"
    """Whole centimetres or half inches were typed: exactly, or a few millimetres off?"""
    PROPOSE = "propose"
    """A reading is shown and waits for a yes."""
    OPTIONS = "options"
    """What was typed is not clear; what it may mean is offered, if anything."""
