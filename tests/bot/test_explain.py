"""Lines a maker can check by hand."""

from __future__ import annotations

import json
import re
from fractions import Fraction
from typing import Any

import pytest

from bot.contract import request_from_json
from bot.explain import chain, explain
from sizing.cage import Design, design_cage
from sizing.measures import Request

REQUEST: dict[str, Any] = {
    "purpose": "isolate",
    "frame": {
        "side_to_side": 360, "top_to_bottom": 260, "lug_to_lug": 391, "lug_thickness": 10,
        "lug_width": 25, "widest_wood": 35, "comb_thickness": 27,
    },
    "hive": {
        "inside_along": 375, "lug_room": 393.25, "ledge_down": 253, "ledge_up": 17,
        "below": "box", "above": "box", "inside_across": 375, "frames_held": 10,
        "spacer": "shoulders",
    },
}  # fmt: skip

LOW = {"ledge_up": 10, "ledge_down": 260}
CASES: list[dict[str, Any]] = [
    {},
    LOW,
    {**LOW, "above": "cloth"},
    {"lug_room": 400},
    {"lug_room": None, "inside_across": None},
    {"inside_along": 366},
    {"frames_held": 7},
]


def sized(**hive: object) -> tuple[Request, Design]:
    """A request with some of its hive changed, and its design."""
    request = request_from_json(json.dumps({**REQUEST, "hive": {**REQUEST["hive"], **hive}}))
    return request, design_cage(request)


def added_up(sum_: str) -> Fraction:
    """What a printed sum comes to, worked out from its digits alone."""
    plain = re.sub(r"[a-z_]+\*? ", "", sum_).replace("−", "-").replace("×", "*")
    assert re.fullmatch(r"[-+*/(). 0-9]+", plain), plain
    exact = re.sub(r"\d+(\.\d+)?", lambda number: f"Fraction('{number[0]}')", plain)
    return Fraction(eval(exact, {"Fraction": Fraction}))  # digits, signs and brackets only


@pytest.mark.parametrize("changes", CASES)
def test_every_printed_sum_is_right(changes: dict[str, object]) -> None:
    """Whoever works out a line by hand gets the printed result, to a thousandth."""
    request, design = sized(**changes)
    checked = 0
    for line in explain(request, design).splitlines():
        found = re.match(r"(?:\S+ +)(?:ok +|tight +|fails +)?([^=]*) = (-?[\d.]+)(?:\s|$)", line)
        if found and "larger of" not in line and "wires" not in line and "?" not in line:
            assert abs(added_up(found[1]) - Fraction(found[2])) <= Fraction(1, 1000), line
            checked += 1
    assert checked >= 10


def test_a_chain_is_written_as_one_does_by_hand() -> None:
    """Halves in brackets, signs between terms, a star at what the cage is cut to."""
    gaps = {str(gap.gap): gap for gap in sized()[1].gaps}
    assert chain(gaps["hive_end"]) == "(inside_along 375 − length_outside* 370) / 2"
    assert chain(gaps["across"]) == ("inside_across 375 − 9 × widest_wood 35 − depth_outside* 48")
    assert chain(gaps["ear_bearing"]) == (
        "ear_span* 391 − (inside_along 375 + lug_room 393.25) / 2"
    )
    assert chain(gaps["lug_bearing"]) == (
        "(lug_to_lug 391 + side_to_side 360) / 2 − length_inside* 368.4"
    )


@pytest.mark.parametrize("changes", CASES)
def test_every_gap_has_its_line_with_must_and_aim(changes: dict[str, object]) -> None:
    """Each gap stands in a line of its own, with its verdict."""
    request, design = sized(**changes)
    lines = explain(request, design).splitlines()
    for gap in design.gaps:
        mine = [line for line in lines if re.match(rf"{gap.gap} +{gap.verdict} ", line)]
        assert len(mine) == 1, gap.gap
        assert " must " in mine[0]
        assert " aim " in mine[0]


def test_a_missing_length_is_named() -> None:
    """An open gap says what is missing, with a question mark where it would stand."""
    text = explain(*sized(lug_room=None))
    assert "lug_room ? − ear_span* 391 = ?" in text
    assert "missing lug_room" in text
    assert "open          lug_room" in text


def test_wires_assumptions_doubts_and_ways_out_are_told() -> None:
    """What is not a chain stands below them."""
    assert "59 wires: (opening 368.4 − 59 × 2) / 60 = 4.173 ≤ 4.3" in explain(*sized())
    assert "assumed       below_space 7 (box-of-the-same-kind)" in explain(*sized())
    assert "check         pitch: 53.571, usual ≥ 32 ≤ 42" in explain(*sized(frames_held=7))
    assert "would work    allowance 5" in explain(*sized(inside_along=366))
    assert "no limit" in explain(*sized(**LOW, above="cloth"))
    low = explain(*sized(**LOW))
    assert "two tabs of 10" in low
    assert "notch 26.5 wide, 0.5 over the lug" in low


def test_the_first_line_is_the_verdict() -> None:
    """A maker sees at once what becomes of it."""
    assert explain(*sized()).startswith("make: Wielkopolska is the nearest known frame")
    assert explain(*sized(inside_along=366)).startswith("cannot: ")


def test_each_gap_says_how_sure_it_is() -> None:
    """Interval and probability per gap, then the joint; certainty is never claimed."""
    request, design = sized()
    lines = explain(request, design).splitlines()
    known = [gap for gap in design.gaps if gap.probability is not None]
    said = [line for line in lines if "must holds" in line]
    assert len(said) == len(known) == 10
    assert not any("1.0000" in line for line in lines)
    (together,) = [line for line in lines if line.startswith("all musts")]
    assert f"{design.fit.probability:.4f}" in together
    assert str(design.fit.weakest) in together


def test_an_open_gap_promises_nothing() -> None:
    """Without the lug room no line speaks of all musts."""
    request, design = sized(lug_room=None)
    assert "all musts" not in explain(request, design)


def test_what_would_work_says_how_sure_it_would_be() -> None:
    """Each way with the joint it gives."""
    request = request_from_json(json.dumps({**REQUEST, "purpose": "introduce"}))
    design = design_cage(request)
    ways = [line for line in explain(request, design).splitlines() if line.startswith("would")]
    assert len(ways) == len(design.would_work) > 1
    assert all(re.search(r"\(0\.9\d{3}\)$", way) for way in ways)
