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

    from sizing.cage import Design, Panel
    from sizing.fabrication.price import Price
    from sizing.fit import Gap
    from sizing.known_frames import Likeness
    from sizing.plausibility.findings import Finding

__all__ = ["design_to_json", "finding_to_json"]

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


def _like(one: Likeness) -> dict[str, Any]:
    return {
        "id": one.kind.id,
        "distance": rounded(one.distance),
        "apart": {str(name): rounded(by) for name, by in one.apart.items()},
        "turned": one.turned,
        "tell_by": None if one.tell_by is None else str(one.tell_by),
    }


def finding_to_json(finding: Finding) -> dict[str, Any]:
    """A doubt in the form of the contract."""
    return {
        "code": finding.code,
        "severity": str(finding.severity),
        "measures": [str(measure) for measure in finding.measures],
        "seen": rounded(finding.seen),
        "expected": [_mm(bound) for bound in finding.expected],
        "source": finding.source,
        **({"weights": _weights(finding)} if finding.weights else {}),
    }


def _making(design: Design) -> dict[str, Any]:
    return {
        "panels": [_made(panel) for panel in design.wire.panels],
        "coating": design.sheet.coating,
        "coating_each": _mm(design.sheet.coating_each),
        "body_swing": _mm(design.body_swing),
    }


def _made(panel: Panel) -> dict[str, Any]:
    """What becomes of the gaps of one panel on the bench and under a thumb."""
    return {
        "panel": panel.panel,
        "gap_made": [_mm(bound) for bound in panel.made],
        "free_length": _mm(panel.free_length),
        "stays": None if panel.stays is None else panel.stays.count,
        "free_span": None if panel.stays is None else _mm(panel.stays.span),
        "filler": _mm(panel.filler),
    }


def _price(price: Price | None) -> dict[str, Any] | None:
    """Amounts as text, so that no binary number stands for money."""
    if price is None:
        return None
    return {
        "currency": price.currency,
        "each": str(price.each),
        "pieces": price.pieces,
        "cages": str(price.cages),
        "post": str(price.post),
    }


def _weights(finding: Finding) -> list[dict[str, Any]]:
    """The stories that were weighed: prior times likelihood, as a share of all."""
    return [
        {
            "mistake": str(one.mistake),
            "measures": [str(measure) for measure in one.measures],
            "true": [rounded(value) for value in one.true],
            "prior": float(f"{one.prior:.3g}"),
            "likelihood": float(f"{one.likelihood:.3g}"),
            "weight": round(one.weight, 3),
        }
        for one in finding.weights
    ]


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
        "making": _making(design),
        "lid": _fields(design.lid, "notch_width", "notch_over_lug"),
        "gaps": [_gap(gap) for gap in design.gaps],
        "fit": _fields(design.fit) | {"probability": _share(design.fit.probability)},
        "frame_kind": {
            "id": design.frame_kind.kind.id,
            "distance": rounded(design.frame_kind.distance),
        },
        "frame_kinds": [_like(one) for one in design.frame_kinds],
        "risks": {risk.name: str(risk.level) for risk in design.risks},
        "findings": [finding_to_json(finding) for finding in design.findings],
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
        "weight_g": None if design.weight_g is None else round(design.weight_g),
        "price": _price(design.price),
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
