"""Chains of lengths: each by hand once, and what holds for all of them."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import replace
from fractions import Fraction

import pytest
from hypothesis import given
from hypothesis import strategies as st

from sizing.accepted import accept
from sizing.draft import draft
from sizing.fit import Case, Gap, GapVerdict, Role, gap_of, gaps_of, judged
from sizing.measures import Above, Ears, GapName, LidChoice, LidKind, Request
from sizing.workshop import Figures

Make = Callable[..., Request]
ORDER = (GapVerdict.FAILS, GapVerdict.TIGHT, GapVerdict.OK)
TENTHS = st.integers(0, 100).map(lambda tenths: Fraction(tenths, 10))


def gap(request: Request, figures: Figures, name: GapName) -> Gap:
    """One gap of the cage the rules give."""
    found = draft(request, figures).gap(name)
    assert found is not None
    return found


BY_HAND = [
    (GapName.FRAME_END, {}, "4.2"),  # (370 - 1.6 - 360) / 2
    (GapName.FRAME_BOTTOM, {}, "5"),
    (GapName.COMB_FACE, {}, "8"),  # (43 - 27) / 2
    (GapName.COMB_FACE, {"widest_wood": 45}, "10.5"),  # (48 - 27) / 2
    (GapName.HIVE_END, {}, "2.5"),  # (375 - 370) / 2
    (GapName.HIVE_END, {"inside_along": 371}, "2"),  # along 7: (371 - 367) / 2
    (GapName.EAR_PLAY, {}, "2.25"),  # 393.25 - 391
    (GapName.EAR_BEARING, {}, "6.875"),  # 391 - (375 + 393.25) / 2
    (GapName.LUG_BEARING, {}, "7.1"),  # 31 / 2 - 2 x 4.2
    (GapName.LID_END, {}, "2.25"),
    (GapName.LID_END, {"lug_room": 396}, "2.15"),  # ears 396 - 4.3 / 2
    (GapName.BELOW, {}, "3.3"),  # hang 3 + 0.8 - 5 - 2.5 + 7
    (GapName.HEAD_ROOM, {}, "3.7"),  # 7 - 0.8 - 1.7 - 0.8
    (GapName.LID_ROOM, {"lid": LidChoice.CLOSED, "lug_room": 396}, "1.4"),  # 396 - 393 - 1.6
    (GapName.LUG_IN_LID, {"lid": LidChoice.CLOSED, "lug_room": 396}, "2"),
    (GapName.LID_ROOM, {"lid": LidChoice.CLOSED_BETWEEN_WALLS}, "5"),  # 375 - 370
    (GapName.LUG_BEARING, {"ledge_up": 12}, "6.875"),  # beside the lugs: 391 - 384.125
    (GapName.HEAD_ROOM, {"ledge_up": 12}, "2.5"),  # 2 - 1.7 - 0.8 + hang 3
]


@pytest.mark.parametrize(("name", "changes", "value"), BY_HAND)
def test_gaps_worked_out_by_hand(
    make: Make, figures: Figures, name: GapName, changes: dict[str, object], value: str
) -> None:
    """The gap is what pencil and paper give."""
    assert gap(make(**changes), figures, name).nominal == Fraction(value)


@pytest.mark.parametrize("lid", LidChoice)
@pytest.mark.parametrize("ledge_up", [10, 12, 17])
def test_a_gap_is_the_sum_of_its_terms(
    make: Make, figures: Figures, lid: LidChoice, ledge_up: int
) -> None:
    """Whoever adds up the printed terms gets the printed gap."""
    for found in draft(make(lid=lid, ledge_up=ledge_up), figures).gaps:
        total = sum(term.factor * term.value for term in found.terms if term.value is not None)
        assert total == found.nominal


@pytest.mark.parametrize(
    ("kind", "names"),
    [
        (LidKind.END_OPEN, {GapName.LID_END}),
        (LidKind.CLOSED, {GapName.LID_ROOM, GapName.LUG_IN_LID}),
        (LidKind.CLOSED_BETWEEN_WALLS, {GapName.LID_ROOM}),
    ],
)
def test_only_the_chains_of_the_lid_count(
    make: Make, figures: Figures, kind: LidKind, names: set[GapName]
) -> None:
    """A gap at a lid that is not there is not worked out."""
    lid_gaps = {GapName.LID_END, GapName.LID_ROOM, GapName.LUG_IN_LID}
    found = draft(make(), figures)
    case = Case(accept(make()), found.cage, kind, Fraction("4.3"), figures)
    assert {one.gap for one in gaps_of(case)} & lid_gaps == names


NEEDS = {
    GapName.FRAME_END: set(),
    GapName.FRAME_BOTTOM: {"lug_thickness"},
    GapName.COMB_FACE: {"widest_wood", "comb_thickness"},
    GapName.HIVE_END: {"inside_along"},
    GapName.EAR_PLAY: {"lug_room"},
    GapName.EAR_BEARING: {"inside_along", "lug_room"},
    GapName.LUG_BEARING: set(),
    GapName.LID_END: {"lug_room"},
    GapName.BELOW: {"lug_thickness", "ledge_down", "ledge_up"},
    GapName.HEAD_ROOM: {"lug_thickness", "ledge_up"},
}


@pytest.mark.parametrize(
    "missing",
    ["lug_thickness", "widest_wood", "comb_thickness", "inside_along", "lug_room",
     "ledge_down", "ledge_up", "top_bar_thickness", "lug_width"],
)  # fmt: skip
def test_a_missing_length_opens_its_gaps_and_no_other(
    make: Make, figures: Figures, missing: str
) -> None:
    """A gap is open if and only if a length of its chain is missing, and it names that length."""
    found = draft(make(**{missing: None}), figures)
    for name, needs in NEEDS.items():
        one = found.gap(name)
        assert one is not None
        assert (one.verdict is GapVerdict.OPEN) == (missing in needs), name
        assert one.missing == ((missing,) if missing in needs else ())


def test_the_verdict_of_below_waits_for_the_whole_depth(make: Make, figures: Figures) -> None:
    """The aim grows with the depth of the body: without it, in must is not yet in aim."""
    known = {"ledge_up": None, "below_space": 7}
    assert gap(make(**known), figures, GapName.BELOW).verdict is GapVerdict.OPEN
    failing = make(ledge_up=None, below_space=0)
    assert gap(failing, figures, GapName.BELOW).verdict is GapVerdict.FAILS
    assert gap(make(), figures, GapName.BELOW).aim == (Fraction("3.24"), None)  # 1.2 % of 270
    shallow = make(top_to_bottom=130, ledge_down=123)
    assert gap(shallow, figures, GapName.BELOW).aim == (Fraction(2), None)


def test_cloth_leaves_head_room_without_limit(make: Make, figures: Figures) -> None:
    """Between the walls, under cloth, nothing hard is above: no number, and that is fine."""
    one = gap(make(ledge_up=10, above=Above.CLOTH), figures, GapName.HEAD_ROOM)
    assert (one.nominal, one.verdict, one.unlimited) == (None, GapVerdict.OK, True)
    over_lugs = gap(make(above=Above.CLOTH), figures, GapName.HEAD_ROOM)
    assert over_lugs.nominal == Fraction("3.7")


def blank(figures: Figures, nominal: str, name: GapName) -> Gap:
    """A gap of this size with the rule of `name`, limit 4.3."""
    rule = figures.gaps[name]
    high = Fraction("4.3") if name is GapName.LID_END else None
    must, aim = (rule.must_low, high), (rule.aim_low, rule.aim_high)
    return judged(Gap(name, (), Fraction(nominal), must, aim, rule.beyond, GapVerdict.OPEN))


@pytest.mark.parametrize(
    ("name", "nominal", "verdict"),
    [
        (GapName.FRAME_END, "0.5", GapVerdict.FAILS),
        (GapName.FRAME_END, "0.501", GapVerdict.TIGHT),
        (GapName.FRAME_END, "2", GapVerdict.OK),
        (GapName.FRAME_BOTTOM, "0", GapVerdict.FAILS),
        (GapName.FRAME_BOTTOM, "4.5", GapVerdict.OK),
        (GapName.FRAME_BOTTOM, "9.501", GapVerdict.TIGHT),
        (GapName.COMB_FACE, "2.999", GapVerdict.FAILS),
        (GapName.COMB_FACE, "3", GapVerdict.TIGHT),
        (GapName.HIVE_END, "0.5", GapVerdict.TIGHT),
        (GapName.HIVE_END, "0.499", GapVerdict.FAILS),
        (GapName.EAR_PLAY, "0", GapVerdict.FAILS),
        (GapName.EAR_BEARING, "1", GapVerdict.TIGHT),
        (GapName.LUG_BEARING, "2", GapVerdict.OK),
        (GapName.LID_END, "4.3", GapVerdict.FAILS),
        (GapName.LID_END, "4.299", GapVerdict.OK),
        (GapName.LID_ROOM, "0", GapVerdict.FAILS),
        (GapName.HEAD_ROOM, "0.001", GapVerdict.TIGHT),
    ],
)
def test_on_the_bound(figures: Figures, name: GapName, nominal: str, verdict: GapVerdict) -> None:
    """What lies exactly on a bound is decided as the rule of that gap says."""
    assert blank(figures, nominal, name).verdict is verdict


ROOM = {
    "inside_along": (GapName.HIVE_END, 371),
    "ledge_down": (GapName.BELOW, 246),
    "ledge_up": (GapName.HEAD_ROOM, 11),
    "below_space": (GapName.BELOW, 0),
}


@pytest.mark.parametrize("measure", ROOM)
@given(less=TENTHS, more=TENTHS)
def test_more_room_never_makes_a_gap_worse(
    make: Make, figures: Figures, measure: str, less: Fraction, more: Fraction
) -> None:
    """A roomier hive, everything else the same, gives an equal or better verdict."""
    name, least = ROOM[measure]
    kept = {"lid": LidChoice.END_OPEN, "below_space": 0 if measure != "ledge_down" else 7}
    low, high = sorted((less, more))
    narrow = gap(make(**kept | {measure: least + low}), figures, name)
    wide = gap(make(**kept | {measure: least + high}), figures, name)
    assert ORDER.index(wide.verdict) >= ORDER.index(narrow.verdict)


@given(st.integers(0, 60), st.integers(0, 20))
def test_both_ends_are_alike(make: Make, figures: Figures, longer: int, room: int) -> None:
    """Frame and cage in the middle: what is left over is shared by the two ends."""
    side = 360 + Fraction(longer, 4)
    request = make(side_to_side=side, inside_along=side + 8 + room, lug_to_lug=side + 31,
                   lug_room=side + 33)  # fmt: skip
    found = draft(request, figures)
    ends = {name: found.gap(name) for name in (GapName.FRAME_END, GapName.HIVE_END)}
    frame_end, hive_end = ends[GapName.FRAME_END], ends[GapName.HIVE_END]
    assert frame_end is not None
    assert hive_end is not None
    assert 2 * (frame_end.nominal or 0) + side == found.cage.length_inside
    assert 2 * (hive_end.nominal or 0) + found.cage.length_outside == side + 8 + room


def test_what_the_cage_is_cut_to_stays_when_the_frame_differs(make: Make, figures: Figures) -> None:
    """The true frame enters the gaps inside the cage, not those between cage and hive."""
    found = draft(make(), figures)
    roles = {
        one.gap: {term.role for term in one.terms}
        for one in found.gaps
        if one.gap is not GapName.ACROSS
    }
    assert Role.FRAME in roles[GapName.FRAME_END]
    for name in (GapName.HIVE_END, GapName.EAR_PLAY, GapName.BELOW, GapName.HEAD_ROOM):
        assert roles[name] == {Role.CUT, Role.HIVE}


def test_beside_the_lugs_the_frame_hangs_on_the_ledge_itself(make: Make, figures: Figures) -> None:
    """Its lug then bears on the hive, not on the ear."""
    found = draft(make(ledge_up=12), figures)
    case = Case(found.lengths, found.cage, found.hanging.closing, Fraction(4), figures)
    assert found.cage.ears is Ears.BESIDE_LUG
    assert {term.role for term in gap_of(GapName.LUG_BEARING, case).terms} == {
        Role.FRAME, Role.HIVE,
    }  # fmt: skip
    under = replace(case, cage=replace(found.cage, ears=Ears.UNDER_LUG))
    assert Role.CUT in {term.role for term in gap_of(GapName.LUG_BEARING, under).terms}
