"""The workshop's own figures: a file that says what it does otherwise than the built-in table.

    version = "spring"

    [figure.allowance_along]
    value = 9
    unit = "mm"

Every entry is checked: it is known, has the unit of the table and lies in its sane range, and
figures that go together still do. What the file does not name stays as it is built in.
The wire may be given by its gauge (`gauge = "SWG 14"`), with the series: a bare number is refused.
"""

from __future__ import annotations

import re
import tomllib
from collections.abc import Mapping
from decimal import Decimal
from fractions import Fraction
from hashlib import sha256
from itertools import pairwise
from typing import Any

from sizing.data import table
from sizing.errors import FiguresError
from sizing.gauges import gauge
from sizing.workshop import Figures, figures_of

__all__ = ["own_figures"]

_FILE = "workshop.toml"
_VERSION = re.compile(r"[A-Za-z0-9][A-Za-z0-9._-]{0,23}")
_FINGERPRINT = 6
_BOUNDS = ("must_low", "aim_low", "aim_high")
_SHARE = "aim_share_of_depth"

_TOGETHER: tuple[tuple[str, str, bool], ...] = (
    ("allowance_along_least", "allowance_along", False),
    ("gap_under_least", "gap_under", False),
    ("lid_clear_least", "lid_clear", False),
    ("floor_flat", "floor_wired", False),
    ("wire_diameter", "face_thickness", True),
    ("floor_flange", "edge_strip", True),
    ("price_some_pieces", "price_many_pieces", True),
    ("ears_as_bar_low_isolate", "ears_as_bar_high_isolate", True),
    ("ears_as_bar_low_introduce", "ears_as_bar_high_introduce", True),
    ("ears_as_bar_high_isolate", "gap_limit_isolate", True),
    ("ears_as_bar_high_introduce", "gap_limit_introduce", True),
    ("gap_least_isolate", "gap_limit_isolate", True),
    ("gap_least_introduce", "gap_limit_introduce", True),
    ("gap_limit_introduce", "gap_least_isolate", True),
)
"""Figures of which the first is less than the second, or at most the same (False)."""


def own_figures(text: str) -> Figures:
    """The workshop's figures, with what `text` (TOML) says in place of the built-in ones.

    Lengths in mm, in the sane range that `data/workshop.toml` gives for each. The version is
    the one the text names with a fingerprint of all figures behind it, so that other figures
    are never under the same version. Raises `FiguresError` for what cannot be used.
    Source: the file of the workshop; ranges in `data/workshop.toml`.
    """
    said = _read(text)
    built_in = table(_FILE)
    merged: dict[str, Any] = {
        kind: {name: dict(row) for name, row in built_in[kind].items()}
        for kind in ("figure", "choice", "gap")
    }
    for kind, entries in said.items():
        if kind == "version":
            continue
        if kind not in merged:
            raise FiguresError(kind, entries, "one-of version figure choice gap")
        for name, entry in _entries(kind, entries):
            where = f"{kind}.{name}"
            if name not in merged[kind]:
                raise FiguresError(where, name, "a-figure-of-the-table")
            merged[kind][name] |= _CHECKS[kind](where, entry, merged[kind][name])
    _check_together(merged)
    merged["version"] = f"{_version(said)}-{_fingerprint(merged)}"
    return figures_of(merged)


def _read(text: str) -> dict[str, Any]:
    try:
        return tomllib.loads(text, parse_float=Decimal)
    except tomllib.TOMLDecodeError as error:
        raise FiguresError("file", str(error), "toml") from error


def _version(said: Mapping[str, Any]) -> str:
    version = said.get("version")
    if not isinstance(version, str) or not _VERSION.fullmatch(version):
        raise FiguresError("version", version, "a-short-name")
    return version


def _entries(kind: str, entries: object) -> list[tuple[str, Mapping[str, Any]]]:
    if not isinstance(entries, dict):
        raise FiguresError(kind, entries, "a-table")
    for name, entry in entries.items():
        if not isinstance(entry, dict):
            raise FiguresError(f"{kind}.{name}", entry, "a-table")
    return list(entries.items())


def _figure(where: str, entry: Mapping[str, Any], row: Mapping[str, Any]) -> dict[str, Any]:
    if row.get("by_gauge") and "gauge" in entry:
        _only(where, entry, "gauge")
        found = gauge(str(entry["gauge"]))
        if found is None:
            raise FiguresError(f"{where}.gauge", entry["gauge"], "a-gauge")
        return {"value": _within(f"{where}.gauge", _decimal(found), row["sane"], row["unit"])}
    _only(where, entry, "value", "unit")
    _unit(where, entry, row)
    return {"value": _within(f"{where}.value", entry.get("value"), row["sane"], row["unit"])}


def _decimal(value: Fraction) -> Decimal:
    return Decimal(value.numerator) / value.denominator


def _choice(where: str, entry: Mapping[str, Any], row: Mapping[str, Any]) -> dict[str, Any]:
    _only(where, entry, "value")
    value = entry.get("value")
    # True is 1 for Python; here a switch is a switch and a letter a letter.
    if not any(type(value) is type(one) and value == one for one in row["one_of"]):
        known = " ".join(str(one).lower() if one in (True, False) else one for one in row["one_of"])
        raise FiguresError(f"{where}.value", value, f"one-of {known}")
    return {"value": value}


def _gap(where: str, entry: Mapping[str, Any], row: Mapping[str, Any]) -> dict[str, Any]:
    allowed = tuple(name for name in (*_BOUNDS, _SHARE) if name in row)
    _only(where, entry, *allowed, "unit")
    _unit(where, entry, row)
    given: dict[str, Any] = {}
    for name in allowed:
        if name not in entry:
            continue
        sane, unit = (row["sane_share"], "share") if name == _SHARE else (row["sane"], row["unit"])
        given[name] = _within(f"{where}.{name}", entry[name], sane, unit)
    return given


_CHECKS = {"figure": _figure, "choice": _choice, "gap": _gap}


def _only(where: str, entry: Mapping[str, Any], *allowed: str) -> None:
    for name in entry:
        if name not in allowed:
            raise FiguresError(f"{where}.{name}", entry[name], f"one-of {' '.join(allowed)}")


def _unit(where: str, entry: Mapping[str, Any], row: Mapping[str, Any]) -> None:
    if entry.get("unit") != row["unit"]:
        raise FiguresError(f"{where}.unit", entry.get("unit"), f"one-of {row['unit']}")


def _within(where: str, value: object, sane: list[Any], unit: str) -> int | Decimal:
    low, high = sane
    would_do = f"{low} {high} {unit}"
    if isinstance(value, bool) or not isinstance(value, int | Decimal):
        raise FiguresError(where, value, would_do)
    if isinstance(value, Decimal) and not value.is_finite():
        raise FiguresError(where, value, would_do)
    if not low <= value <= high or (unit == "count" and value != int(value)):
        raise FiguresError(where, value, would_do)
    return value


def _check_together(merged: Mapping[str, Any]) -> None:
    figures = merged["figure"]
    for less, more, strictly in _TOGETHER:
        low, high = figures[less]["value"], figures[more]["value"]
        if low > high or (strictly and low == high):
            raise FiguresError(f"figure.{less}", low, f"less-than figure.{more}")
    for name, row in merged["gap"].items():
        bounds = [row[bound] for bound in _BOUNDS if bound in row]
        if any(low >= high for low, high in pairwise(bounds)):
            raise FiguresError(f"gap.{name}", bounds, "must-below-aim")


def _fingerprint(merged: Mapping[str, Any]) -> str:
    """A few letters that stand for all values: the same figures, the same letters."""
    said = [
        f"{kind}.{name}.{key}={_plain(row[key])}"
        for kind in ("figure", "choice", "gap")
        for name, row in sorted(merged[kind].items())
        for key in ("value", *_BOUNDS, _SHARE)
        if key in row
    ]
    return sha256("\n".join(said).encode()).hexdigest()[:_FINGERPRINT]


def _plain(value: object) -> str:
    """A value as text that is the same however its number was written (9, 9.0)."""
    if isinstance(value, int | Decimal) and not isinstance(value, bool):
        return format(Decimal(value).normalize(), "f")
    return str(value)
