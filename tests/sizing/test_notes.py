"""What is worth a line and decides nothing."""

from __future__ import annotations

from collections.abc import Callable

from sizing.cage import Design, design_cage
from sizing.draft import Verdict
from sizing.measures import Request
from sizing.plausibility.findings import Severity

Make = Callable[..., Request]


def codes(design: Design) -> set[str]:
    """The codes of all findings that are notes."""
    return {one.code for one in design.findings if one.severity is Severity.NOTE}


def test_a_box_without_room_across_is_told_and_made(make: Make) -> None:
    """One place in 49 mm is not even as wide as the cage with its passages; the verdict stands."""
    roomy, narrow = design_cage(make()), design_cage(make(inside_across=49, frames_held=1))
    assert "no-room-across" not in codes(roomy)
    assert "no-room-across" in codes(narrow)
    assert narrow.verdict is Verdict.MAKE
    note = next(one for one in narrow.findings if one.code == "no-room-across")
    low, _ = note.expected
    assert low is not None
    assert note.seen < low


def test_too_few_frames_out_are_told(make: Make) -> None:
    """The beekeeper gives up one place where two are the least."""
    assert "frames-out-too-few" in codes(design_cage(make(frames_out=1, inside_across=360)))
    assert "frames-out-too-few" not in codes(design_cage(make(frames_out=5)))


def test_a_rule_of_a_region_speaks_only_where_its_frames_are(make: Make) -> None:
    """7.5 to the wall is usual in Europe; one region asks for 8, of Langstroth frames."""
    deep = {"side_to_side": 447.7, "top_to_bottom": 231.8, "lug_to_lug": 482.6, "lug_room": 484.6}
    assert "wall-rule" in codes(design_cage(make(**deep, inside_along=462)))
    assert "wall-rule" not in codes(design_cage(make(**deep, inside_along=465.1)))
    assert "wall-rule" not in codes(design_cage(make(**deep, inside_along=None)))
    assert "wall-rule" not in codes(design_cage(make(inside_along=374)))
