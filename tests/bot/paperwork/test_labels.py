"""Labels: one for the parcel, one for every cage, each with a code that reads."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import replace
from itertools import combinations
from typing import Any

import pytest
import zxingcpp
from PIL.Image import Image

from bot.paperwork.labels import labels_data
from bot.paperwork.order import PaperOrder
from bot.paperwork.setting import Setter
from bot.paperwork.speech import Speech
from bot.pictures.sample import SAMPLE
from conversations.locale import languages

Make = Callable[..., PaperOrder]
Read = Callable[[bytes], list[Any]]
Render = Callable[[bytes], list[Image]]

LONG = "Somebody with a long name, a long street 123456, a village far away, " * 4


def many(order: PaperOrder, pieces: int) -> PaperOrder:
    """The same order for so many of each cage."""
    return replace(order, cages=tuple(replace(cage, pieces=pieces) for cage in order.cages))


@pytest.mark.parametrize("pieces", [1, 3, 20])
def test_there_is_a_label_for_every_piece_and_one_for_the_parcel(
    make_order: Make, setter: Setter, read_pdf: Read, render: Render, pieces: int
) -> None:
    """Each has the number in words and as a code; nothing is lost between pages."""
    pdf = setter.pdf("labels", labels_data(many(make_order(), pieces), Speech("en")))
    text = " ".join(page.text.replace("\u00a0", " ") for page in read_pdf(pdf))
    assert text.count("482 917 42-1") == pieces
    assert text.count("482 917 42") == pieces + 1
    for n in range(1, pieces + 1):
        assert f"{n} / {pieces}" in text
    codes = [code.text for image in render(pdf) for code in zxingcpp.read_barcodes(image)]
    assert codes == ["48291742"] * (pieces + 1)


@pytest.mark.parametrize("language", languages())
def test_words_stay_on_their_label(
    make_order: Make, setter: Setter, read_pdf: Read, language: str
) -> None:
    """Also a long name and a long contact: no box on another, none off the sheet."""
    order = many(make_order(SAMPLE, SAMPLE, label="Ramka " * 12, contact=LONG), 2)
    for page in read_pdf(setter.pdf("labels", labels_data(order, Speech(language)))):
        boxes = [box for text, box in page.words if text.strip()]
        for left, top, right, bottom in boxes:
            assert left > 8
            assert right < 202
            assert top > 8
            assert bottom < 289
        assert [(a, b) for a, b in combinations(boxes, 2) if much_overlap(a, b)] == []


def much_overlap(a: tuple[float, ...], b: tuple[float, ...]) -> bool:
    """Whether boxes cross by more than the slack of line boxes [mm]."""
    return min(a[2], b[2]) - max(a[0], b[0]) > 0.3 and min(a[3], b[3]) - max(a[1], b[1]) > 0.6


def test_what_was_typed_as_contact_is_one_line_and_never_markup(
    make_order: Make, setter: Setter, read_pdf: Read
) -> None:
    """Line breaks become spaces; signs of the typesetter stay what they are."""
    order = make_order(contact="#a *b*\n\n$c$")
    (page,) = read_pdf(setter.pdf("labels", labels_data(order, Speech("en"))))
    assert "#a *b* $c$" in page.text
