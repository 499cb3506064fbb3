"""The request of `size`: what is read, what is refused and why."""

from __future__ import annotations

import copy
import json
from fractions import Fraction
from typing import Any

import pytest
from hypothesis import given
from hypothesis import strategies as st

from bot.contract import request_from_json, request_to_json
from sizing.errors import RequestError
from sizing.measures import Length, LidChoice, Material, MeasuredWith, Tape

SMALLEST: dict[str, Any] = {
    "purpose": "isolate",
    "frame": {"side_to_side": 360, "top_to_bottom": 260, "lug_to_lug": 391},
}


def changed(field: str, value: object) -> str:
    """The smallest request with one field put in, as JSON."""
    request: Any = copy.deepcopy(SMALLEST)
    *path, last = field.split(".")
    inner = request
    for part in path:
        inner = inner.setdefault(part, {})
    inner[last] = value
    return json.dumps(request)


def refusal(text: str | bytes) -> RequestError:
    """The error this request ends in."""
    with pytest.raises(RequestError) as caught:
        request_from_json(text)
    return caught.value


def test_the_smallest_request_is_enough() -> None:
    """Purpose and three lengths; the rest is not known or left to the workshop."""
    request = request_from_json(json.dumps(SMALLEST))
    assert request.frame.side_to_side == Length((Fraction(360),))
    assert request.frame.widest_wood is None
    assert request.hive.inside_along is None
    assert request.left_to_us == ("lid", "material", "pieces")
    assert (request.lid, request.material, request.pieces) == (
        LidChoice.AUTO, Material.GALVANISED, 1,
    )  # fmt: skip
    assert request.measured_with == MeasuredWith(Tape.UNKNOWN, Fraction(1))


def test_null_is_the_same_as_missing() -> None:
    """A field that is null was not given."""
    for field in ("hive", "lid", "measured_with", "frame.widest_wood", "hive.below"):
        assert request_from_json(changed(field, None)) == request_from_json(json.dumps(SMALLEST))


def test_numbers_are_exact() -> None:
    """What stands in the text is the length, not the nearest binary number."""
    text = json.dumps(SMALLEST).replace("360", "360.1").replace("260", "2.6e2")
    frame = request_from_json(text).frame
    assert frame.side_to_side.value == Fraction(3601, 10)
    assert frame.top_to_bottom.value == 260


def test_a_length_may_be_several_readings() -> None:
    """They keep their step and their tolerance, and count as their mean."""
    text = changed("hive.lug_room", {"readings": [393, 393.5], "step": 0.5, "plus_minus": 1})
    room = request_from_json(text).hive.lug_room
    assert room == Length((Fraction(393), Fraction(787, 2)), Fraction(1, 2), Fraction(1))
    assert room.value == Fraction("393.25")


def test_free_space_may_be_nothing() -> None:
    """A flat board below or above is 0; no other length is."""
    hive = request_from_json(changed("hive.below_space", 0)).hive
    assert hive.below_space == Length((Fraction(0),))
    assert refusal(changed("hive.ledge_up", 0)).field == "hive.ledge_up"


REFUSED: list[tuple[str, object, str]] = [
    ("purpose", "breed", "one-of isolate, introduce"),
    ("purpose", None, "one-of isolate, introduce"),
    ("frame.side_to_side", None, "a-length"),
    ("frame.side_to_side", 0, "a-length 80 700"),
    ("frame.side_to_side", -360, "a-length 80 700"),
    ("frame.side_to_side", 36, "a-length 80 700"),
    ("frame.side_to_side", 36000, "a-length 80 700"),
    ("frame.side_to_side", "360", "a-length"),
    ("frame.side_to_side", True, "a-length"),
    ("frame.side_to_side", [360], "a-length"),
    ("frame.side_to_side", {}, "needed"),
    ("frame.side_to_side", {"readings": []}, "at-least-one-reading"),
    ("frame.side_to_side", {"readings": [360] * 21}, "at-most-20-readings"),
    ("frame.side_to_side", {"readings": ["360"]}, "a-number"),
    ("frame.side_to_side", {"readings": [True]}, "a-number"),
    ("frame.side_to_side", {"readings": 360}, "a-list"),
    ("frame.side_to_side", {"readings": [360, 3]}, "a-length 80 700"),
    ("frame.side_to_side", {"readings": [360], "step": 0}, "above-0-to-50"),
    ("frame.side_to_side", {"readings": [360], "step": 51}, "at-most-50"),
    ("frame.side_to_side", {"readings": [360], "plus_minus": -1}, "0-to-50"),
    ("frame.side_to_side", {"readings": [360], "unit": "mm"}, "no-such-field"),
    ("frame.colour", 1, "no-such-field"),
    ("hive.inside_along", 10**400, "a-length"),
    ("hive.frames_held", 0, "a-whole-number 1 40"),
    ("hive.frames_held", 10.5, "a-whole-number"),
    ("hive.frames_held", True, "a-whole-number"),
    ("hive.frames_out", 7, "a-whole-number 1 6"),
    ("hive.below", "cellar", "one-of box, floor"),
    ("hive.above", "sky", "one-of box, cover, cloth"),
    ("hive.spacer", "glue", "one-of straight, shoulders, pins, loose"),
    ("hive", [], "an-object"),
    ("frame", None, "an-object"),
    ("lid", "sliding", "one-of auto, end-open, closed, closed-between-walls"),
    ("material", "gold", "one-of galvanised, aluminium-zinc"),
    ("pieces", 0, "a-whole-number 1 200"),
    ("pieces", 2000, "a-whole-number 1 200"),
    ("measured_with.tape", "IV", "one-of I, II, III, unknown"),
    ("measured_with.step", 0, "above-0-to-50"),
    ("colour", "red", "no-such-field"),
]


@pytest.mark.parametrize(("field", "value", "would_do"), REFUSED)
def test_what_cannot_be_used_is_refused_by_field(field: str, value: object, would_do: str) -> None:
    """The error names the dotted field and what would do."""
    error = refusal(changed(field, value))
    assert error.field.startswith(field)
    if would_do == "a-length" and isinstance(value, int) and value > 1:
        assert error.would_do.startswith("a-")
    else:
        assert error.would_do == would_do


@pytest.mark.parametrize("name", ["purpose", "frame"])
def test_what_is_needed_is_asked_for(name: str) -> None:
    """A request without it is refused, by its name."""
    request = {key: value for key, value in SMALLEST.items() if key != name}
    error = refusal(json.dumps(request))
    assert (error.field, error.seen, error.would_do) == (name, None, "needed")


@pytest.mark.parametrize("name", ["side_to_side", "top_to_bottom", "lug_to_lug"])
def test_three_lengths_are_needed(name: str) -> None:
    """A frame without one of them cannot be sized."""
    frame = {key: value for key, value in SMALLEST["frame"].items() if key != name}
    error = refusal(json.dumps({**SMALLEST, "frame": frame}))
    assert (error.field, error.would_do) == (f"frame.{name}", "needed")


@pytest.mark.parametrize(
    "text",
    ["", "{", "[]", "null", "7", '"x"', b"\xff\xfe", "[" * 100_000, "9" * 5000],
)
def test_what_is_no_json_object_is_refused(text: str | bytes) -> None:
    """Nothing but an object can be a request."""
    assert refusal(text).field == "request"


@pytest.mark.parametrize("number", ["NaN", "Infinity", "-Infinity", "1e999999999", "1e-999999999"])
def test_numbers_that_are_none_are_refused(number: str) -> None:
    """They are refused at once, however long they would be to write out."""
    text = json.dumps(SMALLEST).replace("360", number)
    assert refusal(text).would_do in {"a-number", "a-length", "a-length 80 700"}


def test_a_field_given_twice_is_refused() -> None:
    """Which of the two is meant is not guessed."""
    text = json.dumps(SMALLEST).replace('"lug_to_lug"', '"side_to_side"')
    error = refusal(text)
    assert (error.field, error.would_do) == ("side_to_side", "once")


SIXTY_FOURTHS = st.integers(80 * 4, 700 * 2).map(lambda n: Fraction(n, 64) * Fraction(254, 10))


@given(
    st.integers(8000, 70000).map(lambda hundredths: Fraction(hundredths, 100)),
    SIXTY_FOURTHS.filter(lambda length: 100 <= length <= 750),
)
def test_a_request_comes_back_as_it_was(side: Fraction, over_lugs: Fraction) -> None:
    """What is kept is read again exactly: tenths, inches in sixty-fourths, choices, gaps."""
    text = changed("hive.lug_room", {"readings": [393, 393.5], "step": 0.5})
    first = request_from_json(text)
    kept = request_to_json(first)
    kept["frame"]["side_to_side"] = float(side)
    kept["frame"]["lug_to_lug"] = float(over_lugs)
    again = request_from_json(json.dumps(kept))
    assert again.frame.side_to_side.value == side
    assert again.frame.lug_to_lug.value == over_lugs
    assert request_from_json(json.dumps(request_to_json(again))) == again
    assert again.hive == first.hive


@given(st.recursive(
    st.none() | st.booleans() | st.floats(allow_nan=True) | st.text(max_size=5),
    lambda inner: st.lists(inner, max_size=3) | st.dictionaries(st.text(max_size=5), inner,
                                                                max_size=3),
    max_leaves=8,
))  # fmt: skip
def test_any_json_is_either_a_request_or_refused(value: object) -> None:
    """Whatever stands in a field, the answer is a request or one kind of error."""
    text = changed("frame.side_to_side", value)
    error = request = None
    try:
        request = request_from_json(text)
    except RequestError as refused:
        error = refused
    if error is not None:
        assert error.field
        assert error.would_do
    else:
        assert request is not None
        assert request.frame.side_to_side.value >= 80
