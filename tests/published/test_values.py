"""Single published values: conversions, wire gaps, and mistakes seen in print."""

from __future__ import annotations

from collections.abc import Callable
from fractions import Fraction

import pytest

from sizing.cage import Design
from sizing.fabrication.wires import equal_gap
from sizing.fit import GapVerdict
from sizing.measures import Request
from sizing.standards import frame_kind, frame_kinds, nearest_kinds
from sizing.units import INCH

Published = Callable[..., tuple[Design, Request]]

HIVE_1992 = "The Hive and the Honey Bee, p. 539 (1992), quoted by C. F. Andros, BEE-L, 1999"
BEES_447 = "Bees, Farmers' Bulletin 447 (E. F. Phillips, 1911)"

IN_INCHES = [
    ("side_to_side", "17 5/8", BEES_447, "published"),
    ("top_to_bottom", "9 1/8", BEES_447, "published"),
    ("inside_along", "18 5/16", HIVE_1992, "published as quotation"),
    ("inside_across", "14 11/16", HIVE_1992, "published as quotation"),
    ("body_depth", "9 19/32", HIVE_1992, "published as quotation"),
]


@pytest.mark.parametrize(("name", "inches", "source", "known"), IN_INCHES)
def test_the_us_deep_in_inches(name: str, inches: str, source: str, known: str) -> None:
    """The stored millimetres are the printed inches, to a tenth."""
    whole, fraction = inches.split()
    stored = frame_kind("langstroth_deep_us").value(name)
    assert stored is not None
    assert abs((int(whole) + Fraction(fraction)) * INCH - stored) <= Fraction(1, 10), source


def test_the_british_bar_of_seventeen_inches() -> None:
    """14 in of frame and two lugs of 1-1/2 in: 431.8, printed as 432.

    British Standard frame and part designations (D. Cushman, undated), published.
    """
    stored = frame_kind("bs_deep_dn4").value("lug_to_lug")
    assert stored is not None
    assert abs((14 + 2 * Fraction(3, 2)) * INCH - stored) <= Fraction(1, 2)


@pytest.mark.parametrize("wires", [1, 10, 58])
def test_two_millimetre_wire_on_a_pitch_of_7_2_leaves_5_2(wires: int) -> None:
    """Drone excluder (D. Cushman, undated), published: 2 mm wire, 7.2 mm pitch, 5.2 mm gap."""
    opening = wires * Fraction("7.2") + Fraction("5.2")
    assert equal_gap(opening, Fraction(2), wires) == Fraction("5.2")


def test_isolation_gaps_are_those_of_excluders_in_use(published: Published) -> None:
    """Every frame's wire lies between the narrowest and the widest excluder that was measured.

    Small cell queen excluders (forum thread, citing measured lists), published: 4.05 to 4.4.
    """
    made = []
    for kind in frame_kinds():
        if all(kind.value(one) for one in ("side_to_side", "top_to_bottom", "lug_to_lug")):
            design, _ = published(kind.id)
            made += [panel.row.gap for panel in design.wire.panels]
    assert len(made) >= 35
    assert Fraction("4.05") < min(made) <= max(made) <= Fraction("4.3")


MISTAKES = [
    # 394 x 223 as a frame of Deutsch Normal: the bar with its lugs (public table, read)
    ("dnm", {"side_to_side": "394"}, "lug-sum"),
    # 477 as the width of a Zander frame (Beschreibung der Zanderbeute, undated, read)
    ("zander", {"side_to_side": "477"}, "lug-sum"),
    # 168 as the height of a medium: the depth of its body (Polish Wikibooks, undated, read)
    ("langstroth_medium_us", {"top_to_bottom": "168", "ledge_up": "17", "ledge_down": "151.3"},
     "hang"),
    # 14-5/8 in given as 445 for the inside of a National (hive sizes of an association, read)
    ("bs_deep_dn4", {"inside_along": "445"}, "end-gap"),
    # 420 x 270 is the inside of a Dadant frame (La conduite du rucher, E. Bertrand, read)
    ("dadant_ro_stas", {"side_to_side": "420", "top_to_bottom": "270"}, "end-gap"),
    # 300 x 435 is another frame, turned (portalpszczelarski.pl art. 582, undated, read)
    ("dadant_ro_stas", {"side_to_side": "300", "top_to_bottom": "435"}, "end-gap"),
]  # fmt: skip


@pytest.mark.parametrize(("kind", "typed", "code"), MISTAKES)
def test_mistakes_seen_in_print_are_doubted(
    published: Published, kind: str, typed: dict[str, str], code: str
) -> None:
    """Each was printed as if true; typed into an order it raises the doubt that fits."""
    assert code in {finding.code for finding in published(kind, **typed)[0].findings}
    known = {finding.code for finding in published(kind)[0].findings}
    assert code not in known


def test_a_row_is_nearest_to_itself() -> None:
    """The stored size of a kind leads back to that size."""
    for kind in frame_kinds():
        side, height = kind.value("side_to_side"), kind.value("top_to_bottom")
        if side is not None and height is not None:
            near = nearest_kinds(side, height, kind.value("lug_to_lug"))[0]
            assert near.distance == 0, kind.id


def test_the_smith_hive_takes_the_short_lug(published: Published) -> None:
    """15-1/2 in of bar on a 14 in frame still bears when pushed over.

    Smith frame dimensions (D. Cushman, undated), published.
    """
    design, request = published("smith")
    assert abs(request.frame.lug_to_lug.value - Fraction(31, 2) * INCH) < Fraction(1, 10)
    bearing = next(gap for gap in design.gaps if gap.gap == "lug_bearing")
    assert bearing.verdict is GapVerdict.OK
