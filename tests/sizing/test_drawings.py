"""Scenes by name: one for every measure that is asked and every choice, and the cage."""

from __future__ import annotations

from collections.abc import Callable

import pytest

from sizing.drawings import CAGE, HINTS, UnknownPictureError, scene_of
from sizing.measures import FRAME_LENGTHS, HIVE_LENGTHS, Measure, Request

CHOICES = {"spacer", "below", "above", "lid", "purpose"}


def test_every_measure_that_is_asked_and_every_choice_has_a_picture() -> None:
    """All lengths, both counts of frames, and the five choices have one scene each."""
    counted = (Measure.FRAMES_HELD, Measure.FRAMES_OUT)
    wanted = {str(m) for m in (*FRAME_LENGTHS, *HIVE_LENGTHS, *counted)} | CHOICES
    assert set(HINTS) == wanted
    assert all(scene_of(name).name == name for name in wanted)


def test_an_unknown_name_is_an_error_that_names_it() -> None:
    """`scene_of` says which picture there is not."""
    with pytest.raises(UnknownPictureError) as caught:
        scene_of("lug_colour")
    assert caught.value.name == "lug_colour"


def test_the_cage_needs_a_request(make: Callable[..., Request]) -> None:
    """Without a request there is nothing to draw; with one there is."""
    with pytest.raises(UnknownPictureError):
        scene_of(CAGE)
    assert scene_of(CAGE, make()).name == CAGE
