"""Frames and hive bodies by kind (`data/frames.toml`): what was read of them.

A known kind presets expectations, never measures: makers and decades differ.
"""

from __future__ import annotations

import unicodedata
from dataclasses import dataclass
from enum import StrEnum
from fractions import Fraction
from functools import cache
from types import MappingProxyType
from typing import TYPE_CHECKING, Any

from sizing.data import table
from sizing.errors import DataError
from sizing.measures import Measure

if TYPE_CHECKING:
    from collections.abc import Mapping

    from sizing.units import Mm

__all__ = [
    "Figure",
    "FrameKind",
    "Nearest",
    "Obstacle",
    "by_name",
    "frame_kind",
    "frame_kinds",
    "nearest_kinds",
]

_FILE = "frames.toml"
_SHORTEST_STEM = 5
_ENDING = 2


class Obstacle(StrEnum):
    """Why no cage can be made for frames of a kind."""

    NO_LUGS = "no-lugs"
    """The frames stand on rods; there is nothing to hang a cage by."""
    LOADED_FROM_THE_BACK = "loaded-from-the-back"
    """Frames are pushed in from behind; nothing can be lowered in."""


@dataclass(frozen=True, slots=True)
class Figure:
    """One figure [mm, or a count] of a kind and how it is known: `read` or `derived`."""

    value: Fraction
    unit: str
    status: str


@dataclass(frozen=True, slots=True)
class FrameKind:
    """One kind of frame and the hive body it was read with.

    `figures` holds those measures of `sizing.measures` that are known, and figures of the
    data's own: `lug_each`, `top_bar_width`, `side_bar_thickness`, `inside_side_to_side`,
    `inside_top_to_bottom`, `body_depth`, `ledge_width`, `end_gap_each`, `rise`, `hang`,
    `frame_to_floor`. `cannot`: why no cage can be made for it, if so.
    """

    id: str
    name: str
    aliases: tuple[str, ...]
    region: str
    figures: Mapping[str, Figure]
    sources: tuple[str, ...]
    cannot: Obstacle | None
    note: str

    def value(self, name: str) -> Fraction | None:
        """The figure `name` [mm, or a count]; None where nobody gives it."""
        figure = self.figures.get(name)
        return None if figure is None else figure.value


@dataclass(frozen=True, slots=True)
class Nearest:
    """A kind and the largest difference [mm] of its lengths from those asked about."""

    kind: FrameKind
    distance: Mm


def _kind(row: Mapping[str, Any]) -> FrameKind:
    cannot = None
    if not row.get("lugs", True):
        cannot = Obstacle.NO_LUGS
    elif row.get("loaded_from", "above") == "back":
        cannot = Obstacle.LOADED_FROM_THE_BACK
    figures = {
        name: Figure(Fraction(figure["value"]), figure["unit"], figure["status"])
        for name, figure in row["figures"].items()
    }
    return FrameKind(
        id=row["id"],
        name=row["name"],
        aliases=tuple(row["aliases"]),
        region=row["region"],
        figures=MappingProxyType(figures),
        sources=tuple(row["sources"]),
        cannot=cannot,
        note=row.get("note", ""),
    )


@cache
def frame_kinds() -> tuple[FrameKind, ...]:
    """Every kind in the data, lengths in mm. Raises `DataError` for a row that is not whole.

    Source: `data/frames.toml`, each row with its own.
    """
    kinds = []
    for row in table(_FILE)["kind"]:
        try:
            kinds.append(_kind(row))
        except (KeyError, ValueError) as error:
            raise DataError(_FILE, str(row.get("id", row)), "not-whole") from error
    return tuple(kinds)


def frame_kind(name: str) -> FrameKind:
    """The kind with the id `name`, lengths in mm; raises `KeyError` where there is none."""
    for kind in frame_kinds():
        if kind.id == name:
            return kind
    raise KeyError(name)


def _words(text: str) -> tuple[str, ...]:
    """`text` as plain words: no case, no accents, nothing but letters and digits."""
    spread = unicodedata.normalize("NFKD", text.casefold().replace("ł", "l"))
    plain = (sign for sign in spread if not unicodedata.combining(sign))
    return tuple("".join(sign if sign.isalnum() else " " for sign in plain).split())


def _same_word(one: str, other: str) -> bool:
    """Whether two words are the same up to an ending of two letters (`wielkopolski`, `-ska`)."""
    if one == other:
        return True
    stem = max(_SHORTEST_STEM, min(len(one), len(other)) - _ENDING)
    return min(len(one), len(other)) >= stem and one[:stem] == other[:stem]


@cache
def _names_in_words() -> tuple[tuple[FrameKind, tuple[tuple[str, ...], ...]], ...]:
    """Every kind with its name and its aliases as plain words."""
    return tuple(
        (kind, tuple(_words(known) for known in (kind.name, *kind.aliases)))
        for kind in frame_kinds()
    )


def by_name(name: str) -> tuple[FrameKind, ...]:
    """The kinds a beekeeper may mean by `name`; lengths in mm. Empty where none is known.

    First those with exactly this name or alias, then those whose name or alias holds all
    its words, unless these are bare numbers. Case, accents and short endings do not count.
    """
    words = _words(name)
    if not words:
        return ()
    bare_numbers = all(word.isdigit() for word in words)
    whole, part = [], []
    for kind, names in _names_in_words():
        if words in names:
            whole.append(kind)
        elif not bare_numbers and any(all(_held(word, known) for word in words) for known in names):
            part.append(kind)
    return (*whole, *part)


def _held(word: str, words: tuple[str, ...]) -> bool:
    return any(_same_word(word, known) for known in words)


_ASKED = (Measure.SIDE_TO_SIDE, Measure.TOP_TO_BOTTOM, Measure.LUG_TO_LUG)
_ROUNDING = 1e-6
"""More than floats of a hive's lengths [mm] are ever off; what lies nearer is compared exactly."""


@cache
def _comparable() -> tuple[tuple[int, FrameKind, tuple[tuple[int, Mm, float], ...]], ...]:
    """The kinds that can be compared, with their place in the data and their lengths.

    Each length stands with its place among those asked about, exact and as a float.
    """
    found = []
    for place, kind in enumerate(frame_kinds()):
        lengths = [kind.value(name) for name in _ASKED]
        if None in lengths[:2]:
            continue
        known = tuple((i, one, float(one)) for i, one in enumerate(lengths) if one is not None)
        found.append((place, kind, known))
    return tuple(found)


def nearest_kinds(
    side_to_side: Mm, top_to_bottom: Mm, lug_to_lug: Mm | None, count: int = 1
) -> tuple[Nearest, ...]:
    """The `count` kinds nearest to a frame of these lengths [mm], nearest first.

    The distance is the largest difference over the lengths that are known of both; a kind
    must have the first two. Of equally near kinds that with the top bar known comes first,
    then the order of the data counts.
    """
    asked = (side_to_side, top_to_bottom, lug_to_lug)
    about = [None if one is None else float(one) for one in asked]
    rough = []
    for entry in _comparable():
        apart = [abs(mine - known) for i, _, known in entry[2] if (mine := about[i]) is not None]
        rough.append((max(apart), entry))
    furthest = sorted(distance for distance, _ in rough)[:count]
    found = []
    for distance, (place, kind, known) in rough:
        if furthest and distance <= furthest[-1] + _ROUNDING:
            exact = [abs(given - one) for i, one, _ in known if (given := asked[i]) is not None]
            found.append((max(exact), -len(exact), place, kind))
    found.sort(key=lambda entry: entry[:3])
    return tuple(Nearest(kind, distance) for distance, _, _, kind in found[:count])
