"""The answer of `size`: a design as JSON. Lengths are rounded here and nowhere else."""

from __future__ import annotations

from dataclasses import fields
from enum import StrEnum
from fractions import Fraction
from typing import TYPE_CHECKING, Any

from sizing.cage import Verdict
from sizing.fit import GapVerdict
from sizing.measures import COUNTS
from sizing.units import rounded

if TYPE_CHECKING:
    from _typeshed import DataclassInstance

    from sizing.cage import Design
    from sizing.fit import Gap

__all__ = ["design_to_json"]

_PLACES = 6
"""Of a probability: more would be noise of the last digits."""


def _mm(value: Fraction | None) -> float | None:
    return None if value is None else rounded(value)


def _share(value: float | None) -> float | None:
    return None if value is None else round(value, _PLACES)


def _said(name: str | None, value: Fraction | str | None) -> object:
    """A value with its unit's own form: counts whole, lengths rounded, choices as ids."""
    if value is None or isinstance(value, str):
        return value if value is None else str(value)
    return int(value) if name in COUNTS else rounded(value)


def _fields(value: DataclassInstance, *left_out_if_none: str) -> dict[str, Any]:
    """The fields of a plain value by name, lengths rounded, ids as text."""
    found: dict[str, Any] = {}
    for name in (field.name for field in fields(value)):
        part = getattr(value, name)
        if part is None and name in left_out_if_none:
            continue
        if isinstance(part, Fraction):
            part = rounded(part)
        found[name] = str(part) if isinstance(part, StrEnum) else part
    return found


def _gap(gap: Gap) -> dict[str, Any]:
    found: dict[str, Any] = {
        "gap": str(gap.gap),
        "nominal": _mm(gap.nominal),
        "low": _mm(gap.low),
        "high": _mm(gap.high),
        "must": [_mm(bound) for bound in gap.must],
        "aim": [_mm(bound) for bound in gap.aim],
        "verdict": str(gap.verdict),
        "probability": _share(gap.probability),
    }
    if gap.verdict is GapVerdict.OPEN:
        found["missing"] = list(gap.missing)
    return found


def _wire(design: Design) -> dict[str, Any]:
    return {
        "gap_limit": rounded(design.wire.gap_limit),
        "diameter": rounded(design.wire.diameter),
        "panels": [
            {"panel": panel.panel, "count": panel.count} | _fields(panel.row)
            for panel in design.wire.panels
        ],
    }


def design_to_json(design: Design) -> dict[str, Any]:
    """`design` in the form of the contract, lengths rounded to 0.001 mm.

    `would_work` is there only for `ask` and `cannot`; fields that belong to ears beside the
    lugs and to a lid between the walls only where there are such.
    """
    answer = {
        "verdict": str(design.verdict),
        "workshop_version": design.workshop_version,
        "cage": _fields(design.cage, "ear_width"),
        "wire": _wire(design),
        "lid": _fields(design.lid, "notch_width", "notch_over_lug"),
        "gaps": [_gap(gap) for gap in design.gaps],
        "fit": _fields(design.fit) | {"probability": _share(design.fit.probability)},
        "frame_kind": {
            "id": design.frame_kind.kind.id,
            "distance": rounded(design.frame_kind.distance),
        },
        "findings": [
            {
                "code": finding.code,
                "severity": str(finding.severity),
                "measures": [str(measure) for measure in finding.measures],
                "seen": rounded(finding.seen),
                "expected": [_mm(bound) for bound in finding.expected],
                "source": finding.source,
            }
            for finding in design.findings
        ],
        "open": list(design.open),
        "assumed": [
            {
                "measure": str(assumed.measure),
                "value": _said(assumed.measure, assumed.value),
                "from": assumed.source,
            }
            for assumed in design.assumed
        ],
        "cautions": [str(caution) for caution in design.cautions],
        "weight_g": design.weight_g,
        "price": design.price,
    }
    if design.verdict is not Verdict.MAKE:
        answer["would_work"] = [
            {
                "id": str(one.id),
                "measure": one.measure,
                "value": _said(one.measure, one.value),
                "probability": _share(one.probability),
            }
            for one in design.would_work
        ]
    return answer
