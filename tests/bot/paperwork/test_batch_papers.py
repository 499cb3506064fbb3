"""What the bench gets of a batch."""

from __future__ import annotations

import csv
import io
from collections.abc import Callable
from dataclasses import replace

import pytest
from ezdxf import recover
from ezdxf.entities.lwpolyline import LWPolyline

from bot.paperwork.batch import Batch, plan_batch
from bot.paperwork.batch_papers import pick_list_csv, plan_data, sheets_dxf, use_of_material
from bot.paperwork.dxf import LAYERS
from bot.paperwork.order import PaperOrder
from bot.paperwork.setting import Setter
from bot.paperwork.speech import Speech
from conversations.locale import languages
from sizing.measures import Request
from sizing.workshop import Figures


@pytest.fixture(scope="module")
def batch(
    make_order: Callable[..., PaperOrder], requests_: dict[str, Request], figures: Figures
) -> Batch:
    """Two orders and one that cannot be planned."""
    orders = [
        make_order(requests_["usual"]),
        replace(make_order(requests_["no depth"]), number="48291936"),
    ]
    return plan_batch(orders, figures, seconds=20)


@pytest.mark.parametrize("language", languages())
def test_the_plan_says_what_is_cut_and_what_is_not(
    batch: Batch, setter: Setter, read_pdf: Callable[..., object], language: str
) -> None:
    """Every bar with its pieces, every sheet, the use of each stock, and the cage left out."""
    speech = Speech(language)
    pages = read_pdf(setter.pdf("batch", plan_data(batch, speech)))
    text = " ".join(" ".join(page.text.split()) for page in pages).replace("\u00a0", " ")  # type: ignore[attr-defined]
    for one in batch.bars:
        for run in one.plan.runs:
            pieces = " + ".join(f"{n} × {speech.figure(length)}" for length, n in run.pieces)
            assert f"{run.times} × {pieces}" in text
    for _, _, use in use_of_material(batch, speech):
        assert use in text
    assert "482 919 36" in text
    assert len(pages) >= 1 + sum(len(one.plan.layouts) for one in batch.sheets)  # type: ignore[arg-type]


def test_the_drawing_is_clean_and_as_large_as_the_sheets(batch: Batch) -> None:
    """Read by the format's own library: no fault, closed outlines alone on CUT, all of them."""
    drawing, auditor = recover.read(io.BytesIO(sheets_dxf(batch, Speech("en"))))
    assert not auditor.has_errors
    assert drawing.header["$INSUNITS"] == 4
    space = drawing.modelspace()
    assert {one.dxf.layer for one in space} <= set(LAYERS)
    found = [one for one in space if one.dxf.layer == "CUT"]
    cut = [one for one in found if isinstance(one, LWPolyline) and one.closed]
    assert len(cut) == len(found)
    laid = [placed for one in batch.sheets for sheet in one.plan.layouts for placed in sheet.placed]
    assert len(cut) == len(laid)
    areas = sorted(round(_area(list(one.vertices())), 2) for one in cut)
    assert areas == sorted(round(float(placed.width * placed.height), 2) for placed in laid)


def _area(corners: list[tuple[float, float]]) -> float:
    (x1, y1), _, (x2, y2), _ = corners
    return abs((x2 - x1) * (y2 - y1))


def test_the_pick_list_names_every_stock(batch: Batch) -> None:
    """A row a stock: how many, how many no plan does without, and the use."""
    rows = list(csv.DictReader(io.StringIO(pick_list_csv(batch, Speech("en")).decode("utf-8-sig"))))
    assert len(rows) == len(batch.bars) + len(batch.sheets)
    assert [int(row["count"]) for row in rows][: len(batch.bars)] == [
        one.plan.bars for one in batch.bars
    ]
    assert all(0 < float(row["use_percent"]) <= 100 for row in rows)
    assert all(int(row["at_least"]) <= int(row["count"]) for row in rows)


def test_the_same_batch_gives_the_same_bytes(batch: Batch, setter: Setter) -> None:
    """Nothing tells when it was made."""
    speech = Speech("en")
    assert setter.pdf("batch", plan_data(batch, speech)) == setter.pdf(
        "batch", plan_data(batch, speech)
    )
    assert sheets_dxf(batch, speech) == sheets_dxf(batch, speech)
