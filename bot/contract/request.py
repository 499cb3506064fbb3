"""The request of `size`: from JSON, and back for keeping."""

from __future__ import annotations

import json
from decimal import Decimal
from enum import StrEnum
from fractions import Fraction
from typing import Annotated, Any, NoReturn

from pydantic import BaseModel, BeforeValidator, ConfigDict, Field, ValidationError
from pydantic_core import PydanticCustomError

from sizing.errors import RequestError
from sizing.measures import (
    FRAME_LENGTHS,
    HIVE_LENGTHS,
    Above,
    Below,
    Frame,
    Hive,
    Length,
    LidChoice,
    Material,
    Measure,
    MeasuredWith,
    Purpose,
    Request,
    Spacer,
    Tape,
)
from sizing.plausibility.ranges import band

__all__ = ["request_from_json", "request_to_json"]

_MOST_DIGITS = 18
_MOST_READINGS = 20
_CHOICES_WITH_DEFAULT = ("lid", "material", "pieces")


def _number(value: object) -> Decimal:
    """A JSON number as it was written; JSON is read with exact numbers, so never a float."""
    if isinstance(value, bool) or not isinstance(value, int | Decimal):
        raise PydanticCustomError("a-number", "a-number")
    number = Decimal(value)
    if not number.is_finite() or number.adjusted() > _MOST_DIGITS:
        raise PydanticCustomError("a-number", "a-number")
    exponent = number.as_tuple().exponent
    if isinstance(exponent, int) and -exponent > _MOST_DIGITS:
        raise PydanticCustomError("a-number", "a-number")
    return number


def _whole(value: object) -> int:
    if isinstance(value, bool) or not isinstance(value, int):
        raise PydanticCustomError("a-whole-number", "a-whole-number")
    return value


def _as_readings(value: object) -> object:
    if isinstance(value, bool | str | list):
        raise PydanticCustomError("a-length", "a-length")
    return {"readings": [value]} if isinstance(value, int | Decimal) else value


_Number = Annotated[Decimal, BeforeValidator(_number)]
_Whole = Annotated[int, BeforeValidator(_whole)]


class _Model(BaseModel):
    model_config = ConfigDict(extra="forbid", frozen=True)


class _Readings(_Model):
    readings: Annotated[list[_Number], Field(min_length=1, max_length=_MOST_READINGS)]
    step: Annotated[_Number, Field(gt=0, le=50)] | None = None
    plus_minus: Annotated[_Number, Field(ge=0, le=50)] | None = None


_Length = Annotated[_Readings, BeforeValidator(_as_readings)]


class _Frame(_Model):
    side_to_side: _Length
    top_to_bottom: _Length
    lug_to_lug: _Length
    lug_thickness: _Length | None = None
    top_bar_thickness: _Length | None = None
    lug_width: _Length | None = None
    widest_wood: _Length | None = None
    comb_thickness: _Length | None = None


class _Hive(_Model):
    inside_along: _Length | None = None
    lug_room: _Length | None = None
    ledge_down: _Length | None = None
    ledge_up: _Length | None = None
    below: Below | None = None
    below_space: _Length | None = None
    above: Above | None = None
    above_space: _Length | None = None
    inside_across: _Length | None = None
    spacing: _Length | None = None
    spacer: Spacer | None = None
    frames_held: _Whole | None = None
    frames_out: _Whole | None = None


class _MeasuredWith(_Model):
    tape: Tape | None = None
    step: Annotated[_Number, Field(gt=0, le=50)] | None = None


class _Request(_Model):
    purpose: Purpose
    frame: _Frame
    hive: _Hive | None = None
    lid: LidChoice | None = None
    material: Material | None = None
    pieces: _Whole | None = None
    measured_with: _MeasuredWith | None = None


# --- request in -----------------------------------------------------------------------


def request_from_json(text: str | bytes) -> Request:
    """The request that `text` holds, its numbers exact.

    Raises `RequestError` with the dotted field, what was seen and what would do.
    """
    try:
        raw = json.loads(
            text, parse_float=Decimal, parse_constant=_not_finite, object_pairs_hook=_once
        )
    except (ValueError, RecursionError) as error:
        if isinstance(error, RequestError):
            raise
        raise RequestError("request", _short(text), "json") from error
    try:
        model = _Request.model_validate(raw)
    except ValidationError as error:
        raise _request_error(error) from error
    return _request(model)


def _not_finite(constant: str) -> NoReturn:
    raise RequestError("request", constant, "a-number")


def _once(pairs: list[tuple[str, object]]) -> dict[str, object]:
    found = dict(pairs)
    if len(found) < len(pairs):
        names = [name for name, _ in pairs]
        twice = next(name for name in names if names.count(name) > 1)
        raise RequestError(twice, twice, "once")
    return found


def _short(seen: object, most: int = 60) -> str:
    text = seen.decode(errors="replace") if isinstance(seen, bytes) else str(seen)
    text = " ".join(text.split())
    return text if len(text) <= most else text[: most - 1] + "…"


_WOULD_DO = {
    "missing": "needed",
    "extra_forbidden": "no-such-field",
    "greater_than": "above-0-to-50",
    "greater_than_equal": "0-to-50",
    "less_than_equal": "at-most-50",
    "too_short": "at-least-one-reading",
    "too_long": "at-most-20-readings",
    "model_type": "an-object",
    "list_type": "a-list",
}


def _request_error(error: ValidationError) -> RequestError:
    first = error.errors(include_url=False)[0]
    field = ".".join(str(part) for part in first["loc"]) or "request"
    seen = None if first["type"] == "missing" else _short(first["input"])
    if first["type"] == "enum":
        would_do = "one-of " + str(first["ctx"]["expected"]).replace("'", "").replace(" or ", ", ")
    elif first["type"] == "model_type" and field.split(".")[0] != field:
        would_do = "a-length"
    else:
        would_do = _WOULD_DO.get(first["type"], first["type"])
    return RequestError(field, seen, would_do)


def _request(model: _Request) -> Request:
    left_to_us = tuple(name for name in _CHOICES_WITH_DEFAULT if getattr(model, name) is None)
    hive = model.hive or _Hive()
    pieces = _count(Measure.PIECES, model.pieces, "pieces")
    return Request(
        purpose=model.purpose,
        frame=Frame(**{name: _length(model.frame, name, "frame") for name in FRAME_LENGTHS}),  # type: ignore[arg-type]
        hive=Hive(
            **{name: _length(hive, name, "hive") for name in HIVE_LENGTHS},
            below=hive.below,
            above=hive.above,
            spacer=hive.spacer,
            frames_held=_count(Measure.FRAMES_HELD, hive.frames_held, "hive.frames_held"),
            frames_out=_count(Measure.FRAMES_OUT, hive.frames_out, "hive.frames_out"),
        ),
        lid=model.lid or LidChoice.AUTO,
        material=model.material or Material.GALVANISED,
        pieces=1 if pieces is None else pieces,
        measured_with=_measured_with(model.measured_with),
        left_to_us=left_to_us,
    )


def _measured_with(model: _MeasuredWith | None) -> MeasuredWith:
    usual = MeasuredWith()
    if model is None:
        return usual
    return MeasuredWith(
        tape=model.tape or usual.tape,
        step=usual.step if model.step is None else Fraction(model.step),
    )


def _length(holder: BaseModel, measure: Measure, where: str) -> Length | None:
    model: _Readings | None = getattr(holder, measure)
    if model is None:
        return None
    field = f"{where}.{measure}"
    possible = band(measure)
    for reading in model.readings:
        if not possible.hard_low <= reading <= possible.hard_high:
            would_do = f"a-length {possible.hard_low} {possible.hard_high}"
            raise RequestError(field, _short(reading), would_do)
    return Length(
        readings=tuple(Fraction(reading) for reading in model.readings),
        step=None if model.step is None else Fraction(model.step),
        plus_minus=None if model.plus_minus is None else Fraction(model.plus_minus),
    )


def _count(measure: Measure, value: int | None, field: str) -> int | None:
    possible = band(measure)
    if value is not None and not possible.hard_low <= value <= possible.hard_high:
        would_do = f"a-whole-number {possible.hard_low} {possible.hard_high}"
        raise RequestError(field, _short(value), would_do)
    return value


# --- request out ----------------------------------------------------------------------


def _exact(value: Fraction | None) -> int | float | None:
    """A number whose shortest writing is `value` itself for every length a tape gives."""
    if value is None:
        return None
    return int(value) if value.denominator == 1 else float(value)


def _length_to_json(length: Length | None) -> object:
    if length is None:
        return None
    if len(length.readings) == 1 and length.step is None and length.plus_minus is None:
        return _exact(length.readings[0])
    return {
        "readings": [_exact(reading) for reading in length.readings],
        "step": _exact(length.step),
        "plus_minus": _exact(length.plus_minus),
    }


def _value_to_json(value: object) -> object:
    if isinstance(value, Length):
        return _length_to_json(value)
    return str(value) if isinstance(value, StrEnum) else value


def _parts(holder: Frame | Hive, model: type[BaseModel]) -> dict[str, object]:
    return {name: _value_to_json(getattr(holder, name)) for name in model.model_fields}


def request_to_json(request: Request) -> dict[str, Any]:
    """`request` in the form of the contract; `request_from_json` gives it back as it was.

    A choice that was left to the workshop is null.
    """

    def choice(name: str) -> object:
        return None if name in request.left_to_us else _value_to_json(getattr(request, name))

    return {
        "purpose": str(request.purpose),
        "frame": {
            name: _value_to_json(getattr(request.frame, name)) for name in _Frame.model_fields
        },
        "hive": {name: _value_to_json(getattr(request.hive, name)) for name in _Hive.model_fields},
        "lid": choice("lid"),
        "material": choice("material"),
        "pieces": choice("pieces"),
        "measured_with": {
            "tape": str(request.measured_with.tape),
            "step": _exact(request.measured_with.step),
        },
    }
