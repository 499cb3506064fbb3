"""Words of a picture: numbers as the language writes them, lines that fit."""

from __future__ import annotations

import re
from fractions import Fraction
from importlib import resources

import pytest

from bot.pictures.sample import SAMPLE
from bot.pictures.style import FONT
from bot.pictures.words import Block, Placed, number, say, wrapped
from conversations.locale import catalogue, languages
from sizing.drawings import CAGE, HINTS, scene_of


@pytest.mark.parametrize(("value", "language", "written"), [
    ("370", "en", "370"), ("393.25", "en", "393.3"), ("393.25", "pl", "393,3"),
    ("1/3", "pl", "0,3"), ("-0.5", "en", "-0.5"),
])  # fmt: skip
def test_a_length_is_written_to_a_tenth_with_the_mark_of_the_language(
    value: str, language: str, written: str
) -> None:
    """Without a decimal where there is nothing behind it."""
    assert number(Fraction(value), language) == written


def test_a_length_goes_where_the_words_have_a_place_for_it() -> None:
    """Alone where there are no words."""
    assert say("en", "picture.cage.cage", Fraction(370)) == "cage 370"
    assert say("en", None, Fraction(48)) == "48"
    assert say("en", "picture.tip_tip") == "tip to tip"
    assert say("en", None) == ""


def test_lines_are_no_wider_than_their_room() -> None:
    """Broken between words; one long word stays whole."""
    block = wrapped("one two three four five", 20, 120)
    assert len(block.lines) > 1
    assert block.width <= 120
    assert " ".join(block.lines) == "one two three four five"
    assert wrapped("indivisible", 20, 10).lines == ("indivisible",)


def test_a_placed_block_knows_its_box() -> None:
    """Upper left corner, width of the longest line, height of all."""
    block = Block(("ab", "abc"), 10)
    left, top, right, bottom = Placed(block, 5, 6).box
    assert (left, top) == (5, 6)
    assert right - left == FONT.width("abc", 10)
    assert bottom - top == 2 * FONT.height(10)


def keys_of_scenes() -> set[str]:
    """Every key that some scene uses."""
    used: set[str] = set()
    for scene in [scene_of(name) for name in HINTS] + [scene_of(CAGE, SAMPLE)]:
        for view in scene.views:
            used.update(key for key in [view.caption] if key)
            used.update(d.label for d in view.dimensions if d.label)
            used.update(n.label for n in view.notes if n.label)
    return used | {"picture.cage.tight", "picture.cage.fails"}


@pytest.mark.parametrize("language", ["en", "pl"])
def test_the_catalogues_of_pictures_hold_the_keys_that_are_used(language: str) -> None:
    """None is missing and none is left over."""
    locale = resources.files("conversations.locale")
    text = locale.joinpath(language, "pictures.po").read_text(encoding="utf-8")
    assert set(re.findall(r'^msgid "(picture\..*)"$', text, re.MULTILINE)) == keys_of_scenes()


@pytest.mark.parametrize("language", languages())
def test_words_are_few(language: str) -> None:
    """A picture is looked at: no text of it has more than 45 characters."""
    for key in keys_of_scenes():
        assert len(catalogue(language).text(key)) <= 45, key
