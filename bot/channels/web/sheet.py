"""One order for the page: every value of its sheet as words of one language."""

from __future__ import annotations

import json
from collections.abc import Mapping
from fractions import Fraction
from typing import Any

from bot.channels.web.page import Words
from bot.contract import request_from_json
from bot.desk.order import Answer, Sheet
from bot.explain import explain
from sizing.cage import design_cage
from sizing.measures import COUNTS, Measure
from sizing.standards import FrameKind, frame_kind

__all__ = ["shown_sheet"]

NEAR = 15
"""[mm] a frame farther than this from every known one is none of them."""
_LENGTHS = frozenset(Measure) - frozenset(COUNTS)


def shown_sheet(sheet: Sheet, words: Words) -> dict[str, Any]:
    """The values of the order's template."""
    known = _known(sheet)
    photos: dict[str | None, list[str]] = {}
    for photo in sheet.photos:
        photos.setdefault(photo.question, []).append(photo.sha)
    return {
        "sheet": sheet,
        "answers": [
            {
                **_answer(answer, words),
                "expected": _expected(answer, known, words),
                "photos": photos.get(answer.question, []),
            }
            for answer in sheet.answers
        ],
        "cages": [_cage(cage, words) for cage in sheet.cages],
        "findings": [_finding(finding, words) for finding in sheet.findings],
    }


def _known(sheet: Sheet) -> FrameKind | None:
    """The nearest known frame, where it is near enough to expect anything by."""
    if not sheet.cages:
        return None
    nearest = sheet.cages[0]["design"]["frame_kind"]
    return frame_kind(nearest["id"]) if nearest["distance"] <= NEAR else None


def _expected(answer: Answer, known: FrameKind | None, words: Words) -> str:
    """What the nearest known frame has [mm], and how far the answer is from it."""
    figure = known.figures.get(answer.question) if known is not None else None
    if figure is None or answer.reading is None or answer.question not in _LENGTHS:
        return ""
    apart = Fraction(answer.reading) - figure.value
    sign = "+" if apart > 0 else "−" if apart < 0 else "±"
    return f"{words.figure(figure.value)} ({sign}{words.figure(abs(apart))})"


def _answer(answer: Answer, words: Words) -> dict[str, Any]:
    return {
        "title": _title(answer.question, words),
        "raw": answer.raw,
        "reading": _reading(answer.question, answer.reading, words),
        "how": words(f"desk.page.how.{answer.how}"),
        "at": answer.at,
    }


def _title(name: str, words: Words) -> str:
    key = f"{name}.title"
    return words(key) if words.has(key) else name


def _reading(question: str, reading: str | None, words: Words) -> str | None:
    choice = f"{question}.choice.{reading}"
    if reading is None:
        return None
    if question in _LENGTHS:
        return words.length(Fraction(reading))
    return words(choice) if words.has(choice) else reading


def _cage(cage: Mapping[str, Any], words: Words) -> dict[str, Any]:
    design = cage["design"]
    sizes = design["cage"]
    outside = [sizes["length_outside"], sizes["height_overall"], sizes["depth_outside"]]
    return {
        "item": cage["item"],
        "label": cage["label"],
        "pieces": cage["pieces"],
        "verdict": design["verdict"],
        "lid": words(f"lid.kind.{design['lid']['kind']}"),
        "purpose": words(f"purpose.choice.{cage['request']['purpose']}"),
        "outside": " × ".join("?" if one is None else words.figure(one) for one in outside),
        "chains": _chains(cage),
        "would_work": [_way(way, words) for way in design.get("would_work", ())],
        "gaps": [_gap(gap, words) for gap in design["gaps"]],
        "assumed": [_assumed(taken, words) for taken in design["assumed"]],
        "open": [_title(measure, words) for measure in design["open"]],
    }


def _way(way: Mapping[str, Any], words: Words) -> str:
    """One thing that would make a cage of it: what it is, and the value or the choice it takes."""
    name, value = way.get("measure"), way.get("value")
    parts = [words(f"desk.page.way.{way['id']}")]
    if name is not None:
        parts.append(_title(name, words))
    if isinstance(value, str):
        kind = f"lid.kind.{value}"
        parts.append(words(kind) if words.has(kind) else value)
    elif value is not None:
        parts.append(words.length(Fraction(str(value))))
    return ": ".join(parts)


def _chains(cage: Mapping[str, Any]) -> str:
    """Each chain as a line to check by hand, with the figures of today."""
    request = request_from_json(json.dumps(cage["request"]))
    return explain(request, design_cage(request))


def _gap(gap: Mapping[str, Any], words: Words) -> dict[str, Any]:
    key = f"gap.{gap['gap']}"
    return {
        "name": words(key) if words.has(key) else gap["gap"],
        "nominal": "?" if gap["nominal"] is None else words.figure(gap["nominal"]),
        "must": words.span(*gap["must"]),
        "aim": words.span(*gap["aim"]),
        "verdict": gap["verdict"],
    }


def _assumed(taken: Mapping[str, Any], words: Words) -> str:
    name, value = taken["measure"], taken["value"]
    choice = f"{name}.choice.{value}"
    if value is None:
        shown = words("no-limit")
    elif words.has(choice):
        shown = words(choice)
    elif name in _LENGTHS:
        shown = words.length(value)
    else:
        shown = str(value)
    return f"{_title(name, words)}: {shown}"


def _finding(finding: Mapping[str, Any], words: Words) -> dict[str, Any]:
    key = f"finding.{finding['code']}"
    return {
        "words": words(key) if words.has(key) else finding["code"],
        "severity": finding["severity"],
        "measures": words.several([_title(name, words) for name in finding["measures"]]),
        "seen": words.figure(finding["seen"]),
        "expected": words.span(*finding["expected"]),
    }
