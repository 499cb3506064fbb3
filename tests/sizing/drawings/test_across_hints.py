"""Pictures for what is measured or counted from comb to comb."""

from __future__ import annotations

from sizing.drawings.across_hints import ACROSS_HINTS
from sizing.drawings.model import MODEL
from sizing.drawings.shapes import Ink
from sizing.measures import Measure


def test_inside_across_runs_from_wall_to_wall_across_the_frames() -> None:
    """The mistakes are outside to outside, and along the frames."""
    right, outside, along = (v.dimensions[0] for v in ACROSS_HINTS[Measure.INSIDE_ACROSS]().views)
    assert abs(right.end[1] - right.start[1]) == MODEL.inside_across
    assert abs(outside.end[1] - outside.start[1]) == MODEL.inside_across + 2 * MODEL.wall
    assert not along.upright


def test_spacing_is_one_frame_from_middle_to_middle() -> None:
    """Two frames pushed together stand as far apart as one is wide."""
    right, gap, both = (v.dimensions[0] for v in ACROSS_HINTS[Measure.SPACING]().views)
    assert right.end[0] - right.start[0] == MODEL.widest_wood
    assert gap.end[0] - gap.start[0] < MODEL.widest_wood
    assert both.end[0] - both.start[0] == 2 * MODEL.widest_wood


def test_frames_held_numbers_every_place_of_a_full_body() -> None:
    """The last number is the answer."""
    right, wrong = ACROSS_HINTS[Measure.FRAMES_HELD]().views
    assert [note.number for note in right.notes] == list(range(1, MODEL.frames + 1))
    assert sum(shape.part.startswith("frame_") for shape in wrong.shapes) < MODEL.frames


def test_frames_out_counts_the_caged_frame_first() -> None:
    """The caged frame is 1, the one that makes room is 2; counting only that is struck out."""
    right, wrong = ACROSS_HINTS[Measure.FRAMES_OUT]().views
    assert [note.number for note in right.notes] == [1, 2]
    assert [note.number for note in wrong.notes] == [1]
    (caged,) = right.part("frame_5")
    (gone,) = right.part("frame_6")
    assert (caged.ink, gone.ink) == (Ink.ASKED, Ink.GHOST)
