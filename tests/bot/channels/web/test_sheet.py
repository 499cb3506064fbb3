"""One order as words."""

from __future__ import annotations

from datetime import UTC, datetime
from fractions import Fraction
from typing import Any

import pytest

from bot.channels.web.page import Words
from bot.channels.web.sheet import shown_sheet
from bot.contract import design_to_json, request_to_json
from bot.desk.order import Answer, Sheet
from conversations.locale import languages
from sizing.cage import design_cage
from sizing.measures import Frame, Hive, Length, Purpose, Request
from sizing.plausibility.ranges import relation

NOW = datetime(2026, 3, 2, 9, tzinfo=UTC)


def a_sheet(request: Request, *answers: Answer) -> Sheet:
    """An order for this cage."""
    design = design_to_json(design_cage(request))
    cage = {
        "item": 1,
        "label": "",
        "pieces": 2,
        "request": request_to_json(request),
        "design": design,
    }
    return Sheet(
        number="48291742", version=1, stage="handed-in", turn="desk", person="anna", contact=None,
        handed_in_at=NOW, cages=(cage,), findings=tuple(design["findings"]), answers=answers,
        photos=(), notes=(), stages=(),
    )  # fmt: skip


def length(value: int) -> Length:
    """A length that was read once [mm]."""
    return Length((Fraction(value),))


def a_request(**hive: Any) -> Request:
    """A cage for a frame of 360 by 260."""
    frame = Frame(length(360), length(260), length(391))
    return Request(purpose=Purpose.ISOLATE, frame=frame, hive=Hive(**hive))


def answer(question: str, reading: str | None, how: str = "typed") -> Answer:
    """An answer that was given."""
    return Answer(question=question, raw="raw", reading=reading, how=how, at=NOW)


@pytest.mark.parametrize(
    ("question", "reading", "written"),
    [
        ("side_to_side", "360.5", "360,5 mm"),
        ("side_to_side", "1081/3", "360,33 mm"),
        ("frames_held", "10", "10"),
        ("below", "box", "Drugi korpus"),
        ("frame_name", None, None),
    ],
)
def test_an_answer_is_shown_as_what_it_is(
    question: str, reading: str | None, written: str | None
) -> None:
    """Lengths with their unit, counts bare, choices by their label, what is open as open."""
    values = shown_sheet(a_sheet(a_request(), answer(question, reading)), Words("pl"))
    assert values["answers"][0]["reading"] == written


@pytest.mark.parametrize("language", languages())
def test_a_cage_that_is_mostly_open_can_be_shown(language: str) -> None:
    """What is missing stands as a question mark or is named; nothing is left out."""
    values = shown_sheet(a_sheet(a_request()), Words(language))
    (cage,) = values["cages"]
    assert cage["outside"].endswith("× ?")
    assert cage["verdict"] == "ask"
    assert {gap["verdict"] for gap in cage["gaps"]} >= {"open", "ok"}
    assert cage["open"]


@pytest.mark.parametrize("language", languages())
def test_a_doubt_is_named_with_what_is_usual(language: str) -> None:
    """A hive narrower than its frame: the words, the measures, the figures."""
    sheet = a_sheet(a_request(inside_along=length(350)))
    findings = shown_sheet(sheet, Words(language))["findings"]
    finding = next(one for one in findings if one["seen"] == "-10")
    usual = relation("end-gap")
    assert finding["words"] == Words(language)("finding.end-gap")
    assert usual.low is not None
    assert usual.high is not None
    assert finding["expected"] == Words(language).span(float(usual.low), float(usual.high))
    assert finding["measures"]


@pytest.mark.parametrize("language", languages())
def test_every_way_of_answering_has_a_name(language: str) -> None:
    """What the record of answers may hold, the desk can read."""
    ways = (
        "typed", "bundled", "chosen", "proposed", "edited", "changed", "asked-again",
        "dont-know", "default", "caption",
    )  # fmt: skip
    for how in ways:
        values = shown_sheet(a_sheet(a_request(), answer("lid", "auto", how)), Words(language))
        assert values["answers"][0]["how"]
