"""Do the answers agree: what is doubted, and that no real frame is."""

from __future__ import annotations

from collections.abc import Callable
from fractions import Fraction

import pytest

from sizing.measures import Below, Measure, Request
from sizing.plausibility.findings import Severity
from sizing.plausibility.ranges import relation
from sizing.plausibility.relations import doubts
from sizing.standards import FrameKind, frame_kinds

Make = Callable[..., Request]


def test_what_agrees_is_not_doubted(make: Make) -> None:
    """A frame in its own hive raises nothing."""
    assert doubts(make()) == ()


@pytest.mark.parametrize(
    ("changes", "code", "seen"),
    [
        ({"lug_to_lug": 362, "lug_room": None}, "lug-sum", 2),
        ({"side_to_side": 391, "lug_to_lug": 421, "lug_room": None}, "end-gap", -16),
        ({"lug_room": 375}, "lug-play", -16),
        ({"top_to_bottom": 235}, "hang", 28),
        ({"ledge_up": 40}, "rise", 30),
        ({"lug_room": 378, "lug_to_lug": 376}, "ledges", 3),
        ({"ledge_up": 34}, "stack", 27),
        ({"frames_held": 7}, "pitch", Fraction(375, 7)),
        ({"comb_thickness": 20, "widest_wood": 40}, "comb-in-wood", -20),
        ({"top_bar_thickness": 8}, "lug-under-bar", -2),
        ({"lug_thickness": 22, "top_bar_thickness": 24, "ledge_up": 29, "ledge_down": 241},
         "unusual", 22),
        ({"frames_out": 5}, "unusual", 5),
        ({"side_to_side": 75, "lug_to_lug": 105, "inside_along": None, "lug_room": None},
         "not-possible", 75),
    ],
)  # fmt: skip
def test_what_cannot_well_be_true_is_doubted(
    make: Make, changes: dict[str, object], code: str, seen: Fraction | int
) -> None:
    """Each doubt has its code, what was seen, and a band that does not hold it."""
    found = {finding.code: finding for finding in doubts(make(**changes))}
    assert code in found
    finding = found[code]
    low, high = finding.expected
    assert finding.seen == seen
    assert (low is not None and seen < low) or (high is not None and seen > high)
    assert finding.source == "workshop-judgement"
    assert all(isinstance(measure, Measure) for measure in finding.measures)


def test_what_is_not_possible_weighs_more_than_what_is_unusual(make: Make) -> None:
    """Outside the hard band is a halt, outside the soft band a question."""
    small = doubts(make(side_to_side=75, lug_to_lug=170, inside_along=None, lug_room=None))
    severities = {finding.code: finding.severity for finding in small}
    assert severities["not-possible"] is Severity.STOP
    assert severities["unusual"] is Severity.CHECK


def test_over_a_floor_a_body_may_be_deeper(make: Make) -> None:
    """30 under the frame is usual over a floor and doubted over a box."""
    deep = {"ledge_down": 280}
    assert [f.code for f in doubts(make(**deep))] == ["hang", "stack"]
    assert doubts(make(**deep, below=Below.FLOOR, below_space=0)) == ()


def test_a_relation_is_silent_where_a_measure_is_missing(make: Make) -> None:
    """Nothing is doubted on half of a pair."""
    request = make(lug_to_lug=362, lug_room=None)
    assert [finding.code for finding in doubts(request)] == ["lug-sum"]
    assert doubts(make(inside_along=None, side_to_side=391, lug_to_lug=421, lug_room=None)) == ()


OVER_A_FLOOR = {"dadant_ru_435x300"}
"""Rows of one-body hives: what is under the frame is the floor."""


def said(kind: FrameKind) -> dict[str, Fraction | int | None]:
    """The measures a row gives, under the names of the request."""
    known: dict[str, Fraction | int | None] = {
        measure: kind.value(measure) for measure in Measure if measure != Measure.PIECES
    }
    body, up = kind.value("body_depth"), kind.value("ledge_up")
    if body is not None and up is not None:
        known["ledge_down"] = body - up
    held = kind.value("frames_held")
    known["frames_held"] = None if held is None else int(held)
    known["comb_thickness"] = 27
    return known


@pytest.mark.parametrize("lug", [None, 8, 10])
def test_no_frame_in_the_data_is_doubted(make: Make, lug: int | None) -> None:
    """What the rows say raises no doubt, whatever a usual lug is added where they are silent."""
    tried, doubted = 0, {}
    for kind in frame_kinds():
        known = said(kind)
        if None in (known["side_to_side"], known["top_to_bottom"], known["lug_to_lug"]):
            continue
        if known["lug_thickness"] is None:
            known["lug_thickness"] = lug
        below = Below.FLOOR if kind.id in OVER_A_FLOOR else Below.BOX
        found = doubts(make(**known, below=below))
        if found:
            doubted[kind.id] = [(one.code, float(one.seen)) for one in found]
        tried += 1
    assert tried == 35
    assert doubted == {}


def test_end_gaps_and_lugs_of_rows_without_a_top_bar_are_usual() -> None:
    """Rows that lack a length are tried on the pairs they have."""
    for kind in frame_kinds():
        side, inside = kind.value("side_to_side"), kind.value("inside_along")
        if side is not None and inside is not None:
            assert relation("end-gap").holds(inside - side), kind.id
        held, across = kind.value("frames_held"), kind.value("inside_across")
        if held is not None and across is not None:
            assert relation("pitch").holds(across / held), kind.id
