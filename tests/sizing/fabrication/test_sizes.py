"""The bench gets every size, each with the tolerance of its class."""

from __future__ import annotations

from dataclasses import replace
from fractions import Fraction

import pytest

from sizing.cage import Design, design_cage
from sizing.fabrication.sizes import Face, Size, sizes_of
from sizing.measures import Frame, Hive, Length, LidChoice, Purpose, Request
from sizing.workshop import default_figures

FIGURES = default_figures()


def mm(value: str) -> Length:
    """One reading."""
    return Length((Fraction(value),))


@pytest.fixture
def request_() -> Request:
    """A frame of 360 by 260 in a body of 375 by 270."""
    return Request(
        purpose=Purpose.ISOLATE,
        frame=Frame(
            mm("360"), mm("260"), mm("391"), mm("10"), None, mm("25"), mm("35"), mm("27")
        ),
        hive=Hive(
            inside_along=mm("375"), lug_room=mm("393"), ledge_down=mm("253"), ledge_up=mm("17")
        ),
    )  # fmt: skip


def by_name(design: Design) -> dict[str, Size]:
    """The sizes of a design."""
    return {size.name: size for size in sizes_of(design.cage, design.lid, FIGURES)}


def test_ears_and_end_open_lid_are_cut_finer_than_the_rest(request_: Request) -> None:
    """391 may lie 0.2 off, 370 may lie 0.5 off (ISO 2768-1 f and m)."""
    sizes = by_name(design_cage(request_))
    assert (sizes["ear_span"].value, sizes["ear_span"].deviation) == (
        Fraction(391),
        Fraction("0.2"),
    )
    assert sizes["lid_length"].deviation == Fraction("0.2")
    assert (sizes["length_outside"].value, sizes["length_outside"].deviation) == (
        Fraction(370),
        Fraction("0.5"),
    )
    assert sizes["length_outside"].face is Face.OUTSIDE


def test_every_number_of_the_cage_is_a_size(request_: Request) -> None:
    """Inside and outside, down, across, floor and guides: as the design has them."""
    design = design_cage(request_)
    sizes = by_name(design)
    for name in (
        "length_inside", "height_overall", "drop_below_ledge", "depth_inside", "depth_outside",
        "floor_thickness", "gap_under", "lid_clear", "guide_each",
    ):  # fmt: skip
        assert sizes[name].value == getattr(design.cage, name), name


def test_a_notched_lid_brings_its_notch_and_is_cut_like_the_rest(request_: Request) -> None:
    """Notch sizes stand only where there is a notch."""
    assert "notch_width" not in by_name(design_cage(request_))
    asked = replace(request_, lid=LidChoice.CLOSED_BETWEEN_WALLS)
    sizes = by_name(design_cage(asked))
    assert sizes["notch_width"].value == Fraction("26.5")
    assert sizes["notch_over_lug"].value == Fraction("0.5")
    assert sizes["lid_length"].deviation == Fraction("0.5")


def test_tabs_beside_the_lug_have_a_width(request_: Request) -> None:
    """Where the rise is low, each tab's width is a size of its own."""
    low = replace(request_, hive=replace(request_.hive, ledge_up=mm("12")))
    design = design_cage(low)
    assert design.cage.ear_width is not None
    assert by_name(design)["ear_width"].value == design.cage.ear_width


def test_a_size_whose_length_is_missing_is_open(request_: Request) -> None:
    """It is listed without a number, not left out."""
    unknown = replace(request_, frame=replace(request_.frame, comb_thickness=None))
    size = by_name(design_cage(unknown))["depth_outside"]
    assert (size.value, size.deviation) == (None, None)
