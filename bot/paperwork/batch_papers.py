"""What the bench gets of a batch: the plan on paper, the sheets for a machine, the pick list."""

from __future__ import annotations

from collections.abc import Iterator
from fractions import Fraction
from typing import Any

from bot.paperwork.batch import Batch, FromBars, FromSheets, Kind
from bot.paperwork.dxf import as_bytes, new_drawing
from bot.paperwork.speech import Speech
from bot.paperwork.spreadsheet import table
from conversations import reference

__all__ = ["pick_list_csv", "plan_data", "sheets_dxf", "use_of_material"]

_HEAD = (
    "stock", "material", "thickness_mm", "width_mm", "length_mm", "count", "at_least",
    "use_percent",
)  # fmt: skip
_BETWEEN = 100.0
_TEXT = 12.0


def _plain(value: Fraction | int) -> str:
    return f"{float(value):.3f}".rstrip("0").rstrip(".")


def _percent(share: Fraction) -> str:
    return f"{float(100 * share):.1f}"


def _named(kind: Kind, speech: Speech) -> str:
    """A kind of stock in words: wire, strip or sheet, its material and sizes."""
    parts = [speech(f"batch.stock.{kind.stock}")]
    if kind.material is not None:
        parts.append(speech(f"material.choice.{kind.material}"))
    sizes = [speech.figure(size) for size in (kind.thickness, kind.width) if size is not None]
    parts.append(f"{' × '.join(sizes)} mm")
    return " · ".join(parts)


def use_of_material(batch: Batch, speech: Speech) -> list[tuple[str, str, str]]:
    """For each stock: its name, how much is taken and what no plan could do without, use in %."""
    rows = [
        (_named(one.kind, speech), speech("batch.bars", n=one.plan.bars, least=one.plan.bound),
         f"{_percent(one.plan.use)} %")
        for one in batch.bars
    ]  # fmt: skip
    rows += [
        (
            _named(one.kind, speech),
            speech(
                "batch.sheets", n=len(one.plan.layouts), taken=speech.figure(one.plan.taken),
                least=speech.figure(one.plan.bound),
            ),
            f"{_percent(one.plan.use)} %",
        )
        for one in batch.sheets
    ]  # fmt: skip
    return rows


def pick_list_csv(batch: Batch, speech: Speech) -> bytes:
    """What to fetch from the shelf; lengths in mm with a point, whatever the language."""
    return table(_HEAD, _picks(batch, speech))


def _picks(batch: Batch, speech: Speech) -> Iterator[list[str]]:
    for one in batch.bars:
        yield [
            *_kind_cells(one.kind, speech), _plain(one.plan.bar.length), str(one.plan.bars),
            str(one.plan.bound), _percent(one.plan.use),
        ]  # fmt: skip
    for sheets in batch.sheets:
        sheet = sheets.plan.sheet
        stock, material, thickness, _ = _kind_cells(sheets.kind, speech)
        yield [
            stock, material, thickness, _plain(sheet.width), _plain(sheet.length),
            str(len(sheets.plan.layouts)), str(sheets.plan.least_sheets),
            _percent(sheets.plan.use),
        ]  # fmt: skip


def _kind_cells(kind: Kind, speech: Speech) -> tuple[str, str, str, str]:
    material = "" if kind.material is None else speech(f"material.choice.{kind.material}")
    width = "" if kind.width is None else _plain(kind.width)
    return speech(f"batch.stock.{kind.stock}"), material, _plain(kind.thickness), width


def plan_data(batch: Batch, speech: Speech) -> dict[str, Any]:
    """The plan for its template."""
    left = [
        speech("batch.left_out", number=reference.format(number), item=item)
        for number, item in batch.left_out
    ]
    left += [
        speech(
            "batch.too_big", stock=_named(kind, speech),
            sizes=" × ".join(speech.figure(side) for side in sides),
        )
        for kind, sides in batch.too_big
    ]  # fmt: skip
    return {
        "title": speech("batch.title"),
        "orders": ", ".join(reference.format(number) for number in batch.numbers),
        "orders_label": speech("batch.orders"),
        "use_label": speech("batch.use"),
        "use": [list(row) for row in use_of_material(batch, speech)],
        "left_out": left,
        "times": speech("batch.times"),
        "pieces": speech("batch.pieces"),
        "rest": speech("batch.rest"),
        "bars": [_bars(one, speech) for one in batch.bars],
        "sheets": [page for one in batch.sheets for page in _sheets(one, speech)],
    }


def _bars(one: FromBars, speech: Speech) -> dict[str, Any]:
    length = speech.length(one.plan.bar.length)
    rows = [
        [
            f"{run.times} ×",
            " + ".join(f"{count} × {speech.figure(size)}" for size, count in run.pieces),
            speech.figure(run.rest),
        ]
        for run in one.plan.runs
    ]
    return {"name": f"{_named(one.kind, speech)} · {length}", "rows": rows}


def _sheets(one: FromSheets, speech: Speech) -> Iterator[dict[str, Any]]:
    sheet = one.plan.sheet
    for n, layout in enumerate(one.plan.layouts, 1):
        yield {
            "name": f"{_named(one.kind, speech)} · {n} / {len(one.plan.layouts)}",
            "width": float(sheet.width),
            "length": float(sheet.length),
            "blanks": [
                {
                    "x": float(placed.x), "y": float(placed.y),
                    "w": float(placed.width), "h": float(placed.height),
                    "words": f"{speech.figure(placed.width)} × {speech.figure(placed.height)}",
                    "order": reference.format(one.blanks[placed.blank].number),
                }
                for placed in layout.placed
            ],
        }  # fmt: skip


def sheets_dxf(batch: Batch, speech: Speech) -> bytes:
    """All sheets beside each other, blanks on CUT; the sheet's own edge is not cut (TEXT)."""
    drawing = new_drawing()
    space = drawing.modelspace()
    at = 0.0
    for one in batch.sheets:
        sheet = one.plan.sheet
        wide, long = float(sheet.width), float(sheet.length)
        for n, layout in enumerate(one.plan.layouts, 1):
            space.add_lwpolyline(
                _corners(at, 0, wide, long), close=True, dxfattribs={"layer": "TEXT"}
            )
            words = f"{_named(one.kind, speech)} {n}/{len(one.plan.layouts)}"
            space.add_text(words, height=_TEXT, dxfattribs={"layer": "TEXT"}).set_placement(
                (at, long + _TEXT)
            )
            for placed in layout.placed:
                x, y = at + float(placed.x), float(placed.y)
                space.add_lwpolyline(
                    _corners(x, y, float(placed.width), float(placed.height)), close=True,
                    dxfattribs={"layer": "CUT"},
                )  # fmt: skip
                number = one.blanks[placed.blank].number
                space.add_text(
                    number, height=min(_TEXT, float(min(placed.width, placed.height)) / 3),
                    dxfattribs={"layer": "TEXT"},
                ).set_placement((x + 2, y + 2))  # fmt: skip
            at += wide + _BETWEEN
    return as_bytes(drawing)


def _corners(x: float, y: float, wide: float, high: float) -> list[tuple[float, float]]:
    return [(x, y), (x + wide, y), (x + wide, y + high), (x, y + high)]
