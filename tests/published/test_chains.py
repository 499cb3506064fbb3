"""Whole chains: a published frame in its published hive, and the gap its source prints.

Each check sizes the cage for the stored figures and takes the cage out of the chain again:
what is left is the gap between frame and hive, which is what the sources print. So it holds
only if stored figures, sizes of the cage and chain all agree with the source.
"""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass
from fractions import Fraction

import pytest

from sizing.cage import Design
from sizing.measures import GapName, Request

Sized = tuple[Design, Request]
Published = Callable[..., Sized]


@dataclass(frozen=True)
class Printed:
    """A value as printed: where, by whom, when, and how it is known."""

    kind: str
    value: str
    source: str
    known: str
    within: str = "0"


def nominal(design: Design, name: GapName) -> Fraction:
    """The gap as worked out."""
    found = next(gap for gap in design.gaps if gap.gap is name).nominal
    assert found is not None
    return found


def check(found: Fraction, printed: Printed) -> None:
    """What is left of the chain is the printed value."""
    assert abs(found - Fraction(printed.value)) <= Fraction(printed.within), printed


LR = "Konstrukcija LR-košnice; Sastavni dijelovi okvira (svebas.com, undated)"
DB = "Konstrukcija DB-košnice; Sastavni dijelovi okvira (svebas.com, undated)"
LAYENS = "La conduite du rucher, chapter on the Layens hive (E. Bertrand, undated scan)"
DADANT = "La conduite du rucher, pp. 237-239 (E. Bertrand, undated scan)"
WIELKOPOLSKI = "Ul wielkopolski (ApisWiki; portalpszczelarski.pl art. 677, undated)"
RAMMATT = "Rammått (publisher not named, 2018)"
KUBE = "Litt om standard kubemateriell (hs.no, undated)"
NZ = "Building bee boxes, after Practical Beekeeping in New Zealand (S. Curham, 2023)"
BUCKFAST = "Report of a Dutch article of 1948 on Brother Adam's hives (forum thread)"
CZ = "Nástavkové včelaření, 2nd ed. (Kamler, Oliva, Ptáček, 1998)"
BS = "British Standard frame and part designations (D. Cushman, undated)"
NATIONAL = "Beekeeping/British National (English Wikibooks, undated)"
SMITH = "Smith hive data (East Devon Beekeepers, undated)"

END_GAPS = [
    Printed("langstroth_root_hr", "7", LR, "published: 464 = 450 + 2 x 7"),
    Printed("dadant_blatt_hr", "8", DB, "published: 456 = 440 + 2 x 8"),
    Printed("layens", "7.5", LAYENS, "published: frame 330 in 345"),
    Printed("dadant_blatt_bertrand", "7.5", DADANT, "published: frame 435 in 450"),
    Printed("pl_wielkopolska", "7.5", WIELKOPOLSKI, "published: frame 360 in 375"),
    Printed("no_norsk", "7.5", KUBE, "published: frame 365 in 380"),
    Printed("cz_39x24", "7.5", CZ, "published: frame 390 in 405"),
    Printed("bs_deep_dn4", "7.9", NATIONAL, "derived: (371.5 - 355.6) / 2", within="0.2"),
]


@pytest.mark.parametrize("printed", END_GAPS, ids=lambda one: one.kind)
def test_end_gap_between_frame_and_wall(published: Published, printed: Printed) -> None:
    """Cage to wall, cage wall, and frame to cage add up to the printed end gap."""
    bar = "470" if printed.kind == "dadant_blatt_bertrand" else None  # not in this chain
    design, _ = published(printed.kind, lug_to_lug=bar)
    sheet = (design.cage.length_outside - design.cage.length_inside) / 2
    together = nominal(design, GapName.HIVE_END) + sheet + nominal(design, GapName.FRAME_END)
    check(together, printed)


LUGS = [
    Printed("langstroth_root_hr", "15", LR, "published: 450 + 2 x 15 = 480"),
    Printed("dadant_blatt_hr", "15", DB, "published: 440 + 2 x 15 = 470"),
    Printed("layens", "19", LAYENS, "published: lug 19, bar 368"),
    Printed("pl_wielkopolska", "15.5", WIELKOPOLSKI, "published: bar 391, frame 360"),
    Printed("se_lagnormal", "15", RAMMATT, "derived: bar 396, frame 366"),
    Printed("no_norsk", "16.5", RAMMATT, "derived: bar 398, frame 365"),
    Printed("langstroth_deep_nordic", "16", RAMMATT, "derived: bar 480, frame 448"),
    Printed("bs_deep_dn4", "38", BS, "published: 356 + 2 x 38 = 432"),
    Printed("smith", "19", SMITH, "published: lug 3/4 in, bar 15-1/2 in", within="0.5"),
]


@pytest.mark.parametrize("printed", LUGS, ids=lambda one: one.kind)
def test_lug_that_bears_and_play_make_the_whole_lug(published: Published, printed: Printed) -> None:
    """What is left to bear when pushed over, and the whole play in the cage, are the lug."""
    design, _ = published(printed.kind, ledge_up="17")
    bearing, end = nominal(design, GapName.LUG_BEARING), nominal(design, GapName.FRAME_END)
    check(bearing + 2 * end, printed)


PLAYS = [
    Printed("layens", "2", LAYENS, "published: play of 2 mm printed, 370 - 368"),
    Printed("langstroth_nz_full", "3", NZ, "derived: 465 + 2 x 10 - 482"),
    Printed("dadant_buckfast", "2", BUCKFAST, "derived: 465 + 2 x 10 - 483"),
    Printed("cz_39x24", "1", CZ, "published: lug channel 418, bar 417"),
]


@pytest.mark.parametrize("printed", PLAYS, ids=lambda one: one.kind)
def test_play_of_the_lugs_along_the_ledge(published: Published, printed: Printed) -> None:
    """The play of the ears, and what they are shorter or longer than the bar, is the lugs' play."""
    design, request = published(printed.kind)
    longer = design.cage.ear_span - request.frame.lug_to_lug.value
    check(nominal(design, GapName.EAR_PLAY) + longer, printed)


BETWEEN_TIERS = [
    Printed("langstroth_root_hr", "10", LR, "published: 242 = 7 + 232 + 3"),
    Printed("lr_half_hr", "10", LR, "published: 155 = 7 + 145 + 3"),
    Printed("dadant_blatt_hr", "10", DB, "published: 310 = 7 + 300 + 3"),
    Printed("bs_deep_dn4", "9", NATIONAL, "derived: 225 - 216, bottom bee space"),
]


@pytest.mark.parametrize("printed", BETWEEN_TIERS, ids=lambda one: one.kind)
def test_bee_space_between_two_tiers(published: Published, printed: Printed) -> None:
    """Under the frame: cage floor, its gaps, and what is left to the frames below."""
    design, _ = published(printed.kind)
    cage = design.cage
    under = cage.gap_under + cage.floor_thickness - cage.lift
    check(nominal(design, GapName.BELOW) + under, printed)


OVER_THE_BAR = [
    Printed("langstroth_root_hr", "7", LR, "published: 7 over the frame"),
    Printed("dadant_blatt_hr", "7", DB, "published: 7 over the frame"),
    Printed("langstroth_deep_us", "6.35", "The making of a frame (forum thread)",
            "published: rebate 5/8 in, lug 3/8 in", within="0.1"),
]  # fmt: skip


@pytest.mark.parametrize("printed", OVER_THE_BAR, ids=lambda one: one.kind)
def test_bee_space_over_the_top_bar(published: Published, printed: Printed) -> None:
    """Lid, what it lies over the bar, and what is left under the rim are the printed space."""
    design, _ = published(printed.kind)
    lid = Fraction("0.8")
    over = design.cage.lift + design.cage.lid_clear + lid
    check(nominal(design, GapName.HEAD_ROOM) + over, printed)


def test_ten_frames_across(published: Published) -> None:
    """372 = 10 x 36 + 12: with the cage back to the place of one frame, 12 are left."""
    printed = Printed("langstroth_root_hr", "12", LR, "published: 372 = 10 x 36 + 12")
    design, _ = published(printed.kind, inside_across="400")
    depth = design.cage.depth_outside
    assert depth is not None
    across = nominal(design, GapName.ACROSS) - (400 - 372)
    check(across + depth - 36 * design.cage.frames_out, printed)


def test_a_frame_with_excluders_on_both_sides(published: Published) -> None:
    """Round flat brood comb of 24 the cage is as deep as the one in print: 45 overall."""
    printed = Printed("pl_wielkopolska", "45", "Association presentation on brood interruption"
                      " (author not named, 2009-11)", "published: 45 mm overall")  # fmt: skip
    design, _ = published(printed.kind, comb_thickness="24")
    assert design.cage.depth_outside is not None
    check(design.cage.depth_outside, printed)
