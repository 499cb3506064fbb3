"""What the law allows a tape to be off (`data/uncertainty.toml`)."""

from __future__ import annotations

from dataclasses import dataclass
from fractions import Fraction
from functools import cache
from math import ceil
from typing import TYPE_CHECKING

from sizing.data import table
from sizing.errors import DataError
from sizing.measures import Tape
from sizing.units import METRE

if TYPE_CHECKING:
    from sizing.units import Mm

__all__ = ["tape_limit"]

_FILE = "uncertainty.toml"


@dataclass(frozen=True, slots=True)
class _Class:
    base: Mm
    per_metre: Mm
    from_end: Mm
    short: Mm


@cache
def _classes() -> dict[Tape, _Class]:
    rows = table(_FILE)["tape"]
    try:
        known = {
            Tape(name): _Class(*(Fraction(row[part]) for part in ("a", "b", "c", "short")))
            for name, row in rows.items()
        }
        # a tape without a class promises nothing: it counts as one of the widest
        return known | {Tape.UNKNOWN: known[Tape.III]}
    except (KeyError, ValueError) as error:
        raise DataError(_FILE, "tape", "not-whole") from error


@cache
def _short() -> Mm:
    return Fraction(table(_FILE)["reach"]["tape_short"]["value"])


def tape_limit(tape: Tape, length: Mm) -> Mm:
    """How far [mm] a tape of this class may be off over `length` [mm], from its end.

    a + b x (metres begun) + c; a short length has a limit of its own. A tape of unknown
    class counts as class III.
    Source: Directive 2014/32/EU, Annex X; the reach of a short length is the workshop's.
    """
    row = _classes()[tape]
    if length <= _short():
        return row.short
    return row.base + row.per_metre * ceil(length / METRE) + row.from_end
