"""The sheet to take to the hive: every question that is measured, on one sheet of paper."""

from __future__ import annotations

from collections.abc import Callable
from itertools import combinations
from typing import Any

import pytest

from bot.paperwork.measuring_sheet import BACK, FRONT, measuring_sheet_data
from bot.paperwork.setting import Setter
from bot.paperwork.speech import Speech
from conversations.locale import catalogue, languages
from conversations.script import QUESTIONS, Kind
from sizing.drawings import HINTS

Read = Callable[[bytes], list[Any]]


def test_every_question_that_is_measured_or_has_a_picture_is_on_it() -> None:
    """None twice, and those that are always asked in front."""
    steps = [*FRONT, *BACK]
    assert len(steps) == len(set(steps))
    measured = {step for step, one in QUESTIONS.items() if one.kind is Kind.LENGTH}
    pictured = {step for step in QUESTIONS if step.value in HINTS}
    assert set(steps) == measured | pictured


@pytest.mark.parametrize("language", languages())
def test_it_is_one_sheet_of_a4_with_every_title_and_field(
    setter: Setter, read_pdf: Read, language: str
) -> None:
    """Two pages, front and back; all words of one language; nothing lies on anything."""
    pages = read_pdf(setter.pdf("measuring", measuring_sheet_data(Speech(language))))
    assert len(pages) == 2
    for page, steps in zip(pages, (FRONT, BACK), strict=True):
        assert (page.width, page.height) == pytest.approx((210, 297), abs=0.1)
        text = " ".join(page.text.split())
        for step in steps:
            assert catalogue(language).text(f"{step}.title") in text
        lengths = sum(QUESTIONS[step].kind is Kind.LENGTH for step in steps)
        assert text.split().count("mm") + text.count("mm.") >= 2 * lengths
        boxes = [box for words, box in page.words if words.strip()]
        assert min(left for left, _, _, _ in boxes) > 9
        assert max(right for _, _, right, _ in boxes) < 201
        assert max(bottom for _, _, _, bottom in boxes) < 290
        clashes = [(a, b) for a, b in combinations(boxes, 2) if much_overlap(a, b)]
        assert clashes == []


def much_overlap(a: tuple[float, ...], b: tuple[float, ...]) -> bool:
    """Whether boxes cross by more than the slack of line boxes [mm]."""
    return min(a[2], b[2]) - max(a[0], b[0]) > 0.3 and min(a[3], b[3]) - max(a[1], b[1]) > 0.6
