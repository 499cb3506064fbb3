"""The cut list: as rows of the work order, and as a table for a spreadsheet."""

from __future__ import annotations

from collections.abc import Iterable
from typing import TypeAlias

from bot.paperwork.order import PaperCage, PaperOrder
from bot.paperwork.speech import Speech
from bot.paperwork.spreadsheet import table
from sizing.errors import NotSizedError
from sizing.fabrication.cuts import Cut, WirePart, cuts_of
from sizing.workshop import Figures

__all__ = ["CutRow", "cut_list_csv", "cut_rows", "cuttable"]

CutRow: TypeAlias = tuple[str, str, str]
"""A line of the cut list: what, its size, how many."""

_HEAD = ("item", "label", "part", "material", "thickness_mm", "width_mm", "length_mm", "count")


def _cuts(cage: PaperCage, figures: Figures) -> tuple[Cut, ...]:
    """What the cage is cut from; nothing as long as one of its sizes is open."""
    try:
        return cuts_of(cage.design, cage.request.material, cage.pieces, figures)
    except NotSizedError:
        return ()


def cuttable(cage: PaperCage, figures: Figures) -> bool:
    """Whether every size is known that a part is cut to."""
    return bool(_cuts(cage, figures))


def _part(cut: Cut, speech: Speech) -> str:
    if isinstance(cut.part, WirePart):
        return speech(f"paper.cut.{cut.part}")
    return speech(f"part.{cut.part}")


def cut_rows(cage: PaperCage, figures: Figures, speech: Speech) -> list[CutRow]:
    """The cut list of all pieces of a cage, as it is written on paper."""
    return [
        (
            _part(cut, speech),
            " × ".join(
                speech.figure(size) for size in (cut.length, cut.width, cut.thickness) if size
            ),
            str(cut.count),
        )
        for cut in _cuts(cage, figures)
    ]


def cut_list_csv(order: PaperOrder, figures: Figures, speech: Speech) -> bytes:
    """The cut list of an order; lengths in mm with a point, whatever the language."""
    return table(_HEAD, _rows(order, figures, speech))


def _rows(order: PaperOrder, figures: Figures, speech: Speech) -> Iterable[list[str]]:
    for cage in order.cages:
        for cut in _cuts(cage, figures):
            material = "" if cut.material is None else speech(f"material.choice.{cut.material}")
            sizes = ("" if size is None else f"{float(size):.3f}".rstrip("0").rstrip(".")
                     for size in (cut.thickness, cut.width, cut.length))  # fmt: skip
            yield [str(cage.item), cage.label, _part(cut, speech), material, *sizes, str(cut.count)]
