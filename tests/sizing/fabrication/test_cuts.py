"""The cut list holds everything that a cage is made of, and nothing twice."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import replace
from fractions import Fraction

import pytest

from sizing.cage import Design, design_cage
from sizing.errors import NotSizedError
from sizing.fabrication.cuts import Cut, Stock, WirePart, cuts_of
from sizing.fabrication.flat import Part
from sizing.fabrication.sheet import blanks, wire_panels
from sizing.measures import Floor, Material, Request
from sizing.workshop import default_figures

Make = Callable[..., Request]
FIGURES = default_figures()
ZINC = Material.GALVANISED


def cuts(design: Design, pieces: int = 1) -> tuple[Cut, ...]:
    """The list with the workshop's usual figures."""
    return cuts_of(design, ZINC, pieces, FIGURES)


def test_the_wires_are_those_of_the_panels(design: Design) -> None:
    """Every upright wire of both faces and every wire of the floor is on the list."""
    by_part = {cut.part: cut for cut in cuts(design)}
    for panel in design.wire.panels:
        part = WirePart.FACE_WIRE if panel.panel == "face" else WirePart.FLOOR_WIRE
        assert by_part[part].count == panel.count * panel.row.wires
        assert by_part[part].thickness == design.wire.diameter
        assert by_part[part].width is None
    assert (WirePart.FLOOR_WIRE in by_part) == (design.cage.floor is Floor.WIRED)


def test_the_usual_cage_by_hand(make: Make) -> None:
    """Upright wires end 0.5 above the lowest point: 257 - 10 + 5 + 2.5 = 256.7, + 0.8 - 0.5."""
    listed = {cut.part: cut for cut in cuts(design_cage(make()), pieces=2)}
    upright = listed[WirePart.FACE_WIRE]
    assert (upright.length, upright.count) == (Fraction("257.0"), 2 * 2 * 59)
    floor = listed[WirePart.FLOOR_WIRE]
    assert (floor.length, floor.count) == (Fraction(43), 2 * 59)
    across = listed[WirePart.CROSS_WIRE]
    assert (across.length, across.count) == (Fraction("368.4"), 2 * 2)
    assert listed[Part.END_WALL].count == 4
    assert listed[Part.END_WALL].width == 48


def test_cross_wires_leave_no_longer_span_than_is_held(design: Design) -> None:
    """One cross wire fewer in a panel would leave a span longer than the workshop's figure."""
    across = {
        cut.length: cut.count for cut in cuts(design) if cut.part is WirePart.CROSS_WIRE
    }  # fmt: skip
    needed = 0
    for panel in wire_panels(design, FIGURES):
        spans = 1
        while panel.length / spans > FIGURES.wire_free_span:
            spans += 1
        needed += (spans - 1) * panel.count
    assert sum(across.values()) == needed


def test_sheet_parts_are_the_blanks(design: Design) -> None:
    """Each blank once, its longer side as the length; sides and counts are not changed."""
    listed = {
        (cut.part, frozenset({cut.width, cut.length}), cut.thickness, cut.count)
        for cut in cuts(design, pieces=3)
        if cut.stock is not Stock.WIRE
    }
    assert listed == {
        (one.name, frozenset({one.width, one.height}), one.thickness, 3 * one.count)
        for one in blanks(design, FIGURES)
    }
    assert all(cut.material is ZINC for cut in cuts(design) if cut.stock is not Stock.WIRE)
    assert all(cut.width is None or cut.width <= cut.length for cut in cuts(design))


@pytest.mark.parametrize(("cut_from", "stock"), [("bars", Stock.STRIP), ("sheet", Stock.SHEET)])
def test_edges_come_from_where_the_workshop_cuts_them(
    make: Make, cut_from: str, stock: Stock
) -> None:
    """The strips along the edges are bars or blanks; everything else is a blank either way."""
    figures = replace(FIGURES, edges_from=cut_from)
    listed = cuts_of(design_cage(make()), ZINC, 1, figures)
    edges = {Part.TOP_EDGE, Part.BOTTOM_EDGE}
    assert {cut.stock for cut in listed if cut.part in edges} == {stock}
    others = {cut.stock for cut in listed if cut.part not in edges and cut.material}
    assert others == {Stock.SHEET}


def test_a_cage_with_an_open_size_has_no_list(make: Make) -> None:
    """What is open is named."""
    with pytest.raises(NotSizedError) as raised:
        cuts(design_cage(make(comb_thickness=None)))
    assert raised.value.sizes == ("depth_inside",)


def test_no_cage_is_no_list(make: Make) -> None:
    """At least one piece."""
    with pytest.raises(ValueError, match="0"):
        cuts(design_cage(make()), pieces=0)
