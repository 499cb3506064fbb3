"""All papers of an order, each under its name; the last ones are kept."""

from __future__ import annotations

from collections import OrderedDict
from collections.abc import Hashable, Iterator
from dataclasses import replace
from threading import Lock

from bot.paperwork.customer_copy import customer_copy_data
from bot.paperwork.cut_list import cut_list_csv, cuttable
from bot.paperwork.dxf import PlacedCage, flat_patterns
from bot.paperwork.labels import labels_data
from bot.paperwork.measuring_sheet import measuring_sheet_data
from bot.paperwork.order import PaperOrder
from bot.paperwork.setting import Setter
from bot.paperwork.speech import Speech
from bot.paperwork.work_order import drawing_alone_data, work_order_data
from sizing.workshop import Figures

__all__ = ["KINDS", "Papers"]

KINDS = ("work-order", "copy", "labels")
"""The papers of a whole order, as PDF."""
_KEPT = 64
_DRAWING_PPI = 150.0


def _identity(order: PaperOrder) -> Hashable:
    """What papers of an order depend on; a design follows from its request and the version."""
    cages = tuple(
        (cage.item, cage.label, cage.pieces, cage.request, cage.design.workshop_version)
        for cage in order.cages
    )
    return replace(order, cages=()), cages


class Papers:
    """Makes papers; what was made is kept until as many others were asked for."""

    def __init__(self, figures: Figures, setter: Setter | None = None) -> None:
        self._figures = figures
        self._setter = setter or Setter()
        self._kept: OrderedDict[Hashable, bytes] = OrderedDict()
        self._lock = Lock()

    def pdf(self, kind: str, order: PaperOrder, language: str) -> bytes:
        """One of `KINDS` as a PDF; `KeyError` for another kind or an unknown language."""
        return self._once(kind, language, order)

    def measuring_sheet(self, language: str) -> bytes:
        """The sheet to take to the hive, as a PDF; `KeyError` for an unknown language."""
        return self._once("measuring-sheet", language, None)

    def files(
        self, order: PaperOrder, language: str, customers: str | None = None
    ) -> Iterator[tuple[str, bytes]]:
        """Every paper of an order with the name of its file; the customer's copy in another
        language where `customers` names one."""
        for kind in KINDS:
            spoken = customers or language if kind == "copy" else language
            yield f"{order.number}-{kind}.pdf", self.pdf(kind, order, spoken)
        speech = Speech(language)
        for cage in order.cages:
            data = drawing_alone_data(order, cage, self._figures, speech)
            name = f"{order.number}-drawing-{cage.item}"
            yield f"{name}.pdf", self._setter.pdf("drawing", data)
            yield f"{name}.png", self._setter.pages("drawing", data, "png", _DRAWING_PPI)[0]
            yield f"{name}.svg", self._setter.pages("drawing", data, "svg")[0]
        placed = [
            PlacedCage(cage.item, cage.pieces, cage.design, self._figures)
            for cage in order.cages
            if cuttable(cage, self._figures)
        ]
        if placed:
            yield f"{order.number}-patterns.dxf", flat_patterns(order.number, placed, language)
        yield f"{order.number}-cut-list.csv", cut_list_csv(order, self._figures, speech)

    def _once(self, kind: str, language: str, order: PaperOrder | None) -> bytes:
        key = (kind, language, None if order is None else _identity(order))
        with self._lock:
            if key in self._kept:
                self._kept.move_to_end(key)
                return self._kept[key]
        made = self._made(kind, language, order)
        with self._lock:
            self._kept[key] = made
            while len(self._kept) > _KEPT:
                self._kept.popitem(last=False)
        return made

    def _made(self, kind: str, language: str, order: PaperOrder | None) -> bytes:
        speech = Speech(language)
        if order is None:
            return self._setter.pdf("measuring", measuring_sheet_data(speech))
        if kind == "work-order":
            return self._setter.pdf("work_order", work_order_data(order, self._figures, speech))
        if kind == "copy":
            return self._setter.pdf("copy", customer_copy_data(order, self._figures, speech))
        if kind == "labels":
            return self._setter.pdf("labels", labels_data(order, speech))
        raise KeyError(kind)
