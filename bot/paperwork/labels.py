"""Labels: one for the parcel, one for every cage in it, on A4 to be cut."""

from __future__ import annotations

from typing import Any

from bot.paperwork.order import PaperCage, PaperOrder
from bot.paperwork.qr import qr
from bot.paperwork.speech import Speech
from conversations import reference

__all__ = ["labels_data"]

_CONTACT, _NAME = 160, 40
"""So many letters of what was typed as contact, and as a cage's name, go on a label."""
_ON_CAGE = ("cut-edges", "zinc-and-acid")
"""Cautions that stay with the cage for as long as it is used."""


def labels_data(order: PaperOrder, speech: Speech) -> dict[str, Any]:
    """The labels of an order for their template, a label a piece."""
    pieces = sum(cage.pieces for cage in order.cages)
    code = qr(order.number)
    return {
        "title": speech("paper.labels.of", number=order.number),
        "parcel": {
            "to": speech("paper.label.to"),
            "contact": _short(order.contact, _CONTACT),
            "from": speech("paper.label.from"),
            "sender": speech("paper.workshop"),
            "contents": speech("paper.label.contents", n=pieces),
            "caution": speech("paper.told.cut-edges"),
            "qr": code,
            "number": reference.format(order.number),
        },
        "cages": [
            _cage(order, cage, f"{n} / {cage.pieces}", code, speech)
            for cage in order.cages
            for n in range(1, cage.pieces + 1)
        ],
    }


def _cage(
    order: PaperOrder, cage: PaperCage, count: str, code: dict[str, object], speech: Speech
) -> dict[str, Any]:
    sizes = cage.design.cage
    outside = (sizes.length_outside, sizes.height_overall, sizes.depth_outside)
    shown = " × ".join("?" if one is None else speech.figure(one) for one in outside)
    cautions = [one for one in cage.design.cautions if one in _ON_CAGE]
    return {
        "number": f"{reference.format(order.number)}-{cage.item}",
        "purpose": speech(f"paper.purpose.{cage.request.purpose}"),
        "name": _short(cage.label, _NAME),
        "sizes": f"{shown} mm",
        "cautions": [speech(f"paper.told.{one}") for one in cautions],
        "qr": code,
        "count": count,
    }


def _short(text: str, most: int) -> str:
    line = " ".join(text.split())
    return line if len(line) <= most else f"{line[:most].rstrip()} …"
