"""Every journey of this folder holds, and a journey that does not hold is noticed."""

from __future__ import annotations

from pathlib import Path

import pytest
from player import Player, journeys

FOLDER = Path(__file__).parent
ALL = journeys(FOLDER)
MOST_MESSAGES = 20
MOST_BUNDLED = 16

SHORT = """
anna> hello
anna? language
anna> [en]
anna? purpose
anna> [isolate]
"""


@pytest.mark.parametrize("journey", ALL, ids=[path.stem for path in ALL])
def test_a_journey_goes_as_it_is_written(journey: Path) -> None:
    """Each line a person or the desk must see is seen, each question asked is the one written."""
    player = Player()
    player.play(journey.read_text(encoding="utf-8"))
    assert player.effects


def test_a_whole_order_takes_at_most_twenty_messages() -> None:
    """From the first word to handing in, both counted, one answer at a time."""
    assert acts_of("happy_path") <= MOST_MESSAGES
    assert acts_of("happy_path_polish") <= MOST_MESSAGES


def test_a_bundled_order_takes_at_most_sixteen_messages() -> None:
    """The yes to each bundle is counted too."""
    assert acts_of("bundled") <= MOST_BUNDLED


def acts_of(name: str) -> int:
    """How many messages and taps the one person of a journey needed for her one order."""
    player = Player()
    player.play((FOLDER / f"{name}.txt").read_text(encoding="utf-8"))
    (person,) = player.people.values()
    assert len(person.orders) == 1
    return person.acts


@pytest.mark.parametrize(
    "line",
    [
        "anna< nobody ever says this",
        "anna< not: Name of the frame",
        "anna? lug_room",
        "anna? frame_name again",
        "orders< 1",
        "count anna< 2",
        "desk< handed in",
        "desk:maria< refused newer-version",
    ],
)
def test_a_journey_that_does_not_hold_is_noticed(line: str) -> None:
    """What was not said, asked, counted or refused fails, and the line is named."""
    with pytest.raises(AssertionError, match="line 7"):
        Player().play(f"{SHORT}{line}\n")


def test_a_line_that_is_no_form_of_a_journey_is_an_error() -> None:
    """A slip in a journey is not taken for a remark."""
    with pytest.raises(ValueError, match="line 2"):
        Player().play("anna> hello\nanna says nothing\n")
