"""The look holds in black and white."""

from __future__ import annotations

import pytest

from bot.pictures.style import FONT, INKS
from sizing.drawings.shapes import Ink


def test_every_ink_has_a_look() -> None:
    """A shape of any ink can be drawn."""
    assert set(INKS) == set(Ink)


def test_what_is_asked_stands_out_without_colour() -> None:
    """Its outline is at least twice as thick as that of its surroundings, and it is hatched."""
    asked, context = INKS[Ink.ASKED], INKS[Ink.CONTEXT]
    assert asked.line is not None
    assert context.line is not None
    assert asked.line.width >= 2 * context.line.width
    assert asked.hatch is not None
    assert context.hatch is None


@pytest.mark.parametrize("size", [22.0, 23.0, 27.0])
def test_characters_stand_whole_pixels_apart(size: float) -> None:
    """A line is as wide as its characters together, and slightly closer than the face has it."""
    assert FONT.width("abcd", size) == 4 * FONT.step(size)
    assert -0.06 * size < FONT.tracking(size) < 0
    assert FONT.height(size) > size
