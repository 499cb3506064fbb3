"""`cagewright read`: what one typed answer means, as JSON."""

from __future__ import annotations

import json
import sys
from typing import Any

from conversations.answers import Outcome, Reading, Unit, read, written
from conversations.answers.words import LANGUAGES
from sizing.measures import COUNTS, Measure
from sizing.units import rounded

__all__ = ["run"]

_UNITS = (Unit.MM, Unit.CM, Unit.IN)


def run(text: str, measure: str, language: str | None, usual_unit: str | None) -> int:
    """Print the reading; 0 whatever it came to, 2 where an option is not known."""
    unknown = (
        _unknown("--measure", measure, tuple(Measure))
        or _unknown("--language", language, LANGUAGES)
        or _unknown("--usual-unit", usual_unit, _UNITS)
    )
    if unknown:
        print(unknown, file=sys.stderr)
        return 2
    asked = Measure(measure)
    unit = Unit(usual_unit) if usual_unit is not None else None
    reading = read(text, asked, language=language, usual_unit=unit)
    print(json.dumps(_answer(reading, asked), ensure_ascii=False))
    return 0


def _unknown(option: str, value: str | None, known: tuple[str, ...]) -> str | None:
    if value is None or value in known:
        return None
    return f"{option}: {value!r} is not known; one of {', '.join(known)}"


def _answer(reading: Reading, measure: Measure) -> dict[str, Any]:
    return {
        "outcome": reading.outcome,
        "values_mm": [rounded(value) for value in reading.values],
        "exact": reading.exact,
        "reason": reading.reason,
        "echo": _echo(reading, measure),
    }


def _echo(reading: Reading, measure: Measure) -> str | None:
    """What was understood, in mm and in the unit of the person; None where nothing was."""
    if reading.outcome not in {Outcome.TAKE, Outcome.PROPOSE}:
        return None
    if measure in COUNTS:
        return ", ".join(str(value) for value in reading.values)
    # who types millimetres sees centimetres beside them: a lost digit shows
    beside = Unit.CM if reading.unit in {None, Unit.MM} else reading.unit
    units = [option.unit for option in reading.options] if len(reading.values) > 1 else []
    units = [Unit.CM if unit is Unit.MM else unit for unit in units] or [beside]
    return ", ".join(
        f"{written(value, Unit.MM)} ({written(value, unit)})"
        for value, unit in zip(reading.values, units, strict=True)
    )
