"""The sheet to take to the hive: every measure with its picture and a field, on one sheet of A4."""

from __future__ import annotations

from typing import Any

from bot.paperwork.speech import Speech
from bot.pictures.layout import compose
from bot.pictures.renderer import sheet_parts
from conversations.script import QUESTIONS, Kind
from conversations.steps import Step
from sizing.drawings import scene_of

__all__ = ["BACK", "FRONT", "measuring_sheet_data"]

FRONT = (
    Step.SIDE_TO_SIDE, Step.TOP_TO_BOTTOM, Step.LUG_TO_LUG, Step.LUG_THICKNESS,
    Step.WIDEST_WOOD, Step.COMB_THICKNESS, Step.INSIDE_ALONG, Step.LUG_ROOM,
    Step.LEDGE_DOWN, Step.LEDGE_UP,
)  # fmt: skip
"""What is always asked, in the order in which it is asked."""
BACK = (
    Step.PURPOSE, Step.BELOW, Step.BELOW_SPACE, Step.FRAMES_HELD, Step.LUG_WIDTH, Step.ABOVE,
    Step.ABOVE_SPACE, Step.INSIDE_ACROSS, Step.SPACING, Step.FRAMES_OUT, Step.SPACER, Step.LID,
)  # fmt: skip


def measuring_sheet_data(speech: Speech) -> dict[str, Any]:
    """The sheet in one language for its template."""
    return {
        "title": speech("paper.measuring"),
        "how": speech("paper.measuring.how"),
        "fields": [speech(f"paper.measuring.{name}") for name in ("frame", "hive", "day")],
        "caution": speech("paper.measuring.caution"),
        "front": [_ask(step, speech) for step in FRONT],
        "back": [_ask(step, speech) for step in BACK],
    }


def _ask(step: Step, speech: Speech) -> dict[str, Any]:
    question = QUESTIONS[step]
    choices = question.choices if question.kind is Kind.CHOICE else ()
    return {
        "title": speech(f"{step}.title"),
        "how": speech(f"{step}.from_to"),
        "units": ["mm", "mm"] if question.kind is Kind.LENGTH else [""],
        "choices": [speech(f"{step}.choice.{choice}") for choice in choices],
        "picture": sheet_parts(compose(scene_of(step.value), speech.language)),
    }
