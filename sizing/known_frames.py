"""Which known frame it may be, which others it could be as well, and the rules of a region.

Two kinds of nearly the same lengths are kept apart: both are named, with the measure that tells
one from the other. Nothing is ever sized by a name.
"""

from __future__ import annotations

from dataclasses import dataclass
from fractions import Fraction
from functools import cache
from types import MappingProxyType
from typing import TYPE_CHECKING

from sizing.data import table
from sizing.measures import FRAME_LENGTHS, Measure
from sizing.standards import frame_kind, frame_kinds

if TYPE_CHECKING:
    from collections.abc import Iterator, Mapping

    from sizing.standards import FrameKind, Nearest
    from sizing.units import Mm

__all__ = ["Likeness", "WallRule", "apart", "is_one_of_them", "twins", "wall_rules"]

_FILE = "known.toml"
_TURNED = {
    Measure.SIDE_TO_SIDE: Measure.TOP_TO_BOTTOM,
    Measure.TOP_TO_BOTTOM: Measure.SIDE_TO_SIDE,
}


@dataclass(frozen=True, slots=True)
class Likeness:
    """A kind that a frame is like: how far each length lies above (below: negative) its own [mm].

    `turned`: like it only with width and height changed round. `tell_by`: the measure that
    tells it from the nearest kind; None where the data has none.
    """

    kind: FrameKind
    apart: Mapping[Measure, Mm]
    turned: bool
    tell_by: Measure | None

    @property
    def distance(self) -> Mm:
        """The largest of the differences [mm]."""
        return max(abs(one) for one in self.apart.values())


@dataclass(frozen=True, slots=True)
class WallRule:
    """Least distance [mm] from a frame to the wall that a region asks for, by kinds of frame."""

    code: str
    region: str
    kinds: frozenset[str]
    least: Mm
    source: str


def apart(
    kind: FrameKind, lengths: Mapping[Measure, Mm], *, turned: bool = False
) -> dict[Measure, Mm]:
    """How far each of `lengths` [mm] lies above (below: negative) that of `kind`, where both are.

    `turned`: width and height are held against each other's.
    """
    found = {}
    for name, mine in lengths.items():
        theirs = kind.value(_TURNED.get(name, name) if turned else name)
        if theirs is not None:
            found[name] = mine - theirs
    return found


def twins(lengths: Mapping[Measure, Mm], nearest: FrameKind) -> tuple[Likeness, ...]:
    """`nearest` first, then the kinds that a frame of these lengths [mm] could be as well.

    `lengths` are those of the frame that are known, side to side and top to bottom among them
    (else `KeyError`). Others are named where every length lies within `twin.near` of theirs,
    as it stands or turned; nearest first. Source: `data/frames.toml`, `data/known.toml`.
    """
    side, top = lengths[Measure.SIDE_TO_SIDE], lengths[Measure.TOP_TO_BOTTOM]
    own = {name: mine for name, mine in lengths.items() if name in FRAME_LENGTHS}
    first = Likeness(nearest, _fixed(apart(nearest, own)), False, None)
    others = [
        one
        for kind, turned in _candidates(float(side), float(top))
        if kind.id != nearest.id
        and (one := _likeness(kind, own, nearest, turned=turned)) is not None
    ]
    return (first, *sorted(others, key=lambda one: (one.turned, one.distance)))


def is_one_of_them(nearest: Nearest) -> bool:
    """Whether a frame lies so near to its nearest kind [mm] that it is taken for one.

    Source: `twin.near` in `data/known.toml`.
    """
    return nearest.distance < _near()


def _likeness(
    kind: FrameKind, own: Mapping[Measure, Mm], nearest: FrameKind, *, turned: bool
) -> Likeness | None:
    sides = {name: own[name] for name in _TURNED}
    # A turned frame has its lugs elsewhere: only width and height can be held against it.
    found = apart(kind, sides if turned else own, turned=turned)
    if any(abs(one) >= _near() for one in found.values()):
        return None
    return Likeness(kind, _fixed(found), turned, _tell_by(kind, nearest))


def _candidates(side: float, top: float) -> Iterator[tuple[FrameKind, bool]]:
    """The kinds that come near enough to be looked at exactly, as they stand or turned."""
    room = float(_near()) + 1
    for kind, width, height in _sizes():
        if abs(side - width) < room and abs(top - height) < room:
            yield kind, False
        if abs(side - height) < room and abs(top - width) < room:
            yield kind, True


@cache
def _sizes() -> tuple[tuple[FrameKind, float, float], ...]:
    """Width and height of every kind that has both, as floats: good enough to pass most by."""
    return tuple(
        (kind, float(width), float(height))
        for kind in frame_kinds()
        if (width := kind.value(Measure.SIDE_TO_SIDE)) is not None
        and (height := kind.value(Measure.TOP_TO_BOTTOM)) is not None
    )


def _tell_by(kind: FrameKind, other: FrameKind) -> Measure | None:
    """The measure in which the two kinds differ most."""
    differ = {
        name: abs(mine - theirs)
        for name in Measure
        if (mine := kind.value(name)) is not None and (theirs := other.value(name)) is not None
    }
    most = max(differ, key=lambda name: differ[name], default=None)
    return most if most is not None and differ[most] > 0 else None


def _fixed(found: dict[Measure, Mm]) -> Mapping[Measure, Mm]:
    return MappingProxyType(found)


@cache
def _near() -> Mm:
    return Fraction(table(_FILE)["twin"]["near"]["value"])


@cache
def wall_rules() -> tuple[WallRule, ...]:
    """What regions ask for between frame and wall [mm].

    Raises `KeyError` for a rule about a kind that is not known.
    Source: `data/known.toml`, each rule with its own.
    """
    return tuple(
        WallRule(
            code=code,
            region=row["region"],
            kinds=frozenset(frame_kind(name).id for name in row["kinds"]),
            least=Fraction(row["least"]),
            source=row["source"],
        )
        for code, row in table(_FILE)["rule"].items()
    )
