"""The cut list is that of the design, on paper and in a table."""

from __future__ import annotations

import csv
from collections.abc import Callable
from dataclasses import replace

import pytest

from bot.paperwork.cut_list import cut_list_csv, cut_rows, cuttable
from bot.paperwork.order import PaperOrder
from bot.paperwork.speech import Speech
from bot.pictures.sample import SAMPLE
from conversations.locale import languages
from sizing.fabrication.cuts import cuts_of
from sizing.measures import Request
from sizing.workshop import Figures

Make = Callable[..., PaperOrder]


@pytest.mark.parametrize("language", languages())
def test_every_part_has_its_row_with_all_sizes(
    make_order: Make, figures: Figures, language: str
) -> None:
    """Wires with length and diameter, blanks with length, width and thickness, all pieces."""
    cage = replace(make_order().cages[0], pieces=3)
    rows = cut_rows(cage, figures, Speech(language))
    cuts = cuts_of(cage.design, SAMPLE.material, 3, figures)
    assert [int(count) for _, _, count in rows] == [cut.count for cut in cuts]
    for (_, sizes, _), cut in zip(rows, cuts, strict=True):
        assert sizes.count("×") == (1 if cut.width is None else 2)
        assert sizes.startswith(Speech(language).figure(cut.length))


def test_the_table_has_numbers_a_program_reads(make_order: Make, figures: Figures) -> None:
    """Also in Polish with a point; a label that looks like a formula is text."""
    order = make_order(SAMPLE, SAMPLE, label="=HYPERLINK(1)")
    made = cut_list_csv(order, figures, Speech("pl")).decode("utf-8-sig")
    rows = list(csv.DictReader(made.splitlines()))
    cuts = cuts_of(order.cages[0].design, SAMPLE.material, 1, figures)
    assert len(rows) == 2 * len(cuts)
    for row, cut in zip(rows, cuts, strict=False):
        assert float(row["length_mm"]) == pytest.approx(float(cut.length), abs=0.0005)
        assert row["width_mm"] == "" or float(row["width_mm"]) > 0
        assert row["label"] == "'=HYPERLINK(1)"
    assert {row["item"] for row in rows} == {"1", "2"}


def test_a_cage_with_an_open_size_has_no_cut_list(make_order: Make, figures: Figures) -> None:
    """It is not guessed."""
    lacking = make_order(Request(purpose=SAMPLE.purpose, frame=SAMPLE.frame)).cages[0]
    assert not cuttable(lacking, figures)
    assert cut_rows(lacking, figures, Speech("en")) == []
    assert cuttable(make_order().cages[0], figures)
