"""The customer's copy says what was measured, what was chosen, and what comes of it."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import replace
from itertools import combinations
from typing import Any

import pytest

from bot.paperwork.customer_copy import customer_copy_data
from bot.paperwork.order import PaperOrder
from bot.paperwork.setting import Setter
from bot.paperwork.speech import Speech
from bot.pictures.sample import SAMPLE
from conversations.locale import catalogue, languages
from sizing.cage import Caution
from sizing.measures import FRAME_LENGTHS, HIVE_LENGTHS, Request
from sizing.workshop import Figures

Make = Callable[..., PaperOrder]
Read = Callable[[bytes], list[Any]]


@pytest.mark.parametrize("language", languages())
def test_every_length_that_was_given_stands_on_it(
    make_order: Make,
    request_: Request,
    setter: Setter,
    figures: Figures,
    read_pdf: Read,
    language: str,
) -> None:
    """By its name in the conversation, with its value; and the sizes of the cage."""
    order, speech = make_order(request_, label="#panic() *a* <b>"), Speech(language)
    (page,) = read_pdf(setter.pdf("copy", customer_copy_data(order, figures, speech)))
    text = " ".join(page.text.replace("\u00a0", " ").split())
    assert "482 917 42" in text
    assert "#panic() *a* <b>" in text
    given = {name: getattr(request_.frame, name) for name in FRAME_LENGTHS}
    given |= {name: getattr(request_.hive, name) for name in HIVE_LENGTHS}
    lengths = {name: value for name, value in given.items() if value is not None}
    assert len(lengths) >= 8
    for name, length in lengths.items():
        assert catalogue(language).text(f"{name}.title").split(",")[0] in text
        assert f"{speech.figure(length.value)} mm" in text
    sizes = order.cages[0].design.cage
    for value in (sizes.length_outside, sizes.height_overall, sizes.ear_span):
        assert f"{speech.figure(value)} mm" in text
    for caution in order.cages[0].design.cautions:
        assert catalogue(language).text(f"paper.told.{caution}") in text


def test_it_says_where_the_order_stands(make_order: Make, figures: Figures) -> None:
    """Until it is cleared things can be changed; after that it is made to this copy."""
    cleared, speech = make_order(), Speech("en")
    waiting = replace(cleared, cleared=None, stage="handed-in")
    assert customer_copy_data(cleared, figures, speech)["state"] == (
        "Version 3 · handed in March 2, 2026 · cleared March 3, 2026"
    )
    assert "the workshop checks it" in customer_copy_data(waiting, figures, speech)["state"]
    assert (
        customer_copy_data(cleared, figures, speech)["next"]
        != (customer_copy_data(waiting, figures, speech)["next"])
    )


def test_several_readings_are_shown_with_what_counts(make_order: Make, figures: Figures) -> None:
    """393 and 393.5 count as their mean, and both stand there."""
    (cage,) = customer_copy_data(make_order(SAMPLE), figures, Speech("en"))["cages"]
    assert ("Room for the lugs", "393 / 393.5 → 393.25\u00a0mm") in cage["measured"]


def test_what_was_not_measured_is_listed_as_assumed(make_order: Make, figures: Figures) -> None:
    """With its value and where that comes from."""
    (cage,) = customer_copy_data(make_order(SAMPLE), figures, Speech("en"))["cages"]
    assert "Room below: 7\u00a0mm (taken from a box of the same kind)" in cage["assumed"]


@pytest.mark.parametrize("language", languages())
def test_words_lie_neither_on_each_other_nor_off_the_page(
    make_order: Make,
    request_: Request,
    setter: Setter,
    figures: Figures,
    read_pdf: Read,
    language: str,
) -> None:
    """Outside the drawing, where words may stand on the wood, every box of words is alone."""
    data = customer_copy_data(make_order(request_), figures, Speech(language))
    (page,) = read_pdf(setter.pdf("copy", data))
    boxes = [box for text, box in page.words if text.strip()]
    assert len(boxes) > 30
    for left, top, right, bottom in boxes:
        assert left > 10
        assert right < 200
        assert top > 8
        assert bottom < 292
    clashes = [(a, b) for a, b in combinations(boxes, 2) if much_overlap(a, b)]
    assert clashes == []


def much_overlap(a: tuple[float, ...], b: tuple[float, ...]) -> bool:
    """Whether boxes cross by more than the slack of line boxes [mm]."""
    return min(a[2], b[2]) - max(a[0], b[0]) > 0.3 and min(a[3], b[3]) - max(a[1], b[1]) > 0.6


def test_every_caution_has_its_words() -> None:
    """Whatever a design warns of is told to the customer."""
    for language in languages():
        for caution in Caution:
            assert catalogue(language).has(f"paper.told.{caution}")


def test_more_cages_have_a_page_each(
    make_order: Make, setter: Setter, figures: Figures, read_pdf: Read
) -> None:
    """And the pages are numbered."""
    data = customer_copy_data(make_order(SAMPLE, SAMPLE), figures, Speech("en"))
    pages = read_pdf(setter.pdf("copy", data))
    assert ["1 / 2" in pages[0].text, "2 / 2" in pages[1].text] == [True, True]
