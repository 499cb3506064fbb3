"""The work order: what the bench makes a cage from, one page a cage."""

from __future__ import annotations

from collections.abc import Iterable
from typing import Any

from bot.paperwork.cut_list import CutRow, cut_rows
from bot.paperwork.drawing import Drawing, drawn
from bot.paperwork.order import PaperCage, PaperOrder
from bot.paperwork.qr import qr
from bot.paperwork.setting import drawing_data
from bot.paperwork.speech import Speech
from conversations import reference
from sizing.bees import gap_band
from sizing.cage import Verdict
from sizing.drawings.bench import bench_views
from sizing.fabrication.sizes import Face, Size, sizes_of
from sizing.workshop import Figures

__all__ = ["bench_drawing", "drawing_alone_data", "size_text", "work_order_data"]

WIDTH, HEIGHT = 180.0, 128.0
"""Field of the drawing on an A4 page with room for filing [mm]."""
ALONE = 245.0
"""Height of the same field where the drawing has the page to itself [mm]."""
CHECKS = ("sizes", "go", "no_go", "free", "edges", "lid", "number")
"""What the bench looks at before a cage leaves it."""
CAUTIONS = ("cut_edges", "zinc_fume")
"""What can hurt at the bench."""

WIRES = ("panel", "wires", "gap", "pitch")


def work_order_data(order: PaperOrder, figures: Figures, speech: Speech) -> dict[str, Any]:
    """The pages of the work order for its template."""
    whole = len(order.cages)
    pages = [
        _page(order, cage, figures, speech, f"{n} / {whole}")
        | _cuts([] if _stopped(cage, speech) else cut_rows(cage, figures, speech), speech)
        for n, cage in enumerate(order.cages, 1)
    ]
    return {"title": speech("paper.work_order.of", number=order.number), "pages": pages}


def bench_drawing(
    cage: PaperCage, figures: Figures, speech: Speech, height: float = HEIGHT
) -> Drawing:
    """The views of a cage, as large as a preferred scale allows in a field this high [mm]."""
    views = bench_views(cage.request, cage.design, figures)
    return drawn(views, WIDTH, height, speech.figure, speech)


def drawing_alone_data(
    order: PaperOrder, cage: PaperCage, figures: Figures, speech: Speech
) -> dict[str, Any]:
    """The drawing of one cage on a sheet of its own, for the template `drawing`."""
    drawing = bench_drawing(cage, figures, speech, ALONE)
    sheet = f"{order.cages.index(cage) + 1} / {len(order.cages)}"
    return {
        "title": speech("paper.work_order.of", number=order.number),
        "drawing": drawing_data(drawing),
        "block": _block(
            order, cage, figures, speech, drawing.scale, sheet, speech("paper.drawing")
        ),
    }


def _page(
    order: PaperOrder, cage: PaperCage, figures: Figures, speech: Speech, sheet: str
) -> dict[str, Any]:
    request, design = cage.request, cage.design
    drawing = bench_drawing(cage, figures, speech)
    pieces = speech("paper.pieces", n=cage.pieces)
    lid = speech(f"lid.kind.{design.lid.kind}")
    material = speech(f"material.choice.{request.material}")
    return {
        "number": reference.format(order.number),
        "check": speech("paper.check_digits"),
        "version": f"{speech('paper.version', version=order.version)} · {pieces}",
        "qr": qr(order.number),
        "purpose": speech(f"paper.purpose.{request.purpose}"),
        "kind": f"{material} · {speech('lid.title')}: {lid}",
        "name": cage.label,
        "stopped": _stopped(cage, speech),
        "drawing": drawing_data(drawing),
        "sizes_head": [speech("paper.size"), "mm", "±"],
        "sizes": [
            size_text(size, speech) for size in sizes_of(design.cage, design.lid, figures)
        ],
        "wires_head": [speech(f"paper.wires.{name}") for name in WIRES],
        "wires": list(_wires(cage, speech)),
        "pins": list(_pins(cage, figures, speech)),
        "checks_title": speech("paper.checks"),
        "checks": [speech(f"paper.check.{name}") for name in CHECKS],
        "cautions_title": speech("paper.cautions"),
        "cautions": [speech(f"paper.caution.{name}") for name in CAUTIONS]
        + [speech(f"paper.told.{one}") for one in design.cautions if one == "make-one-first"],
        "block": _block(order, cage, figures, speech, drawing.scale, sheet,
                        speech("paper.work_order")),
    }  # fmt: skip


def _stopped(cage: PaperCage, speech: Speech) -> str:
    """Why this cage is not to be made as it stands; empty where it may be."""
    if cage.design.verdict is Verdict.CANNOT:
        return speech("paper.stopped.cannot")
    if cage.design.open:
        return speech("paper.stopped.open", measures=_measures(cage.design.open, speech))
    return ""


def _measures(names: Iterable[str], speech: Speech) -> str:
    return ", ".join(
        speech(f"{name}.title") if speech.has(f"{name}.title") else name for name in names
    )


def size_text(size: Size, speech: Speech) -> tuple[str, str, str]:
    """Name, length and tolerance of a size as they are written."""
    name = speech(f"paper.size.{size.name}")
    if size.face is not Face.PART:
        name = f"{name}, {speech(f'paper.face.{size.face}')}"
    value = "?" if size.value is None else speech.figure(size.value)
    off = "" if size.deviation is None else speech.figure(size.deviation)
    return name, value, off


def _wires(cage: PaperCage, speech: Speech) -> Iterable[list[str]]:
    wire = cage.design.wire
    for panel in wire.panels:
        row = panel.row
        yield [
            f"{speech(f'paper.panel.{panel.panel}')} × {panel.count}",
            str(row.wires),
            speech.figure(row.gap),
            speech.figure(row.gap + wire.diameter),
        ]


def _pins(cage: PaperCage, figures: Figures, speech: Speech) -> Iterable[str]:
    """Wire, and the two pins that tell whether the gaps are right."""
    wire, band = cage.design.wire, gap_band(cage.request.purpose, figures)
    yield speech("paper.wire", diameter=speech.length(wire.diameter))
    stays = wire.panels[0].stays
    if stays is None:
        yield speech("paper.free_span", length=speech.length(figures.wire_free_span))
    else:
        yield speech("paper.stays", count=stays.count, length=speech.length(stays.span))
    yield speech("paper.pin.no_go", length=speech.length(wire.gap_limit))
    if all(panel.row.gap >= band.least for panel in wire.panels):
        yield speech("paper.pin.go", length=speech.length(band.least))


def _cuts(rows: list[CutRow], speech: Speech) -> dict[str, Any]:
    return {
        "cuts_title": speech("paper.cuts"),
        "cuts_head": [speech(f"paper.cuts.{name}") for name in ("part", "size", "count")],
        "cuts": rows,
    }


def _block(
    order: PaperOrder, cage: PaperCage, figures: Figures, speech: Speech, scale: int, sheet: str,
    kind: str,
) -> list[tuple[str, str, int]]:  # fmt: skip
    """The title block: data fields of ISO 7200, each with how many columns it takes."""
    sizes, issued = cage.design.cage, order.cleared or order.handed_in
    outside = [sizes.length_outside, sizes.height_overall, sizes.depth_outside]
    title = " × ".join("?" if one is None else speech.figure(one) for one in outside)
    fields = [
        ("owner", speech("paper.workshop"), 1),
        ("document_type", kind, 1),
        ("status", speech(f"stage.{order.stage}"), 1),
        ("number", f"{order.number}-{cage.item}", 1),
        ("revision", str(order.version), 1),
        ("title", speech("paper.title", sizes=title), 2),
        ("creator", f"{speech('paper.program')} · {cage.design.workshop_version}", 1),
        ("approved", order.cleared_by or "—", 1),
        ("language", speech.language, 1),
        ("tolerances", (f"ISO 2768-{figures.cutting} · {speech('paper.fine')} "
         f"ISO 2768-{figures.cutting_ears}"), 2),
        ("issued", speech.day(issued) if issued else "—", 1),
        ("scale", f"1 : {scale} · {speech('paper.first_angle')}", 1),
        ("sheet", sheet, 1),
    ]  # fmt: skip
    return [(speech(f"paper.block.{name}"), text, columns) for name, text, columns in fields]
