"""The figures of the workshop: one versioned table (`data/workshop.toml`).

A test or a workshop with other habits makes its own with `dataclasses.replace`.
"""

from __future__ import annotations

from dataclasses import dataclass, fields
from fractions import Fraction
from functools import cache
from types import MappingProxyType
from typing import TYPE_CHECKING, Any

from sizing.data import table
from sizing.errors import DataError
from sizing.measures import GapName

if TYPE_CHECKING:
    from collections.abc import Mapping

    from sizing.units import Mm

__all__ = ["Figures", "GapRule", "default_figures", "figures_of"]

_FILE = "workshop.toml"


@dataclass(frozen=True, slots=True)
class GapRule:
    """What one gap must be and is aimed to be [mm]; None = no limit on that side.

    `beyond`: a gap that lies exactly on its must is already outside it.
    `aim_share_of_depth`: the aim is at least this share of the depth of the hive body.
    """

    must_low: Mm | None
    aim_low: Mm | None
    aim_high: Mm | None
    beyond: bool
    aim_share_of_depth: Fraction | None


@dataclass(frozen=True, slots=True)
class Figures:
    """What the workshop has settled; lengths in mm, the load in N.

    Each is explained in `data/workshop.toml`.
    """

    version: str
    allowance_along: Mm
    allowance_along_least: Mm
    gap_under: Mm
    gap_under_least: Mm
    end_sheet: Mm
    floor_wired: Mm
    floor_flat: Mm
    lid_sheet: Mm
    lid_clear: Mm
    lid_clear_least: Mm
    face_thickness: Mm
    wood_clear: Mm
    comb_clear: Mm
    rise_over_lugs: Mm
    lid_head_room: Mm
    closed_ear_room: Mm
    lid_over_tips: Mm
    notch_beside_lug: Mm
    notch_over_lug: Mm
    tabs_beside_lug: Mm
    rim: Mm
    ears_as_bar_low_isolate: Mm
    ears_as_bar_high_isolate: Mm
    ears_as_bar_low_introduce: Mm
    ears_as_bar_high_introduce: Mm
    wire_diameter: Mm
    wire_free_span: Mm
    wire_diameter_off: Mm
    wire_place_off: Mm
    thumb_load: Fraction
    gap_limit_isolate: Mm
    gap_least_isolate: Mm
    gap_limit_introduce: Mm
    gap_least_introduce: Mm
    frames_out: Fraction
    across_least: Mm
    across_passage: Mm
    across_comb: Mm
    propolis: Mm
    make_at: Fraction
    makes_lid_between_walls: bool
    cutting_ears: str
    cutting: str
    edge_strip: Mm
    lid_upstand: Mm
    lid_play: Mm
    guide_reach: Mm
    floor_flange: Mm
    flange_per_sheet: Fraction
    flange_plus: Mm
    bend_rule: str
    bend_radius: Mm
    bend_own_k: Fraction
    strip_leg_a: Mm
    strip_leg_b: Mm
    strip_blank: Mm
    strip_radius: Mm
    strip_thickness: Mm
    wire_from: str
    wire_bar: Mm
    wire_coil: Mm
    wire_kerf: Mm
    edges_from: str
    edge_bar: Mm
    edge_kerf: Mm
    sheet_width: Mm
    sheet_length: Mm
    sheet_kerf: Mm
    sheet_margin: Mm
    gaps: Mapping[GapName, GapRule]


def _gap_rule(row: Mapping[str, Any]) -> GapRule:
    def figure(key: str) -> Fraction | None:
        return Fraction(row[key]) if key in row else None

    return GapRule(
        must_low=figure("must_low"),
        aim_low=figure("aim_low"),
        aim_high=figure("aim_high"),
        beyond=row["beyond"],
        aim_share_of_depth=figure("aim_share_of_depth"),
    )


def figures_of(data: Mapping[str, Any]) -> Figures:
    """The figures that a table in the form of `data/workshop.toml` holds; lengths in mm.

    Raises `DataError` where the table lacks a figure or has one that nothing uses.
    Source: the table, each figure with its own.
    """
    values: dict[str, Any] = {name: Fraction(row["value"]) for name, row in data["figure"].items()}
    values |= {name: row["value"] for name, row in data["choice"].items()}
    values["version"] = data["version"]
    values["gaps"] = MappingProxyType(
        {GapName(name): _gap_rule(row) for name, row in data["gap"].items()}
    )
    for name in {field.name for field in fields(Figures)} ^ values.keys():
        raise DataError(_FILE, name, "missing-or-unknown")
    for gap in set(GapName) - values["gaps"].keys():
        raise DataError(_FILE, gap, "missing")
    return Figures(**values)


@cache
def default_figures() -> Figures:
    """The figures as they stand in the data; lengths in mm.

    Raises `DataError` where the data lacks a figure or has one that nothing uses.
    Source: `data/workshop.toml`, each figure with its own.
    """
    return figures_of(table(_FILE))
