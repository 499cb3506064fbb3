"""Every size that the bench holds a cage to, with how far it may lie from it."""

from __future__ import annotations

from dataclasses import dataclass
from enum import StrEnum
from typing import TYPE_CHECKING

from sizing.measures import LidKind
from sizing.tolerances import deviation

if TYPE_CHECKING:
    from sizing.fit import Cage
    from sizing.lids import Lid
    from sizing.units import Mm
    from sizing.workshop import Figures

__all__ = ["Face", "Size", "lid_width", "sizes_of"]


class Face(StrEnum):
    """Between which faces a size is measured."""

    OUTSIDE = "outside"
    INSIDE = "inside"
    PART = "part"
    """Of one part, or from one part to another."""


@dataclass(frozen=True, slots=True)
class Size:
    """A size by name [mm]; None = a length it needs is missing.

    `deviation` [mm], plus or minus; None where the table of general tolerances has none.
    """

    name: str
    face: Face
    value: Mm | None
    deviation: Mm | None


def lid_width(cage: Cage, figures: Figures) -> Mm | None:
    """Outside width [mm] of the lid, which stands between the upper strips of the faces.

    None while the depth of the cage is open. Source: own construction, as in
    `sizing.fabrication.sheet`.
    """
    if cage.depth_outside is None:
        return None
    strip = figures.face_thickness - figures.wire_diameter
    return cage.depth_outside - 2 * (strip + figures.lid_play)


def sizes_of(cage: Cage, lid: Lid, figures: Figures) -> tuple[Size, ...]:
    """All sizes of a cage and its lid [mm], outside ones first, then inside ones, then parts.

    Ears and the end-open lid are cut to the finer class, all else to the general one. A size
    that this kind of cage does not have is left out; one that lacks a length is None.
    Source: the classes are workshop figures (`cutting_ears`, `cutting`); ISO 2768-1:1989.
    """
    fine, usual = figures.cutting_ears, figures.cutting
    of_lid = fine if lid.kind is LidKind.END_OPEN else usual
    rows: list[tuple[str, Face, Mm | None, str]] = [
        ("length_outside", Face.OUTSIDE, cage.length_outside, usual),
        ("height_overall", Face.OUTSIDE, cage.height_overall, usual),
        ("depth_outside", Face.OUTSIDE, cage.depth_outside, usual),
        ("ear_span", Face.OUTSIDE, cage.ear_span, fine),
        ("drop_below_ledge", Face.OUTSIDE, cage.drop_below_ledge, usual),
    ]
    if lid.length is not None:
        rows.append(("lid_length", Face.OUTSIDE, lid.length, of_lid))
        rows.append(("lid_width", Face.OUTSIDE, lid_width(cage, figures), usual))
    rows += [
        ("length_inside", Face.INSIDE, cage.length_inside, usual),
        ("depth_inside", Face.INSIDE, cage.depth_inside, usual),
        ("gap_under", Face.INSIDE, cage.gap_under, usual),
        ("lid_clear", Face.INSIDE, cage.lid_clear, usual),
        ("guide_each", Face.PART, cage.guide_each, usual),
        ("floor_thickness", Face.PART, cage.floor_thickness, usual),
    ]
    if cage.ear_width is not None:
        rows.append(("ear_width", Face.PART, cage.ear_width, usual))
    if lid.kind is LidKind.CLOSED_BETWEEN_WALLS:
        rows.append(("notch_width", Face.PART, lid.notch_width, usual))
        rows.append(("notch_over_lug", Face.PART, lid.notch_over_lug, usual))
    return tuple(
        Size(name, face, value, None if value is None else deviation(value, grade))
        for name, face, value, grade in rows
    )
