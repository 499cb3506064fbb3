"""Tables hold text and nothing that a spreadsheet works out."""

from __future__ import annotations

import csv

import pytest

from bot.paperwork.spreadsheet import harmless, table


@pytest.mark.parametrize("cell", ["=1+1", "+48 601", "-2", "@SUM(A1)", "\t=1", "\r=1", "\n=1"])
def test_a_cell_that_begins_like_a_formula_is_text(cell: str) -> None:
    """An apostrophe stands before it; nothing of it is lost."""
    assert harmless(cell) == f"'{cell}"


@pytest.mark.parametrize("cell", ["360", "Anna = queen", "a+b", "", "'x"])
def test_any_other_cell_stays_as_it_is(cell: str) -> None:
    """Signs inside do no harm."""
    assert harmless(cell) == cell


def test_a_table_reads_back_with_commas_quotes_and_line_breaks() -> None:
    """As other programs read it, in UTF-8 that spreadsheets know by its mark."""
    made = table(("a", "b"), [('x, "y"', "ż\nz"), ("=1", "2")])
    text = made.decode("utf-8-sig")
    assert made.startswith(b"\xef\xbb\xbf")
    assert list(csv.reader(text.splitlines(keepends=True))) == [
        ["a", "b"], ['x, "y"', "ż\nz"], ["'=1", "2"],
    ]  # fmt: skip
