"""Tables for spreadsheets, in which no cell can be taken for a formula."""

from __future__ import annotations

import csv
from collections.abc import Iterable, Sequence
from io import StringIO

__all__ = ["harmless", "table"]

_BEGINNINGS = ("=", "+", "-", "@", "\t", "\r", "\n")
"""A cell that begins so is worked out by spreadsheets instead of shown."""


def harmless(cell: str) -> str:
    """The cell, with an apostrophe before it where a spreadsheet would take it for a formula."""
    return f"'{cell}" if cell.startswith(_BEGINNINGS) else cell


def table(head: Sequence[str], rows: Iterable[Sequence[str]]) -> bytes:
    """A table of text as CSV (RFC 4180), with the mark by which spreadsheets know UTF-8."""
    text = StringIO()
    writer = csv.writer(text)
    writer.writerow(head)
    writer.writerows([harmless(cell) for cell in row] for row in rows)
    return text.getvalue().encode("utf-8-sig")
