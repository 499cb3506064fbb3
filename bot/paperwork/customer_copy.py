"""The customer's copy: what was measured, what is made of it, the number; on A4 or for a phone."""

from __future__ import annotations

from collections.abc import Iterable
from fractions import Fraction
from typing import Any

from bot.paperwork.order import PaperCage, PaperOrder
from bot.paperwork.speech import Speech
from bot.pictures.layout import compose
from bot.pictures.renderer import sheet_parts
from conversations import reference
from sizing.accepted import Assumed
from sizing.drawings.cage import cage_scene
from sizing.measures import COUNTS, FRAME_LENGTHS, HIVE_LENGTHS, Length
from sizing.workshop import Figures

__all__ = ["customer_copy_data"]

Pair = tuple[str, str]


def customer_copy_data(
    order: PaperOrder, figures: Figures, speech: Speech, *, phone: bool = False
) -> dict[str, Any]:
    """The copy of an order for its template; with `phone` as one tall picture."""
    return {
        "title": f"{speech('paper.copy')} {order.number}",
        "phone": phone,
        "document": speech("paper.copy"),
        "number": reference.format(order.number),
        "state": " · ".join(_state(order, speech)),
        "cages": [_cage(cage, figures, speech, phone=phone) for cage in order.cages],
        "next_title": speech("paper.copy.next_title"),
        "next": [
            speech("paper.copy.keep"),
            speech("paper.copy.change" if order.cleared is None else "paper.copy.made_next"),
            speech("paper.copy.unpack"),
        ],
    }


def _state(order: PaperOrder, speech: Speech) -> Iterable[str]:
    yield speech("paper.version", version=order.version)
    if order.handed_in is not None:
        yield speech("paper.copy.handed_in", day=speech.day(order.handed_in))
    if order.cleared is None:
        yield speech("paper.copy.waits")
    else:
        yield speech("paper.copy.cleared", day=speech.day(order.cleared))


def _cage(cage: PaperCage, figures: Figures, speech: Speech, *, phone: bool) -> dict[str, Any]:
    scene = cage_scene(cage.request, cage.design, figures)
    return {
        "purpose": speech(f"paper.purpose.{cage.request.purpose}"),
        "name": cage.label,
        "picture": None if phone else sheet_parts(compose(scene, speech.language)),
        "measured_title": speech("paper.copy.measured"),
        "measured": list(_measured(cage, speech)),
        "chosen_title": speech("paper.copy.chosen"),
        "chosen": list(_chosen(cage, speech)),
        "sizes_title": speech("paper.copy.sizes"),
        "sizes": list(_sizes(cage, speech)),
        "assumed_title": speech("paper.copy.assumed"),
        "assumed": [_assumed(one, speech) for one in cage.design.assumed],
        "cautions_title": speech("paper.cautions"),
        "cautions": [speech(f"paper.told.{one}") for one in cage.design.cautions],
    }


def _measured(cage: PaperCage, speech: Speech) -> Iterable[Pair]:
    """Every length and count that was given, in the order of the questions."""
    request = cage.request
    for holder, names in ((request.frame, FRAME_LENGTHS), (request.hive, HIVE_LENGTHS)):
        for name in names:
            value: Length | None = getattr(holder, name)
            if value is not None:
                yield _title(name, speech), _readings(value, speech)
    if request.hive.frames_held is not None:
        yield speech("frames_held.title"), str(request.hive.frames_held)


def _title(name: str, speech: Speech) -> str:
    key = f"{name}.title"
    return speech(key) if speech.has(key) else name


def _readings(length: Length, speech: Speech) -> str:
    """The readings that count; several count as their mean."""
    if len(length.readings) == 1:
        return speech.length(length.value)
    several = " / ".join(speech.figure(reading) for reading in length.readings)
    return f"{several} → {speech.length(length.value)}"


def _chosen(cage: PaperCage, speech: Speech) -> Iterable[Pair]:
    request, design = cage.request, cage.design
    yield speech("lid.title"), speech(f"lid.kind.{design.lid.kind}")
    yield speech("material.title"), speech(f"material.choice.{request.material}")
    for name in ("spacer", "below", "above"):
        value = getattr(request.hive, name)
        if value is not None:
            yield _title(name, speech), speech(f"{name}.choice.{value}")
    yield speech("pieces.title"), str(cage.pieces)
    yield speech("frames_out.title"), str(design.cage.frames_out)


def _sizes(cage: PaperCage, speech: Speech) -> Iterable[Pair]:
    sizes = cage.design.cage
    for name in ("length_outside", "height_overall", "depth_outside", "ear_span"):
        value: Fraction | None = getattr(sizes, name)
        yield speech(f"paper.size.{name}"), "?" if value is None else speech.length(value)
    row = cage.design.wire.panels[0].row
    yield speech("paper.copy.wire_gap"), speech.length(row.gap)


def _assumed(one: Assumed, speech: Speech) -> str:
    name = str(one.measure)
    source = f"assumed.{one.source}"
    choice = f"{name}.choice.{one.value}"
    if speech.has(choice):
        value = speech(choice)
    elif isinstance(one.value, str):
        value = one.value
    else:
        value = speech.figure(one.value) if name in COUNTS else speech.length(one.value)
    said = f"{_title(name, speech)}: {value}"
    return f"{said} ({speech(source)})" if speech.has(source) else said
