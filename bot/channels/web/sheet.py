"""One order for the page: every value of its sheet as words of one language."""

from __future__ import annotations

import json
from collections.abc import Mapping
from fractions import Fraction
from typing import Any

from bot.channels.web.page import Words
from bot.contract import request_from_json
from bot.desk.expected import expected, known_frame
from bot.desk.order import Answer, Sheet
from bot.desk.proposing import proposed
from bot.desk.versions import Change
from bot.explain import chain, explain
from sizing.cage import design_cage
from sizing.measures import COUNTS, Measure
from sizing.standards import FrameKind, frame_kind
from sizing.units import rounded
from sizing.workshop import Figures, default_figures

__all__ = ["shown_sheet"]

_LENGTHS = frozenset(Measure) - frozenset(COUNTS)
_GRAVEST = {"stop": 0, "check": 1, "note": 2}


def shown_sheet(sheet: Sheet, words: Words, figures: Figures | None = None) -> dict[str, Any]:
    """The values of the order's template.

    `figures` are those the workshop works with now (default: the built-in ones).
    """
    table = default_figures() if figures is None else figures
    known = _known(sheet)
    photos: dict[str | None, list[str]] = {}
    for photo in sheet.photos:
        photos.setdefault(photo.question, []).append(photo.sha)
    findings = sorted(sheet.findings, key=_rank)
    doubted = {name for one in findings for name in one["measures"] if one["severity"] != "note"}
    return {
        "sheet": sheet,
        "answers": [
            {
                **_answer(answer, known, words),
                "doubted": answer.question in doubted,
                "photos": photos.get(answer.question, []),
            }
            for answer in sheet.answers
        ],
        "cages": [_cage(cage, words, table) for cage in sheet.cages],
        "findings": [_finding(finding, sheet.language, words) for finding in findings],
        "versions": [
            {"made": one, "changes": [_change(change, words) for change in one.changes]}
            for one in sheet.versions
        ],
        "known": known.name if known is not None else None,
        "twins": [] if known is None else _twins(sheet.cages[0]["design"], words),
    }


def _known(sheet: Sheet) -> FrameKind | None:
    """The known frame that is near enough to the ordered one to expect anything by."""
    if not sheet.cages:
        return None
    nearest = sheet.cages[0]["design"]["frame_kind"]
    return known_frame(nearest["id"], nearest["distance"])


def _twins(design: Mapping[str, Any], words: Words) -> list[str]:
    """The other known frames that it could be, each with what tells it from the nearest."""
    shown = []
    # A design that was kept before there were twins names none.
    for one in design.get("frame_kinds", ())[1:]:
        name = frame_kind(one["id"]).name
        if one["turned"]:
            name = words("desk.page.turned", frame=name)
        elif one["tell_by"] is not None:
            name = words("desk.page.tell_by", frame=name, measure=_title(one["tell_by"], words))
        shown.append(name)
    return shown


# --- answers --------------------------------------------------------------------------


def _answer(answer: Answer, known: FrameKind | None, words: Words) -> dict[str, Any]:
    usual = expected(answer.question, known)
    span = apart = ""
    if usual is not None:
        figure = words.figure(usual.low)
        span = figure if usual.low == usual.high else f"{figure} … {words.figure(usual.high)}"
        if answer.reading is not None:
            apart = _signed(usual.apart(Fraction(answer.reading)), words)
    return {
        "title": _title(answer.question, words),
        "raw": answer.raw,
        "reading": _reading(answer.question, answer.reading, words),
        "resolution": "" if answer.resolution is None else words.figure(answer.resolution),
        "expected": span,
        "by_frame": usual is not None and usual.kind is not None,
        "apart": apart,
        "how": words(f"desk.page.how.{answer.how}"),
        "at": answer.at,
    }


def _signed(apart: Fraction, words: Words) -> str:
    if apart == 0:
        return "0"
    return f"{'+' if apart > 0 else '−'}{words.figure(abs(apart))}"


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


def _change(change: Change, words: Words) -> dict[str, Any]:
    return {
        "title": _title(change.question, words),
        "before": _reading(change.question, change.before, words),
        "after": _reading(change.question, change.after, words),
    }


# --- the cage -------------------------------------------------------------------------


def _cage(cage: Mapping[str, Any], words: Words, figures: Figures) -> dict[str, Any]:
    design = cage["design"]
    sizes = design["cage"]
    outside = [sizes["length_outside"], sizes["height_overall"], sizes["depth_outside"]]
    request = request_from_json(json.dumps(cage["request"]))
    today = design_cage(request, figures)
    # Lines of other figures than it was sized with would not add up to what is made.
    same = design["workshop_version"] == figures.version
    chains = {str(gap.gap): (chain(gap), gap.nominal, gap.beyond) for gap in today.gaps}
    return {
        "item": cage["item"],
        "label": cage["label"],
        "pieces": cage["pieces"],
        "verdict": design["verdict"],
        "lid": words(f"lid.kind.{design['lid']['kind']}"),
        "purpose": words(f"purpose.choice.{cage['request']['purpose']}"),
        "outside": " × ".join("?" if one is None else words.figure(one) for one in outside),
        "sure": _sure(design["fit"], words),
        "would_work": [_way(way, words) for way in design.get("would_work", ())],
        "chains": explain(request, today, figures) if same else "",
        "risks": [_risk(name, level, words) for name, level in design.get("risks", {}).items()],
        "gaps": [_gap(gap, chains, words) for gap in design["gaps"]],
        "assumed": [_assumed(taken, words) for taken in design["assumed"]],
        "open": [_title(measure, words) for measure in design["open"]],
    }


def _risk(name: str, level: str, words: Words) -> str:
    return f"{words(f'risk.{name}')}: {words(f'desk.page.level.{level}')}"


def _sure(fit: Mapping[str, Any], words: Words) -> str:
    """How sure it is that all musts hold, the weakest gap, and what to measure again."""
    if fit["probability"] is None:
        return ""
    weakest = words(f"gap.{fit['weakest']}")
    said = words("desk.page.sure", share=words.share(fit["probability"]), gap=weakest)
    if fit["measure_again"] is not None:
        said += " " + words("desk.page.sure.again", title=_title(fit["measure_again"], words))
    return said


def _way(way: Mapping[str, Any], words: Words) -> str:
    """One thing that would make a cage of it: what it is, and the value or the choice it takes."""
    name, value = way.get("measure"), way.get("value")
    parts = [words(f"desk.page.way.{way['id']}")]
    if name is not None:
        parts.append(_title(name, words))
    if isinstance(value, str):
        keys = [key for key in (f"lid.kind.{value}", f"floor.kind.{value}") if words.has(key)]
        parts.append(words(keys[0]) if keys else value)
    elif value is not None:
        parts.append(words.length(Fraction(str(value))))
    said = ": ".join(parts)
    if way.get("probability") is not None:
        said += f" ({words.share(way['probability'])})"
    return said


def _gap(
    gap: Mapping[str, Any],
    chains: Mapping[str, tuple[str, Fraction | None, bool]],
    words: Words,
) -> dict[str, Any]:
    key = f"gap.{gap['gap']}"
    text, nominal, beyond = chains.get(gap["gap"], ("", None, False))
    # Sized with other figures than today's, a chain of today would not give what stands here.
    same = gap["nominal"] == (None if nominal is None else rounded(nominal))
    return {
        "name": words(key) if words.has(key) else gap["gap"],
        "nominal": "?" if gap["nominal"] is None else words.figure(gap["nominal"]),
        "must": words.span(*gap["must"], beyond=beyond),
        "aim": words.span(*gap["aim"]),
        "verdict": gap["verdict"],
        "chain": text if same else "",
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


def _rank(finding: Mapping[str, Any]) -> tuple[int, bool]:
    """The gravest first; what was weighed from all numbers tells more than one number."""
    return _GRAVEST[finding["severity"]], "weights" not in finding


def _finding(finding: Mapping[str, Any], language: str, words: Words) -> dict[str, Any]:
    key = f"finding.{finding['code']}"
    return {
        "words": words(key) if words.has(key) else finding["code"],
        "severity": finding["severity"],
        "measures": words.several([_title(name, words) for name in finding["measures"]]),
        "seen": words.figure(finding["seen"]),
        "expected": words.span(*finding["expected"]),
        "stories": [_story(story, words) for story in finding.get("weights", ())],
        "proposal": proposed(finding, language),
    }


def _story(story: Mapping[str, Any], words: Words) -> str:
    """What may have happened, how much it weighs, and the two factors that come to it."""
    told = words(
        "desk.page.story",
        mistake=words(f"mistake.{story['mistake']}"),
        share=f"{story['weight']:.0%}",
        prior=f"{story['prior']:g}",
        likelihood=f"{story['likelihood']:g}",
    )
    pairs = zip(story["measures"], story["true"], strict=True)
    would_be = [f"{_title(name, words)} {words.length(value)}" for name, value in pairs]
    if not would_be:
        return told
    return f"{told}; {words('desk.page.would_be', values=words.several(would_be))}"
