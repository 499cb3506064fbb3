"""One order as words."""

from __future__ import annotations

from dataclasses import replace
from datetime import UTC, datetime
from fractions import Fraction
from typing import Any

import pytest

from bot.channels.web.page import Words
from bot.channels.web.sheet import shown_sheet
from bot.contract import design_to_json, request_to_json
from bot.desk.order import Answer, Sheet
from bot.desk.versions import Change, Version
from conversations.locale import catalogue, languages
from sizing.cage import design_cage
from sizing.measures import Below, Frame, Hive, Length, Purpose, Request
from sizing.own_figures import own_figures
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
        "second",
        "dont-know", "default", "caption",
    )  # fmt: skip
    for how in ways:
        values = shown_sheet(a_sheet(a_request(), answer("lid", "auto", how)), Words(language))
        assert values["answers"][0]["how"]


@pytest.mark.parametrize(
    ("question", "reading", "expected", "apart", "by_frame"),
    [
        ("side_to_side", "361", "360", "+1", True),
        ("side_to_side", "359.5", "360", "−0.5", True),
        ("lug_to_lug", "391", "391", "0", True),
        ("lug_thickness", "10", "4 … 20", "0", False),
        ("lug_thickness", "2", "4 … 20", "−2", False),
        ("lug_thickness", None, "4 … 20", "", False),
        ("below", "box", "", "", False),
    ],
)
def test_an_answer_stands_beside_what_is_expected(
    question: str, reading: str | None, expected: str, apart: str, by_frame: bool
) -> None:
    """By the nearest known frame where it says, else by what is usual, with the difference."""
    values = shown_sheet(a_sheet(a_request(), answer(question, reading)), Words("en"))
    (row,) = values["answers"]
    assert (row["expected"], row["apart"], row["by_frame"]) == (expected, apart, by_frame)
    assert values["known"] is not None


def test_the_gravest_doubt_comes_first_and_marks_its_answers() -> None:
    """A stop before a check before a note; a note marks nothing."""
    found = [
        {"code": code, "severity": severity, "measures": [measure], "seen": 1.0,
         "expected": [2, 3], "source": "ours"}
        for code, severity, measure in (
            ("unusual", "note", "comb_thickness"), ("end-gap", "check", "inside_along"),
            ("not-possible", "stop", "side_to_side"),
        )
    ]  # fmt: skip
    answers = [answer(name, "30") for name in ("comb_thickness", "inside_along", "side_to_side")]
    sheet = replace(a_sheet(a_request(), *answers), findings=tuple(found))
    values = shown_sheet(sheet, Words("en"))
    assert [one["severity"] for one in values["findings"]] == ["stop", "check", "note"]
    assert [one["doubted"] for one in values["answers"]] == [False, True, True]


@pytest.mark.parametrize("language", languages())
def test_frames_it_could_be_as_well_are_named_with_what_tells_them(language: str) -> None:
    """435 by 300 has twins, and a frame of the same sizes turned; 360 by 260 has none."""
    frame = Frame(length(435), length(300), length(470))
    words = Words(language)
    twins = shown_sheet(a_sheet(Request(Purpose.ISOLATE, frame)), words)["twins"]
    turned = words("desk.page.turned", frame="Warszawska poszerzana")
    assert turned in twins
    assert any(words("inside_across.title") in one for one in twins)
    assert shown_sheet(a_sheet(a_request()), words)["twins"] == []


def test_what_may_go_wrong_at_the_wires_is_told_in_words() -> None:
    """As low, watch or high; a percentage is told to nobody. Kept designs without it have none."""
    sheet = a_sheet(a_request())
    (cage,) = shown_sheet(sheet, Words("en"))["cages"]
    assert "queen gets out: low" in cage["risks"]
    assert not any("%" in one for one in cage["risks"])
    del sheet.cages[0]["design"]["risks"]
    assert shown_sheet(sheet, Words("en"))["cages"][0]["risks"] == []


def test_each_gap_has_its_chain_as_long_as_it_gives_what_stands_there() -> None:
    """A design that was made with other figures keeps its numbers and shows no chain of today."""
    sheet = a_sheet(a_request(inside_along=length(375)))
    chains = {
        one["name"]: one["chain"] for one in shown_sheet(sheet, Words("en"))["cages"][0]["gaps"]
    }
    assert chains[Words("en")("gap.hive_end")] == "(inside_along 375 − length_outside* 370) / 2"
    for gap in sheet.cages[0]["design"]["gaps"]:
        gap["nominal"] = 99.0
    assert {one["chain"] for one in shown_sheet(sheet, Words("en"))["cages"][0]["gaps"]} == {""}


def test_a_limit_that_touches_is_written_as_one_to_stay_off() -> None:
    """As the workshop's figures have it: a gap of just nothing touches, a bearing of 1 bears."""
    sheet = a_sheet(a_request(inside_along=length(375), lug_room=length(393)))
    must = {one["name"]: one["must"] for one in shown_sheet(sheet, Words("en"))["cages"][0]["gaps"]}
    texts = catalogue("en")
    assert must[texts.text("gap.frame_end")] == "> 0.5"
    assert must[texts.text("gap.ear_play")] == "> 0"
    assert must[texts.text("gap.lid_end")] == "< 4.3"
    assert must[texts.text("gap.hive_end")] == "≥ 0.5"


def test_lines_to_check_by_hand_are_those_of_the_figures_it_was_sized_with() -> None:
    """With other figures in use now the lines are left out: they would not add up."""
    own = own_figures('version = "new"\n[figure.allowance_along]\nvalue = 9\nunit = "mm"')
    sheet = a_sheet(a_request(inside_along=length(375)))
    assert "370" in shown_sheet(sheet, Words("en"))["cages"][0]["chains"]
    assert shown_sheet(sheet, Words("en"), own)["cages"][0]["chains"] == ""
    sheet.cages[0]["design"]["workshop_version"] = own.version
    assert "369" in shown_sheet(sheet, Words("en"), own)["cages"][0]["chains"]


def test_a_change_is_shown_with_both_values() -> None:
    """Lengths with their unit, choices by their label."""
    changes = (
        Change(1, "side_to_side", "360", "721/2"), Change(1, "below", "box", "floor"),
        Change(1, "ledge_up", None, "17"),
    )  # fmt: skip
    version = Version(2, NOW, "beekeeper", "changed", changes)
    sheet = replace(a_sheet(a_request()), versions=(version,))
    (shown,) = shown_sheet(sheet, Words("en"))["versions"]
    assert [(one["before"], one["after"]) for one in shown["changes"]] == [
        ("360 mm", "360.5 mm"), ("Another box", "A floor"), (None, "17 mm"),
    ]  # fmt: skip


@pytest.mark.parametrize("language", languages())
def test_how_sure_a_cage_is_stands_beside_it(language: str) -> None:
    """The joint, the weakest gap and what to measure again; each way with what it would give."""
    frame = Frame(
        length(360), length(260), length(391), length(10), None, None, length(35), length(27)
    )
    hive = Hive(length(375), length(393), length(253), length(17), below=Below.BOX, frames_held=10)
    request = Request(purpose=Purpose.INTRODUCE, frame=frame, hive=hive)
    design = design_cage(request)
    assert design.verdict == "ask"
    assert design.fit.probability is not None
    (cage,) = shown_sheet(a_sheet(request), Words(language))["cages"]
    words = Words(language)
    assert words.share(design.fit.probability) in cage["sure"]
    assert words(f"gap.{design.fit.weakest}") in cage["sure"]
    assert words(f"{design.fit.measure_again}.title") in cage["sure"]
    assert len(cage["would_work"]) == len(design.would_work) > 1
    assert all(way.endswith("%)") for way in cage["would_work"])


def test_nothing_is_said_of_a_cage_with_an_open_gap() -> None:
    """No share is made up."""
    request = a_request()
    open_gap = replace(request, hive=replace(request.hive, lug_room=None))
    (cage,) = shown_sheet(a_sheet(open_gap), Words("en"))["cages"]
    assert cage["sure"] == ""


def test_a_suspicion_shows_its_stories_and_comes_before_other_doubts() -> None:
    """What may have happened, with both factors and what would be true; and what to ask."""
    request = a_request(inside_along=length(375), lug_room=length(393), ledge_down=length(253),
                        ledge_up=length(17))  # fmt: skip
    turned = replace(request, frame=replace(request.frame, side_to_side=length(340)))
    values = shown_sheet(a_sheet(turned), Words("en"))
    first = values["findings"][0]
    assert first["stories"][0].startswith("measured inside, not outside: ")
    assert "× " in first["stories"][0]
    assert "then Side to side 360 mm" in first["stories"][0]
    assert first["proposal"].measure == "side_to_side"
    assert values["findings"][1]["stories"] == []
