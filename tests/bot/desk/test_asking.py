"""A measure is known by its id and by what it is called."""

from __future__ import annotations

import pytest

from bot.desk.asking import MEASURES, named
from conversations.locale import catalogue, languages


@pytest.mark.parametrize("language", languages())
def test_each_measure_is_known_by_its_title(language: str) -> None:
    """In every language, in capitals too, with the words that follow."""
    for measure in MEASURES:
        title = catalogue(language).text(f"{measure}.title")
        assert named(f"{title.upper()}: once more, please") == (measure, "once more, please")
    assert named("lug_room please") == ("lug_room", "please")


def test_what_begins_with_no_measure_is_left_as_it_is() -> None:
    """Also where it only begins like one."""
    assert named("outside, please") == (None, "outside, please")
    assert named("lug_roomy") == (None, "lug_roomy")
    assert named("") == (None, "")
