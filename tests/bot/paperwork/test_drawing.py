"""The bench's views on paper: to a preferred scale, nothing over anything."""

from __future__ import annotations

from itertools import combinations

import pytest

from bot.paperwork.drawing import SCALES, Box, Drawing
from bot.paperwork.order import PaperCage
from bot.paperwork.speech import Speech
from bot.paperwork.work_order import HEIGHT, WIDTH, bench_drawing
from conversations.locale import languages
from sizing.measures import Request
from sizing.workshop import Figures


def overlap(a: Box, b: Box) -> bool:
    """Whether two boxes have more than an edge in common."""
    return a[0] < b[2] and b[0] < a[2] and a[1] < b[3] and b[1] < a[3]


@pytest.fixture(params=languages())
def drawing(request: pytest.FixtureRequest, request_: Request, figures: Figures) -> Drawing:
    """The drawing of every kind of cage in every language."""
    return bench_drawing(PaperCage.sized(request_, figures), figures, Speech(request.param))


def test_words_lie_neither_on_each_other_nor_off_the_field(drawing: Drawing) -> None:
    """Each box of words is alone and inside 180 by 128 mm."""
    boxes = [label.box for label in drawing.labels]
    assert len(boxes) >= 6
    for left, top, right, bottom in boxes:
        assert left >= 0
        assert top >= 0
        assert right <= WIDTH + 1e-6
        assert bottom <= HEIGHT + 1e-6
    clashes = [(a, b) for a, b in combinations(drawing.labels, 2) if overlap(a.box, b.box)]
    assert clashes == []


def test_no_line_leaves_the_field(drawing: Drawing) -> None:
    """Outlines, dimension lines and arrows stay inside."""
    points = [point for stroke in drawing.strokes for point in stroke.points]
    assert min(x for x, _ in points) >= 0
    assert min(y for _, y in points) >= 0
    assert max(x for x, _ in points) <= WIDTH
    assert max(y for _, y in points) <= HEIGHT


def test_the_scale_is_a_preferred_one_and_the_largest_that_fits(drawing: Drawing) -> None:
    """1:1, 1:2, 1:5, 1:10 …; one step larger would not go in."""
    assert drawing.scale in SCALES
    xs = [x for stroke in drawing.strokes for x, _ in stroke.points]
    ys = [y for stroke in drawing.strokes for _, y in stroke.points]
    larger = SCALES[SCALES.index(drawing.scale) - 1]
    grown = drawing.scale / larger
    assert (max(xs) - min(xs)) * grown > WIDTH * 0.6 or (max(ys) - min(ys)) * grown > HEIGHT * 0.6


def test_words_keep_off_the_outlines(drawing: Drawing) -> None:
    """No number stands on the cage itself, where wires would cross it."""
    solids = [bounds(stroke.points) for stroke in drawing.strokes if stroke.width >= 0.3]
    on_it = [
        label.text for label in drawing.labels for solid in solids if overlap(label.box, solid)
    ]
    assert on_it == []


def bounds(points: tuple[tuple[float, float], ...]) -> Box:
    """The box round some points."""
    xs, ys = [x for x, _ in points], [y for _, y in points]
    return min(xs), min(ys), max(xs), max(ys)
