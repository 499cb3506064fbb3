"""The design of an order as it was kept: papers show its numbers, not those of today's figures."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import fields, replace
from fractions import Fraction
from typing import Any

from bot.contract.answer import design_to_json
from sizing.cage import Design, Panel, design_cage
from sizing.fabrication.wires import WireRow
from sizing.fit import Cage
from sizing.lids import Lid, LidReason
from sizing.measures import Ears, Floor, LidKind, Request
from sizing.workshop import Figures

__all__ = ["kept_design"]

_SHOWN = ("cage", "wire", "lid")


def kept_design(request: Request, kept: Mapping[str, Any], figures: Figures) -> Design:
    """The design that was kept for `request`, in the form of the contract.

    Where today's figures still give it, lengths are exact; else they are those that were kept,
    to 0.001 mm. Gaps and doubts are today's.
    """
    today = design_cage(request, figures)
    said = design_to_json(today)
    if all(said[part] == kept[part] for part in _SHOWN):
        return today
    wire = kept["wire"]
    return replace(
        today,
        workshop_version=str(kept["workshop_version"]),
        cage=_cage(kept["cage"]),
        lid=_lid(kept["lid"]),
        wire=replace(
            today.wire,
            gap_limit=_mm(wire["gap_limit"]),
            diameter=_mm(wire["diameter"]),
            panels=tuple(_panel(panel, today) for panel in wire["panels"]),
        ),
    )


def _mm(value: float) -> Fraction:
    return Fraction(str(value))


def _lengths(row: Mapping[str, Any]) -> dict[str, Any]:
    """The numbers of a row as lengths, everything else as it is."""
    return {
        name: _mm(value) if isinstance(value, int | float) else value for name, value in row.items()
    }


def _cage(row: Mapping[str, Any]) -> Cage:
    names = {field.name for field in fields(Cage)} & row.keys()
    values = _lengths({name: row[name] for name in names})
    values |= {
        "ears": Ears(row["ears"]),
        "floor": Floor(row["floor"]),
        "frames_out": int(row["frames_out"]),
    }
    return Cage(**values)


def _lid(row: Mapping[str, Any]) -> Lid:
    names = {field.name for field in fields(Lid)} & row.keys()
    values = _lengths({name: row[name] for name in names})
    return Lid(**{**values, "kind": LidKind(row["kind"]), "why": LidReason(row["why"])})


def _panel(row: Mapping[str, Any], today: Design) -> Panel:
    kept = WireRow(
        opening=_mm(row["opening"]),
        least_wires=row["least_wires"],
        least_gap=_mm(row["least_gap"]),
        wires=row["wires"],
        gap=_mm(row["gap"]),
    )
    for panel in today.wire.panels:
        if panel.panel == row["panel"]:
            return replace(panel, count=row["count"], row=kept)
    return Panel(
        panel=row["panel"], count=row["count"], row=kept, made=(kept.gap, kept.gap),
        free_length=None, stays=None, filler=Fraction(0),
    )  # fmt: skip
