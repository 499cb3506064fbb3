"""Frames by kind: finding them, and a cage for every one that has its three lengths."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass, field
from fractions import Fraction

import pytest

from sizing import standards
from sizing.cage import Design, Verdict, design_cage
from sizing.errors import DataError
from sizing.fit import GapVerdict
from sizing.measures import Above, Below, GapName, LidKind, MeasuredWith, Purpose, Request, Tape
from sizing.standards import (
    FrameKind,
    Obstacle,
    by_name,
    frame_kind,
    frame_kinds,
    nearest_kinds,
)

Make = Callable[..., Request]

THREE = ("side_to_side", "top_to_bottom", "lug_to_lug")
WHOLE = [kind for kind in frame_kinds() if all(kind.value(name) is not None for name in THREE)]
NAMES = (
    "lug_thickness", "top_bar_thickness", "widest_wood", "inside_along", "lug_room",
    "inside_across", "spacing",
)  # fmt: skip


def test_thirty_five_kinds_have_their_three_lengths() -> None:
    """As many rows have side to side, top to bottom and lug to lug."""
    assert len(WHOLE) == 35


def test_ids_are_their_own() -> None:
    """No two rows share an id."""
    ids = [kind.id for kind in frame_kinds()]
    assert len(set(ids)) == len(ids)


# --- every kind, as it stands in the data -------------------------------------------------


def body(kind: FrameKind) -> dict[str, Fraction | int | None]:
    """What the row gives, under the names of the request; the rest is None."""
    known: dict[str, Fraction | int | None] = {name: kind.value(name) for name in (*THREE, *NAMES)}
    depth, up, held = kind.value("body_depth"), kind.value("ledge_up"), kind.value("frames_held")
    known["ledge_up"] = up
    known["ledge_down"] = None if depth is None or up is None else depth - up
    known["frames_held"] = None if held is None else int(held)
    return known


ALWAYS = (
    "lug_thickness", "widest_wood", "comb_thickness", "inside_along", "lug_room", "ledge_down",
    "ledge_up", "below", "inside_across", "frames_held",
)  # fmt: skip
LOW_RISE = ("lug_width", "above")


@pytest.mark.parametrize("kind", WHOLE, ids=lambda kind: kind.id)
def test_what_a_kind_lacks_is_open_or_assumed_and_nothing_else_is(
    make: Make, kind: FrameKind
) -> None:
    """Sized with what the row gives: each missing length is named, none that is there."""
    known = body(kind)
    nothing = dict.fromkeys(("comb_thickness", "lug_width", "below", "above", "spacer"))
    design = design_cage(make(**nothing | known))
    low = design.lid.kind is LidKind.CLOSED_BETWEEN_WALLS
    needed = (*ALWAYS, *LOW_RISE) if low else ALWAYS
    assert set(design.open) == {name for name in needed if known.get(name) is None}
    places = {"frames_out"}
    if known["spacing"] is None:
        places.add("spacer")
    assert {assumed.measure for assumed in design.assumed} == places
    assert design.verdict is Verdict.ASK
    assert GapVerdict.FAILS not in {gap.verdict for gap in design.gaps}
    print(kind.id, "open:", *design.open, "assumed:", *places)


# --- every kind, filled up ----------------------------------------------------------------

ON_A_FLOOR = {"dadant_ru_435x300": 0, "dadant_ro_stas": 0}
"""One-body hives: `ledge_down` goes to the floor."""

EXCEPTIONS = {
    "bs_14x12": "low rise, so its lid goes round the lugs, whose width nobody gives",
    "commercial_16x10": "low rise, so its lid goes round the lugs, whose width nobody gives",
}
"""Kinds for which the filling leaves something open that is needed."""


@dataclass
class Filled:
    """What a row gives, filled up where it is silent; `added` says with what."""

    values: dict[str, object]
    added: dict[str, Fraction] = field(default_factory=dict)

    def fill(self, name: str, value: Fraction) -> Fraction:
        """The value under `name`, if need be the one given here."""
        if self.values.get(name) is None:
            self.values[name] = self.added[name] = value
        found = self.values[name]
        assert isinstance(found, Fraction)
        return found


def filled(kind: FrameKind) -> Filled:
    """The row with C 27, u 10, W 35, A = S + 15, R = L + 2, rise 7, depth H + 10."""
    whole = Filled({**body(kind), "lug_width": kind.value("top_bar_width")})
    side, height, bar = (kind.value(name) for name in THREE)
    assert side is not None
    assert height is not None
    assert bar is not None
    whole.fill("comb_thickness", Fraction(27))
    lug = whole.fill("lug_thickness", Fraction(10))
    whole.fill("widest_wood", Fraction(35))
    whole.fill("inside_along", side + 15)
    whole.fill("lug_room", bar + 2)
    depth = kind.value("body_depth")
    if depth is None:
        depth = whole.added["body_depth"] = height + 10
    up = kind.value("ledge_up")
    if up is None:
        up = rise_read(kind, depth, height, whole) + lug
    whole.values |= {"ledge_up": up, "ledge_down": depth - up}
    whole.values["below"] = Below.FLOOR if kind.id in ON_A_FLOOR else Below.BOX
    whole.values["below_space"] = ON_A_FLOOR.get(kind.id)
    whole.values["above"] = Above.BOX
    return whole


def rise_read(kind: FrameKind, depth: Fraction, height: Fraction, whole: Filled) -> Fraction:
    """The rise as the row gives it, or as it follows from the hang; else 7."""
    rise, hang = kind.value("rise"), kind.value("hang")
    if rise is not None:
        return rise
    if hang is not None and kind.value("body_depth") is not None:
        return depth - height - hang
    whole.added["rise"] = Fraction(7)
    return Fraction(7)


def lid_by_rise(design: Design, whole: Filled) -> LidKind:
    """The lid that rise and lug room allow."""
    up, lug = whole.values["ledge_up"], whole.values["lug_thickness"]
    assert isinstance(up, Fraction)
    assert isinstance(lug, Fraction)
    enough = up - lug >= Fraction("3.9")
    return LidKind.END_OPEN if enough else LidKind.CLOSED_BETWEEN_WALLS


@pytest.mark.parametrize("purpose", Purpose)
@pytest.mark.parametrize("kind", WHOLE, ids=lambda kind: kind.id)
def test_every_kind_filled_up_can_be_made(make: Make, kind: FrameKind, purpose: Purpose) -> None:
    """No must fails, nothing needed is open, the lid is the one the rise allows, all is sure."""
    whole = filled(kind)
    tape = MeasuredWith(Tape.II)
    design = design_cage(make(purpose=purpose, measured_with=tape, **whole.values))
    print(kind.id, purpose, design.verdict, design.lid.kind, design.lid.why, "filled up:",
          *(f"{name} {float(value):g}" for name, value in whole.added.items()))  # fmt: skip
    gaps = {gap.gap: gap for gap in design.gaps}
    assert [name for name, gap in gaps.items() if gap.verdict is GapVerdict.FAILS] == []
    del gaps[GapName.ACROSS]
    assert [name for name, gap in gaps.items() if gap.verdict is GapVerdict.OPEN] == []
    assert design.lid.kind is lid_by_rise(design, whole)
    assert design.findings == ()
    if kind.id in EXCEPTIONS:
        assert (design.verdict, design.would_work[0].measure) == (Verdict.ASK, "lug_width")
    else:
        assert design.verdict is Verdict.MAKE


def test_exceptions_are_kinds_with_three_lengths() -> None:
    """The list of exceptions names rows that are there, and few."""
    assert set(EXCEPTIONS) <= {kind.id for kind in WHOLE}
    assert len(EXCEPTIONS) == 2


# --- finding a kind ----------------------------------------------------------------------


@pytest.mark.parametrize(
    ("said", "first"),
    [
        ("Wielkopolska", "pl_wielkopolska"),
        ("wielkopolski", "pl_wielkopolska"),
        ("  WIELKOPOLSKA. ", "pl_wielkopolska"),
        ("Ostrowska", "pl_ostrowska"),
        ("Zander", "zander"),
        ("zander flachzarge", "zander_flach"),
        ("Adamcova míra", "cz_39x24"),
        ("435x300", "dadant_ro_stas"),
        ("DB", "dadant_blatt_bertrand"),
        ("lågnormal", "se_lagnormal"),
    ],
)
def test_a_kind_is_found_by_what_people_call_it(said: str, first: str) -> None:
    """Case, accents, stops and short endings do not matter."""
    assert by_name(said)[0].id == first


def test_a_name_many_kinds_share_gives_them_all() -> None:
    """Langstroth alone is no size."""
    assert len(by_name("Langstroth")) > 10


@pytest.mark.parametrize("said", ["", " - ", "banana", "36"])
def test_what_is_no_name_finds_nothing(said: str) -> None:
    """No kind is better than a wrong one."""
    assert by_name(said) == ()


def test_frames_a_cage_cannot_hang_by_are_known() -> None:
    """No lugs, or a hive loaded from the back: the reason is part of the kind."""
    reasons = {kind.id: kind.cannot for kind in frame_kinds() if kind.cannot is not None}
    assert reasons == {
        "si_az": Obstacle.NO_LUGS,
        "swiss_burki": Obstacle.LOADED_FROM_THE_BACK,
        "swiss_burki_super": Obstacle.LOADED_FROM_THE_BACK,
    }
    assert by_name("AŽ")[0].cannot is Obstacle.NO_LUGS


def test_the_nearest_kind_is_the_one_with_the_least_largest_difference() -> None:
    """The distance is that of the length that differs most."""
    near = nearest_kinds(Fraction(361), Fraction(258), Fraction(392), 2)
    assert [one.kind.id for one in near] == ["pl_wielkopolska", "no_norsk"]
    assert [one.distance for one in near] == [Fraction(2), Fraction(6)]


def test_of_equally_near_kinds_the_better_known_comes_first() -> None:
    """A kind whose top bar agrees too goes before one whose top bar nobody gives."""
    near = nearest_kinds(Fraction(435), Fraction(300), Fraction(470), 3)
    assert near[0].distance == 0
    assert near[0].kind.value("lug_to_lug") == 470


def test_a_kind_can_be_near_without_the_top_bar() -> None:
    """Where it was not measured, the two other lengths decide."""
    assert nearest_kinds(Fraction(420), Fraction(270), None)[0].kind.id == "hu_hunor"


def test_a_figure_nobody_gives_is_none() -> None:
    """Known only from memory counts as not known."""
    assert frame_kind("zander_flach").value("side_to_side") is None
    assert frame_kind("zander_flach").value("lug_to_lug") == 477


def test_an_unknown_id_is_an_error() -> None:
    """It is not answered with another kind."""
    with pytest.raises(KeyError):
        frame_kind("kuntzsch")


@pytest.mark.parametrize(
    "row", [{"id": "x"}, {"id": "x", "name": "X", "aliases": [], "region": "", "sources": [],
            "figures": {"lug_each": {"value": 1, "unit": "mm"}}}],
)  # fmt: skip
def test_a_row_that_is_not_whole_is_refused(
    row: dict[str, object], monkeypatch: pytest.MonkeyPatch
) -> None:
    """The error names the row."""
    monkeypatch.setattr(standards, "table", lambda _: {"kind": [row]})
    with pytest.raises(DataError) as caught:
        frame_kinds.__wrapped__()
    assert caught.value.row == "x"
