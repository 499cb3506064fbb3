"""What may have gone wrong with an answer, and what it would have been without.

Each mistake gives the answers it may sit in and the lengths that would then be true; how
likely each is stands in `data/mixups.toml`. A slip of the fingers changes what is typed; a
misunderstanding changes what the tape was laid over, and is typed as it was read.
"""

from __future__ import annotations

from enum import StrEnum
from fractions import Fraction
from functools import cache
from itertools import pairwise
from typing import TYPE_CHECKING, NamedTuple

from sizing.data import table
from sizing.measures import Measure

if TYPE_CHECKING:
    from collections.abc import Container, Iterator, Mapping

__all__ = ["LONG", "TICKS", "Mistake", "Variant", "figure", "figures", "in_inches", "variants"]

_FILE = "mixups.toml"


class Mistake(StrEnum):
    """The stories told of a number that does not go with the others."""

    UNIT = "wrong-unit"
    """Inches taken for centimetres, or the reverse."""
    TEN_TIMES = "ten-times"
    """Centimetres taken for millimetres, or the reverse."""
    EXCHANGED = "exchanged"
    """Two answers, each in the other's place."""
    INSIDE = "inside"
    """Measured between the bars, not over them."""
    LUGS = "lugs"
    """Lugs left out of their length, or taken into that of the frame."""
    DIGITS_SWAPPED = "digits-swapped"
    """Two neighbouring digits in each other's place."""
    ONE_DIGIT = "one-digit"
    """One digit is another."""
    COMB = "comb"
    """The comb measured, not the wood."""
    NOT_FROM_ZERO = "not-from-zero"
    """The tape held at another mark than zero."""
    TAPE_CASE = "tape-case"
    """The length of the tape's case not added."""
    OUTSIDE_OF_BOX = "outside-of-box"
    """The box measured from outside."""
    HOOK_PLAY = "hook-play"
    """The hook of the tape pushed in or pulled out: all long lengths are off by as much."""
    ODD_FRAME = "odd-frame"
    """It is so: a frame of no kind that is known."""
    ODD_HIVE = "odd-hive"
    """It is so: a hive that was made otherwise."""
    AS_USUAL = "as-usual"
    """It is so: a frame of a kind in a usual hive."""


LONG: tuple[Measure, ...] = (
    Measure.SIDE_TO_SIDE, Measure.TOP_TO_BOTTOM, Measure.LUG_TO_LUG, Measure.INSIDE_ALONG,
    Measure.LUG_ROOM, Measure.LEDGE_DOWN,
)  # fmt: skip
"""What is measured with a tape and rounded by habit."""
_EXCHANGED = (
    (Measure.SIDE_TO_SIDE, Measure.TOP_TO_BOTTOM, 1.0),
    (Measure.SIDE_TO_SIDE, Measure.LUG_TO_LUG, 0.15),
    (Measure.INSIDE_ALONG, Measure.LUG_ROOM, 0.15),
)


TICKS = 320
"""So many parts of a millimetre are counted with: a 64th of an inch and a twentieth of a
millimetre are both whole in them."""
_INCH = 127 * TICKS // 5
_CM_FOR_INCH = 254, 100


class Variant(NamedTuple):
    """One way in which the answers would have been without a mistake.

    `true`: the lengths [1/320 mm] in place of the typed ones. `weight`: how likely before
    looking at the numbers. `slip`: these would have been typed, and keep to the person's
    rounding.
    """

    mistake: Mistake
    measures: tuple[Measure, ...]
    true: tuple[int, ...]
    weight: float
    slip: bool


@cache
def figure(name: str) -> float:
    """The figure `name`, as `share.anything` [mm or a probability].

    Raises `KeyError` for a name that is not in the data. Source: `data/mixups.toml`.
    """
    section, _, row = name.partition(".")
    return float(table(_FILE)[section][row]["value"])


@cache
def figures(name: str) -> tuple[Fraction, ...]:
    """The list of figures `name`, as `shift.comb` [mm]. Raises and source as `figure`."""
    section, _, row = name.partition(".")
    return tuple(Fraction(value) for value in table(_FILE)[section][row]["value"])


@cache
def _ticks(name: str) -> tuple[int, ...]:
    return tuple(round(amount * TICKS) for amount in figures(name))


def variants(values: Mapping[Measure, int], suspects: Container[Measure]) -> Iterator[Variant]:
    """Every story about the answers `values` [1/320 mm] that touches one of `suspects`.

    Source: `data/mixups.toml`.
    """
    for measure, value in values.items():
        if measure in suspects:
            yield from _units(measure, value)
            yield from _digits(measure, value)
            yield from _laid_elsewhere(measure, value)
    for one, other, share in _EXCHANGED:
        if one in values and other in values and (one in suspects or other in suspects):
            true = (values[other], values[one])
            weight = figure("prior.exchanged") * share
            yield Variant(Mistake.EXCHANGED, (one, other), true, weight, slip=True)
    yield from _hook(values)


def _units(measure: Measure, value: int) -> Iterator[Variant]:
    if measure in LONG:
        more, less = _CM_FOR_INCH
        for true in (value * more // less, value * less // more):
            weight = figure("prior.wrong-unit") / 2
            yield Variant(Mistake.UNIT, (measure,), (true,), weight, slip=False)
    for true in (value * 10, value // 10):
        weight = figure("prior.ten-times") / 2
        yield Variant(Mistake.TEN_TIMES, (measure,), (true,), weight, slip=False)


def in_inches(value: int) -> bool:
    """Whether a length [1/320 mm] was typed in inches: no tenth of a millimetre fits it."""
    return value % (TICKS // 10) != 0


def _typed(value: int) -> tuple[int, int, int]:
    """The whole number that was typed, its unit and the rest beside it [1/320 mm]."""
    if in_inches(value):
        return value // _INCH, _INCH, value % _INCH
    unit = TICKS if value % TICKS == 0 else TICKS // 10
    return value // unit, unit, 0


def _digits(measure: Measure, value: int) -> Iterator[Variant]:
    whole, unit, rest = _typed(value)
    digits = str(whole)
    pairs = [
        n for n, (one, other) in enumerate(pairwise(digits)) if one != other and (n or other != "0")
    ]
    for n in pairs:
        turned = digits[:n] + digits[n + 1] + digits[n] + digits[n + 2 :]
        true, weight = int(turned) * unit + rest, figure("prior.digits-swapped") / len(pairs)
        yield Variant(Mistake.DIGITS_SWAPPED, (measure,), (true,), weight, slip=True)
    weight = figure("prior.one-digit") / (9 * len(digits))
    for n, digit in enumerate(digits):
        place = 10 ** (len(digits) - 1 - n)
        for other in range(0 if n else 1, 10):
            if other != int(digit):
                true = (whole + (other - int(digit)) * place) * unit + rest
                yield Variant(Mistake.ONE_DIGIT, (measure,), (true,), weight, slip=True)


_SHIFTS: dict[Measure, tuple[tuple[Mistake, str, float], ...]] = {
    Measure.SIDE_TO_SIDE: (
        (Mistake.INSIDE, "inside_along", 1.0), (Mistake.LUGS, "lugs-taken-in", 0.5),
    ),
    Measure.LUG_TO_LUG: ((Mistake.LUGS, "lugs-left-out", 1.0),),
    Measure.TOP_TO_BOTTOM: ((Mistake.INSIDE, "inside_down", 1.0), (Mistake.COMB, "comb", 1.0)),
    Measure.INSIDE_ALONG: (
        (Mistake.OUTSIDE_OF_BOX, "outside-of-box", 1.0), (Mistake.TAPE_CASE, "tape-case", 1.0),
    ),
    Measure.LUG_ROOM: (
        (Mistake.OUTSIDE_OF_BOX, "outside-of-ledge", 0.25), (Mistake.TAPE_CASE, "tape-case", 1.0),
    ),
}  # fmt: skip


def _laid_elsewhere(measure: Measure, value: int) -> Iterator[Variant]:
    for mistake, name, share in _SHIFTS.get(measure, ()):
        yield from _shifted(measure, value, mistake, name, share)
    if measure in LONG:
        name = "not-from-zero-inch" if in_inches(value) else "not-from-zero"
        yield from _shifted(measure, value, Mistake.NOT_FROM_ZERO, name, 1.0)


def _shifted(
    measure: Measure, value: int, mistake: Mistake, name: str, share: float
) -> Iterator[Variant]:
    amounts = _ticks(f"shift.{name}")
    weight = figure(f"prior.{mistake}") * share / len(amounts)
    for amount in amounts:
        yield Variant(mistake, (measure,), (value - amount,), weight, slip=False)


def _hook(values: Mapping[Measure, int]) -> Iterator[Variant]:
    amounts = _ticks("shift.hook-play")
    measures = tuple(measure for measure in LONG if measure in values)
    for amount in amounts:
        true = tuple(values[measure] - amount for measure in measures)
        weight = figure("prior.hook-play") / len(amounts)
        yield Variant(Mistake.HOOK_PLAY, measures, true, weight, slip=False)
