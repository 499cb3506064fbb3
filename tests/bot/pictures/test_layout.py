"""Words stay on the sheet, apart from each other and from arrows."""

from __future__ import annotations

from itertools import combinations

import pytest

from bot.pictures.layout import Box, Sheet, compose
from bot.pictures.marks import Pixel
from bot.pictures.style import WIDTH
from conversations.effects import Picture
from conversations.locale import languages
from sizing.drawings import HINTS, scene_of
from sizing.drawings.shapes import (
    Dimension,
    Note,
    Role,
    Row,
    Scene,
    Side,
    View,
    rectangle,
)


def meet(a: Box, b: Box) -> bool:
    """Whether two boxes share more than an edge."""
    return a[0] < b[2] and b[0] < a[2] and a[1] < b[3] and b[1] < a[3]


def crosses(box: Box, arrow: tuple[Pixel, Pixel]) -> bool:
    """Whether a straight, level or upright arrow runs through a box."""
    (ax, ay), (bx, by) = arrow
    return meet(box, (min(ax, bx) - 1, min(ay, by) - 1, max(ax, bx) + 1, max(ay, by) + 1))


def check_words(sheet: Sheet, what: object) -> None:
    """All words lie on the sheet, and none on another or on a sign."""
    boxes = [words.box for words in sheet.words]
    for left, top, right, bottom in (*boxes, *sheet.signs):
        assert left >= 0, what
        assert top >= 0, what
        assert right <= sheet.width, what
        assert bottom <= sheet.height, what
    for one, other in combinations([*boxes, *sheet.signs], 2):
        assert not meet(one, other), (what, one, other)


@pytest.mark.parametrize("language", languages())
@pytest.mark.parametrize("name", HINTS)
def test_words_of_a_how_to_picture_keep_clear(name: str, language: str) -> None:
    """Inside the sheet, off each other, off the signs, and off every arrow."""
    sheet = compose(scene_of(name), language)
    check_words(sheet, name)
    for words in sheet.words:
        assert not any(crosses(words.box, arrow) for arrow in sheet.arrows), (name, words)


@pytest.mark.parametrize("language", languages())
def test_words_of_a_cage_picture_keep_clear(cages: tuple[Picture, ...], language: str) -> None:
    """For every known frame and for tight, impossible and little known cages."""
    assert len(cages) > 30
    for picture in cages:
        check_words(compose(scene_of(picture.name, picture.request), language), picture.request)


@pytest.mark.parametrize("name", HINTS)
def test_nothing_is_drawn_off_the_sheet(name: str) -> None:
    """Every point of every mark lies on it."""
    sheet = compose(scene_of(name), "en")
    for mark in sheet.marks:
        lines = [mark["points"]] if mark["kind"] == "area" else mark["paths"]
        for x, y in (point for line in lines for point in line):
            assert 0 <= x <= sheet.width, mark
            assert 0 <= y <= sheet.height, mark


def view_with(
    *dimensions: Dimension, role: Role = Role.PLAIN, notes: tuple[Note, ...] = ()
) -> View:
    """A square of 100 mm with arrows."""
    return View((rectangle(0, 0, 100, 100, "square"),), dimensions, notes, role)


def sheet_of(*views: View, one_scale: bool = False) -> Sheet:
    """One row of views on a square sheet."""
    return compose(Scene("test", (Row(views, 1.0, one_scale),), 1.0), "en")


def test_a_sheet_is_as_wide_as_all_and_as_tall_as_its_scene() -> None:
    """The tallness is height over width."""
    sheet = sheet_of(view_with())
    assert (sheet.width, sheet.height) == (WIDTH, WIDTH)


def test_a_view_fills_its_room() -> None:
    """Its wider direction reaches from edge to edge."""
    arrow = Dimension((0, 0), (100, 0), ("square", "square"))
    ((ax, _), (bx, _)) = sheet_of(view_with(arrow)).arrows[0]
    assert bx - ax > 0.9 * WIDTH


def test_views_of_one_scale_draw_equal_things_equally_large() -> None:
    """Without it each view takes what room it has."""
    arrow = Dimension((0, 0), (100, 0), ("square", "square"))
    long = View((rectangle(0, 0, 300, 100, "square"),), (arrow,))
    for one_scale in (True, False):
        sizes = [
            bx - ax for (ax, _), (bx, _) in
            sheet_of(view_with(arrow), long, one_scale=one_scale).arrows
        ]  # fmt: skip
        assert (sizes[0] == pytest.approx(sizes[1])) is one_scale


@pytest.mark.parametrize("side", list(Side))
def test_words_stand_on_the_side_they_are_given(side: Side) -> None:
    """Above, below, left of, right of, or on their point."""
    note = Note((50, 50), number=7, side=side)
    arrow = Dimension((50, 0), (50, 50), ("square", "square"), upright=True)
    sheet = sheet_of(view_with(arrow, notes=(note,)))
    left, top, right, bottom = sheet.words[0].box
    x, y = sheet.arrows[0][1]
    where = {
        Side.ABOVE: bottom < y,
        Side.BELOW: top > y,
        Side.LEFT: right < x,
        Side.RIGHT: left > x,
        Side.ON: left < x < right and top < y < bottom,
    }
    assert where[side]


def test_a_mistake_carries_its_sign_and_the_answer_its_own() -> None:
    """One sign before the words of each."""
    arrow = Dimension((0, 0), (100, 0), ("square", "square"), "picture.tip_tip")
    right = view_with(arrow, role=Role.RIGHT)
    wrong = View(right.shapes, role=Role.WRONG, caption="picture.not_inside")
    sheet = sheet_of(right, wrong)
    assert len(sheet.signs) == 2
    for words in sheet.words:
        nearest = min(sheet.signs, key=lambda box: abs(box[2] - words.x))
        assert nearest[2] < words.x
        assert nearest[1] < (words.box[1] + words.box[3]) / 2 < nearest[3]


def test_tight_words_are_white_on_black() -> None:
    """So that they are seen without colour."""
    arrow = Dimension((0, 0), (100, 0), ("square", "square"), "picture.tip_tip", tight=True)
    (words,) = sheet_of(view_with(arrow)).words
    assert (words.colour, words.plate) == ("#ffffff", "#101010")
