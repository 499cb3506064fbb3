"""Lines, hatching and arrows in pixels."""

from __future__ import annotations

import pytest

from bot.pictures.marks import area, arrow, hatching, paths, shape_area, sign, strike
from bot.pictures.style import BLACK, INKS, Pen
from sizing.drawings.shapes import Ink

SQUARE = ((0.0, 0.0), (100.0, 0.0), (100.0, 100.0), (0.0, 100.0))
HOOK = ((0.0, 0.0), (100.0, 0.0), (100.0, 20.0), (20.0, 20.0), (20.0, 100.0), (0.0, 100.0))


def test_hatching_stays_inside_and_fills_evenly() -> None:
    """Strokes of equal distance whose ends lie on the outline."""
    strokes = hatching(SQUARE, step=10)
    assert len(strokes) == 20
    for (ax, ay), (bx, by) in strokes:
        assert ax + ay == pytest.approx(bx + by)
        for x, y in ((ax, ay), (bx, by)):
            assert min(abs(x), abs(x - 100), abs(y), abs(y - 100)) < 1e-9


def test_hatching_leaves_out_what_an_outline_leaves_out() -> None:
    """No stroke crosses the open part of a hook."""
    for (ax, ay), (bx, by) in hatching(HOOK, step=7):
        middle = ((ax + bx) / 2, (ay + by) / 2)
        assert middle[0] <= 20 + 1e-9 or middle[1] <= 20 + 1e-9


def test_what_is_asked_is_hatched_and_the_rest_is_not() -> None:
    """Fill, hatching and outline, or one area."""
    assert [m["kind"] for m in shape_area(SQUARE, INKS[Ink.ASKED])] == ["area", "paths", "area"]
    assert [m["kind"] for m in shape_area(SQUARE, INKS[Ink.CONTEXT])] == ["area"]


def test_an_arrow_has_a_head_at_each_end_or_at_one() -> None:
    """The tips lie on its ends."""
    both = arrow((0, 0), (100, 0))
    tips = [mark["points"][0] for mark in both if mark["kind"] == "area"]
    assert sorted(tips) == [[0, 0], [100, 0]]
    one = arrow((0, 0), (100, 0), both=False)
    assert [m["points"][0] for m in one if m["kind"] == "area"] == [[100, 0]]


def test_an_inward_arrow_comes_from_outside() -> None:
    """Its lines lie beyond the two ends, its tips on them."""
    marks = arrow((40, 0), (50, 0), inward=True)
    xs = [x for m in marks if m["kind"] == "paths" for line in m["paths"] for x, _ in line]
    assert all(x < 40 or x > 50 for x in xs)
    assert sorted(m["points"][0] for m in marks if m["kind"] == "area") == [[40, 0], [50, 0]]


def test_a_struck_arrow_is_dashed_and_crossed() -> None:
    """Told apart without colour."""
    (line, *_) = arrow((0, 0), (100, 0), struck=True)
    assert line["line"]["dash"] is not None
    halo, cross = strike((50, 0), 20)
    assert halo["paths"] == cross["paths"]
    assert len(cross["paths"]) == 2


def test_the_two_signs_differ_in_form() -> None:
    """A tick in a full disc, a cross in a ring."""
    tick, cross = sign((0, 0), 20, right=True), sign((0, 0), 20, right=False)
    assert len(tick[1]["paths"]) == 1
    assert len(cross[1]["paths"]) == 2
    assert tick[0]["fill"] != cross[0]["fill"]


def test_marks_are_plain_data() -> None:
    """Numbers, texts and lists, rounded to a hundredth of a pixel."""
    pen = Pen(BLACK, 2)
    assert area(((0.123456, 1), (1, 1)), None, pen)["points"] == [[0.12, 1], [1, 1]]
    assert paths((((0, 0), (1, 1)),), pen)["line"] == {"colour": BLACK, "width": 2, "dash": None}
