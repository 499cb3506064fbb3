"""All papers of an order: complete, kept, the same each time."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import replace
from io import BytesIO

import pytest
from PIL import Image

from bot.paperwork.order import PaperOrder
from bot.paperwork.papers import KINDS, Papers
from bot.pictures.sample import SAMPLE
from sizing.measures import Request
from sizing.workshop import Figures

Make = Callable[..., PaperOrder]


@pytest.fixture(scope="module")
def papers(figures: Figures) -> Papers:
    """One for all tests here."""
    return Papers(figures)


def test_an_order_has_its_papers_and_a_drawing_for_every_cage(
    make_order: Make, papers: Papers
) -> None:
    """Named by the order's number; the drawing as PDF, PNG and SVG."""
    made = dict(papers.files(make_order(SAMPLE, SAMPLE), "en"))
    assert {*made} >= {
        "48291742-work-order.pdf", "48291742-copy.pdf", "48291742-labels.pdf",
        "48291742-patterns.dxf", "48291742-cut-list.csv",
        *(f"48291742-drawing-{n}.{form}" for n in (1, 2) for form in ("pdf", "png", "svg")),
    }  # fmt: skip
    for name, data in made.items():
        beginning = {"pdf": b"%PDF", "png": b"\x89PNG", "svg": b"<svg"}.get(name[-3:])
        assert beginning is None or data.startswith(beginning), name
    image = Image.open(BytesIO(made["48291742-drawing-1.png"]))
    assert image.width == pytest.approx(210 / 25.4 * 150, abs=1)


def test_a_cage_that_lacks_a_size_has_no_patterns(make_order: Make, papers: Papers) -> None:
    """Nothing is cut by a guess; its cut list is empty and its other papers are there."""
    lacking = Request(purpose=SAMPLE.purpose, frame=SAMPLE.frame)
    made = dict(papers.files(make_order(lacking), "en"))
    assert "48291742-patterns.dxf" not in made
    assert made["48291742-cut-list.csv"].count(b"\r\n") == 1
    assert "48291742-work-order.pdf" in made


def test_the_copy_can_be_in_another_language_than_the_rest(
    make_order: Make, papers: Papers
) -> None:
    """The bench reads its own language, the customer theirs."""
    order = make_order()
    made = dict(papers.files(order, "en", "pl"))
    assert made["48291742-copy.pdf"] == papers.pdf("copy", order, "pl")
    assert made["48291742-labels.pdf"] == papers.pdf("labels", order, "en")


def test_the_same_paper_is_made_once(make_order: Make, papers: Papers) -> None:
    """Asked again it is the same object; another version, stage or language is another paper."""
    order = make_order()
    first = papers.pdf("work-order", order, "en")
    assert papers.pdf("work-order", make_order(), "en") is first
    for other in (replace(order, version=4), replace(order, stage="made")):
        assert papers.pdf("work-order", other, "en") != first
    assert papers.pdf("work-order", order, "pl") != first
    assert papers.measuring_sheet("en") is papers.measuring_sheet("en")


def test_two_makers_make_the_same_bytes(make_order: Make, papers: Papers, figures: Figures) -> None:
    """Nothing of the moment gets into any of them."""
    again = dict(Papers(figures).files(make_order(), "pl"))
    assert again == dict(papers.files(make_order(), "pl"))


def test_there_are_no_other_papers(make_order: Make, papers: Papers) -> None:
    """An unknown kind or language is an error, not an empty file."""
    with pytest.raises(KeyError):
        papers.pdf("bill", make_order(), "en")
    with pytest.raises(KeyError):
        papers.pdf(KINDS[0], make_order(), "xx")
