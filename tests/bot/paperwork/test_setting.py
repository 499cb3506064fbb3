"""Drawings go to the typesetter in few, rounded pieces."""

from __future__ import annotations

from bot.paperwork.drawing import Drawing, Label, Stroke
from bot.paperwork.setting import Setter, drawing_data


def test_lines_of_one_pen_that_follow_each_other_are_drawn_in_one_go() -> None:
    """The order of what lies on what stays."""
    line = Stroke(0.18, ((0.0, 0.0), (1 / 3, 2.0)))
    data = drawing_data(Drawing(10, 10, 5, [line, line, Stroke(0.35, line.points), line]))
    assert [len(one["paths"]) for one in data["strokes"]] == [2, 1, 1]
    assert data["strokes"][0]["paths"][0][1] == [0.333, 2.0]


def test_words_are_placed_by_the_corner_they_turn_about() -> None:
    """Upright words begin at the lower end of their box."""
    lying = Label("a", (1, 2, 3, 4))
    upright = Label("a", (1, 2, 3, 4), upright=True)
    data = drawing_data(Drawing(10, 10, 5, [], [lying, upright]))
    assert [one["y"] for one in data["labels"]] == [2, 4]


def test_a_paper_without_pages_is_still_a_file() -> None:
    """The template alone is sound."""
    assert Setter().pdf("work_order", {"title": "x", "pages": []}).startswith(b"%PDF")
