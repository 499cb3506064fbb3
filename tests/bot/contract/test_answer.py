"""The answer of `size`, field by field."""

from __future__ import annotations

import json
from dataclasses import replace
from fractions import Fraction
from typing import Any

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from bot.contract import design_to_json, request_from_json
from sizing.cage import design_cage
from sizing.measures import (
    COUNTS,
    FRAME_LENGTHS,
    HIVE_LENGTHS,
    Above,
    Below,
    LidChoice,
    Measure,
    Purpose,
    Spacer,
)
from sizing.plausibility.ranges import band
from sizing.workshop import default_figures

REQUEST: dict[str, Any] = {
    "purpose": "isolate",
    "frame": {
        "side_to_side": 360, "top_to_bottom": 260, "lug_to_lug": 391, "top_bar_thickness": 10,
        "lug_thickness": 10, "lug_width": 25, "widest_wood": 35, "comb_thickness": 27,
    },
    "hive": {
        "inside_along": 375, "lug_room": {"readings": [393, 393.5], "step": 0.5},
        "ledge_down": 253, "ledge_up": 17, "below": "box", "below_space": None, "above": "box",
        "above_space": None, "inside_across": 375, "spacing": None, "spacer": "shoulders",
        "frames_held": 10, "frames_out": None,
    },
    "lid": "auto", "material": "galvanised", "pieces": 1,
    "measured_with": {"tape": "II", "step": 1.0},
}  # fmt: skip


def answer(**hive: object) -> dict[str, Any]:
    """The answer to the request above with some of the hive changed."""
    frame = {key: hive.pop(key) for key in list(hive) if key in REQUEST["frame"]}
    rest = {key: hive.pop(key) for key in list(hive) if key in REQUEST}
    request = {**REQUEST, **rest, "frame": {**REQUEST["frame"], **frame}}
    request["hive"] = {**REQUEST["hive"], **hive}
    return design_to_json(design_cage(request_from_json(json.dumps(request))))


def test_the_worked_example_comes_out_number_for_number() -> None:
    """A ten-frame stack frame, isolation, as worked out by hand."""
    found = answer()
    row = {"opening": 368.4, "least_wires": 58, "least_gap": 4.278, "wires": 59, "gap": 4.173}
    assert found["verdict"] == "make"
    assert found["workshop_version"] == "1"
    assert found["cage"] == {
        "length_outside": 370.0, "length_inside": 368.4, "height_overall": 270.0,
        "drop_below_ledge": 256.7, "depth_inside": 43.0, "depth_outside": 48.0,
        "ears": "under-lug", "ear_span": 391.0, "lift": 0.8, "floor": "wired",
        "floor_thickness": 2.5, "gap_under": 5.0, "lid_clear": 1.7, "guide_each": 2.5,
        "frames_out": 1,
    }  # fmt: skip
    assert found["wire"] == {
        "gap_limit": 4.3,
        "diameter": 2.0,
        "panels": [{"panel": "face", "count": 2, **row}, {"panel": "floor", "count": 1, **row}],
    }
    made = {"gap_made": [4.103, 4.243], "filler": 0.0}
    assert found["making"] == {
        "panels": [
            {"panel": "face", "free_length": 265.0, "stays": 2, "free_span": 88.333, **made},
            {"panel": "floor", "free_length": 43.0, "stays": 0, "free_span": 43.0, **made},
        ],
        "coating": "Z275", "coating_each": 0.019, "body_swing": 4.215,
    }  # fmt: skip
    assert found["lid"] == {
        "kind": "end-open", "why": "lid-end-gap-holds", "length": 391.0, "end_gap_each": 1.125,
        "end_gap_worst": 2.25,
    }  # fmt: skip
    assert {
        "gap": "hive_end", "nominal": 2.5, "low": 1.754, "high": 3.246, "must": [0.5, None],
        "aim": [2.0, None], "verdict": "ok", "probability": 1.0,
    } in found["gaps"]  # fmt: skip
    assert found["fit"].pop("probability") == pytest.approx(0.9823, abs=1e-4)
    assert found["fit"] == {"weakest": "below", "measure_again": None}
    assert found["frame_kind"] == {"id": "pl_wielkopolska", "distance": 0.0}
    assert found["risks"] == {"queen-out": "low", "small-queen-out": "watch", "workers-held": "low"}
    assert (found["findings"], found["open"]) == ([], [])
    assert found["assumed"] == [
        {"measure": "below_space", "value": 7.0, "from": "box-of-the-same-kind"},
    ]
    assert found["cautions"][:2] == ["cut-edges", "zinc-and-acid"]
    assert (found["weight_g"], found["price"]) == (1304, None)
    assert "would_work" not in found


def test_an_open_size_leaves_the_weight_open() -> None:
    """Without room for the lugs nobody knows the lid yet."""
    assert answer(lug_room=None)["weight_g"] is None


def test_money_stands_as_text() -> None:
    """No binary number stands for money; off it is null, as above."""
    asking = replace(default_figures(), price_shown=True, price_cage=Fraction("20.5"))
    request = request_from_json(json.dumps(REQUEST))
    found = design_to_json(design_cage(request, asking))
    assert found["price"] == {
        "currency": "EUR", "each": "20.50", "pieces": 1, "cages": "20.50", "post": "0.00",
    }  # fmt: skip


def test_the_answer_is_plain_json() -> None:
    """No value needs anything but a JSON reader."""
    for found in (answer(), answer(ledge_up=10), answer(lug_room=None)):
        assert json.loads(json.dumps(found, allow_nan=False)) == found


def test_every_gap_has_the_fields_of_the_contract() -> None:
    """Open gaps say what is missing besides."""
    fields = ["gap", "nominal", "low", "high", "must", "aim", "verdict", "probability"]
    for gap in answer(lug_room=None)["gaps"]:
        assert list(gap)[:8] == fields
        assert ("missing" in gap) == (gap["verdict"] == "open")
        assert gap.get("missing", ["lug_room"]) == ["lug_room"]


def test_what_is_asked_is_in_would_work() -> None:
    """An order that is asked about says which measures would settle it."""
    found = answer(lug_room=None)
    assert (found["verdict"], found["open"]) == ("ask", ["lug_room"])
    assert found["lid"]["kind"] == "open-question"
    assert found["would_work"] == [
        {"id": "measure", "measure": "lug_room", "value": None, "probability": None},
    ]


def test_what_cannot_be_made_has_the_ways_out() -> None:
    """A lid and a rim, with the value that was worked out."""
    found = answer(lid="end-open", ledge_up=10, ledge_down=260)
    assert found["verdict"] == "cannot"
    for way in found["would_work"]:
        way["probability"] = round(way["probability"], 3)
    assert found["would_work"] == [
        {"id": "lid", "measure": None, "value": "closed-between-walls", "probability": 0.996},
        {"id": "rim", "measure": "ledge_up", "value": 4.0, "probability": 0.995},
    ]


def test_what_belongs_to_a_lid_between_the_walls_stands_only_there() -> None:
    """Tabs beside the lugs and the notch are sizes of that cage alone."""
    found = answer(ledge_up=10, ledge_down=260)
    assert found["cage"]["ear_width"] == 10.0
    assert (found["lid"]["notch_width"], found["lid"]["notch_over_lug"]) == (26.5, 0.5)
    assert found["cage"]["ears"] == "beside-lug"
    assert "ear_width" not in answer()["cage"]


def test_a_finding_says_what_was_seen_and_what_is_usual() -> None:
    """What was seen lies outside what is expected."""
    assert answer(top_bar_thickness=8)["findings"] == [
        {
            "code": "lug-under-bar", "severity": "check",
            "measures": ["top_bar_thickness", "lug_thickness"], "seen": -2.0,
            "expected": [0.0, None], "source": "workshop-judgement",
        },
    ]  # fmt: skip


@pytest.mark.parametrize(
    ("changes", "assumed"),
    [
        ({"inside_across": None}, {"measure": "frames_out", "value": 2}),
        ({"spacer": None}, {"measure": "spacer", "value": "shoulders"}),
        ({"lid": None}, {"measure": "lid", "value": "auto"}),
        ({"material": None}, {"measure": "material", "value": "galvanised"}),
        ({"pieces": None}, {"measure": "pieces", "value": 1}),
    ],
)
def test_defaults_that_are_used_are_listed(
    changes: dict[str, object], assumed: dict[str, object]
) -> None:
    """Counts are whole numbers, choices ids."""
    listed = {one["measure"]: one for one in answer(**changes)["assumed"]}
    found = listed[str(assumed["measure"])]
    assert found == {**assumed, "from": "workshop-default"}
    assert type(found["value"]) is type(assumed["value"])


def test_cloth_has_no_number() -> None:
    """Where nothing hard is above, head room is fine and has no size."""
    gaps = {gap["gap"]: gap for gap in answer(ledge_up=10, ledge_down=260, above="cloth")["gaps"]}
    assert (gaps["head_room"]["nominal"], gaps["head_room"]["verdict"]) == (None, "ok")


@st.composite
def requests(draw: st.DrawFn) -> dict[str, Any]:
    """Any request that can be measured at all, with any of its optional parts missing."""

    def number(measure: Measure) -> st.SearchStrategy[float | int]:
        low, high = band(measure).hard_low, band(measure).hard_high
        if measure in COUNTS:
            return st.integers(int(low), int(high))
        return st.integers(int(low * 4), int(high * 4)).map(lambda quarters: quarters / 4)

    def part(measures: tuple[Measure, ...], needed: tuple[str, ...]) -> dict[str, Any]:
        return {
            one.value: draw(number(one) if one in needed else st.none() | number(one))
            for one in measures
        }

    counts = (Measure.FRAMES_HELD, Measure.FRAMES_OUT)
    hive = part((*HIVE_LENGTHS, *counts), ())
    hive["below"] = draw(st.none() | st.sampled_from(Below))
    hive["above"] = draw(st.none() | st.sampled_from(Above))
    hive["spacer"] = draw(st.none() | st.sampled_from(Spacer))
    return {
        "purpose": draw(st.sampled_from(Purpose)),
        "frame": part(FRAME_LENGTHS, ("side_to_side", "top_to_bottom", "lug_to_lug")),
        "hive": hive,
        "lid": draw(st.none() | st.sampled_from(LidChoice)),
    }


@settings(max_examples=400)
@given(requests())
def test_whatever_can_be_measured_gets_an_answer(request: dict[str, Any]) -> None:
    """No request within the hard bands is too odd: there is an answer, and it is consistent."""
    found = design_to_json(design_cage(request_from_json(json.dumps(request))))
    json.dumps(found, allow_nan=False)
    verdicts = {gap["verdict"] for gap in found["gaps"] if gap["gap"] != "across"}
    assert (found["verdict"] == "cannot") == ("fails" in verdicts)
    if "open" in verdicts:
        assert found["verdict"] != "make"
    assert {one["id"] for one in found.get("would_work", []) if found["verdict"] == "ask"} <= {
        "measure"
    }
    given_ = {name for part in ("frame", "hive") for name, value in request[part].items()
              if value is not None}  # fmt: skip
    assert not given_ & set(found["open"])
    for panel in found["wire"]["panels"]:
        assert panel["gap"] <= found["wire"]["gap_limit"]
    for doubt in found["findings"]:
        low, high = doubt["expected"]
        assert (low is not None and doubt["seen"] < low) or (
            high is not None and doubt["seen"] > high
        )


def test_a_suspicion_shows_what_was_weighed() -> None:
    """Each story with prior, likelihood and its share; other doubts have no such field."""
    found = answer(inside_along=310)["findings"]
    (mixup,) = [one for one in found if one["code"] == "mixup"]
    first = mixup["weights"][0]
    assert list(first) == ["mistake", "measures", "true", "prior", "likelihood", "weight"]
    assert (first["mistake"], first["measures"], first["true"]) == (
        "tape-case", ["inside_along"], [375.0],
    )  # fmt: skip
    assert sum(story["weight"] for story in mixup["weights"]) > 0.9
    assert all("weights" not in one for one in found if one["code"] != "mixup")
