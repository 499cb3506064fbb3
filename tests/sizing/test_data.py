"""No figure without unit, source and how it is known."""

from __future__ import annotations

from decimal import Decimal
from pathlib import Path
from typing import Any

import pytest

import sizing.data
from sizing.data import FILES, table
from sizing.sources import HowKnown, sources

HOW_KNOWN = {"read", "derived", "trade", "ours"}
UNITS = {
    "mm", "1", "count", "probability", "share of the coating's mass", "N", "N/mm²", "g/cm³",
    "g/m², g/cm³",
}  # fmt: skip
NEEDED = {"unit", "source", "status"}


def rows() -> list[tuple[str, dict[str, Any]]]:
    """Every row with figures of its own, whatever file it stands in."""
    found = []
    for file in ("workshop.toml", "ranges.toml", "materials.toml", "known.toml", "mixups.toml"):
        for kind, entries in table(file).items():
            if isinstance(entries, dict):
                found += [(f"{file} {kind} {name}", row) for name, row in entries.items()]
    return found


def faults(name: str, row: dict[str, Any]) -> list[str]:
    """What a figure lacks."""
    needed = NEEDED - {"unit"} if " choice " in name else NEEDED
    wrong = [f"{name}: no {part}" for part in needed - row.keys()]
    if row.get("source", "trade-practice") not in sources():
        wrong.append(f"{name}: unknown source {row['source']}")
    if row.get("status", "ours") not in HOW_KNOWN:
        wrong.append(f"{name}: unknown status {row['status']}")
    if row.get("unit", "mm") not in UNITS:
        wrong.append(f"{name}: unknown unit {row['unit']}")
    return wrong


def kind_faults(row: dict[str, Any]) -> list[str]:
    """What a kind of frame lacks: sources by row, unit and status by figure."""
    wrong = [f"{row['id']}: unknown source {one}" for one in row["sources"] if one not in sources()]
    if not row["sources"]:
        wrong.append(f"{row['id']}: no source")
    for name, figure in row["figures"].items():
        if set(figure) != {"value", "unit", "status"}:
            wrong.append(f"{row['id']} {name}: {sorted(figure)}")
        elif figure["unit"] not in UNITS or figure["status"] not in {"read", "derived"}:
            wrong.append(f"{row['id']} {name}: {figure}")
    return wrong


def test_every_figure_has_unit_source_and_status() -> None:
    """Figures of the workshop, bands and materials say where they come from."""
    assert [fault for name, row in rows() for fault in faults(name, row)] == []
    assert len(rows()) > 60


def test_every_figure_of_a_frame_was_read_or_follows_from_what_was_read() -> None:
    """A figure known from memory only is not in the data."""
    kinds = table("frames.toml")["kind"]
    assert [fault for row in kinds for fault in kind_faults(row)] == []


@pytest.mark.parametrize("part", sorted(NEEDED))
def test_a_figure_without_one_of_them_is_refused(part: str) -> None:
    """The check itself sees each thing that can be missing."""
    row = {"value": 1, "unit": "mm", "source": "trade-practice", "status": "trade"}
    assert faults("x", row) == []
    del row[part]
    assert faults("x", row) == [f"x: no {part}"]


def test_a_figure_from_memory_is_refused() -> None:
    """The check of the frames sees a status that is neither read nor derived."""
    figure = {"value": 1, "unit": "mm", "status": "memory"}
    row = {"id": "x", "sources": ["rammatt"], "figures": {"lug_to_lug": figure}}
    assert len(kind_faults(row)) == 1


def test_every_source_is_used() -> None:
    """A source that no figure names has no place in the data."""
    named = {row["source"] for _, row in rows()}
    named |= {one for row in table("frames.toml")["kind"] for one in row["sources"]}
    assert set(sources()) - named == set()
    assert sources()["trade-practice"].known is HowKnown.TRADE


def test_every_data_file_is_known_and_read_exactly() -> None:
    """The list of files is the folder; decimal numbers are not floats."""
    folder = Path(sizing.data.__file__).parent
    assert sorted(path.name for path in folder.glob("*.toml")) == sorted(FILES)
    assert table("workshop.toml")["figure"]["end_sheet"]["value"] == Decimal("0.8")
