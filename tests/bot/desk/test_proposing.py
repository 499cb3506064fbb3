"""What the desk may ask back about a doubt."""

from __future__ import annotations

from fractions import Fraction
from typing import Any

import pytest

from bot.contract import design_to_json
from bot.desk.proposing import Proposal, proposed
from sizing.cage import design_cage
from sizing.measures import Below, Frame, Hive, Length, Purpose, Request


def length(value: float) -> Length:
    """A length that was read once [mm]."""
    return Length((Fraction(str(value)),))


def finding(code: str, side: float = 360, height: float = 260, down: float = 253) -> dict[str, Any]:
    """The doubt of that code about a usual order with one other number."""
    request = Request(
        Purpose.ISOLATE,
        Frame(length(side), length(height), length(391), length(10)),
        Hive(length(375), length(393), length(down), length(17), Below.BOX),
    )
    found = design_to_json(design_cage(request))["findings"]
    return next(one for one in found if one["code"] == code)


@pytest.mark.parametrize(
    ("language", "words"),
    [("en", "Please lay the tape so: From the very top"), ("pl", "Proszę ułożyć miarkę tak")],
)
def test_a_misunderstanding_is_asked_about_in_the_beekeepers_words(
    language: str, words: str
) -> None:
    """Which length, and how the tape should lie; the suspected value is not in it."""
    found = proposed(finding("mixup", height=238), language)
    assert found is not None
    assert found.measure == "top_to_bottom"
    assert found.note.startswith(words)
    assert "238" not in found.note


def test_a_slip_is_only_read_again() -> None:
    """A blind second reading needs no words."""
    assert proposed(finding("mixup", down=235), "en") == Proposal("ledge_down", "")


def test_a_turned_frame_is_asked_about_without_marks() -> None:
    """Which is longer, in plain words."""
    found = proposed(finding("mixup", side=260, height=360), "en")
    assert found is not None
    assert "Which is longer" in found.note
    assert "<b>" not in found.note


def test_an_inch_tape_is_asked_about_by_its_marks() -> None:
    """The name of the length stands in the question."""
    found = proposed(finding("mixup", side=141.7), "en")
    assert found is not None
    assert "Look at your tape for Side to side" in found.note


def test_a_doubt_that_was_not_weighed_asks_for_its_first_length() -> None:
    """And a note asks for nothing, nor does what is no length."""
    hang = finding("hang", height=238)
    assert proposed(hang, "en") == Proposal(hang["measures"][0], "")
    assert proposed(finding("near-known", height=238), "en") is None
    counted = {"severity": "check", "measures": ["frames_held"]}
    assert proposed(counted, "en") is None
