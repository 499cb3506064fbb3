"""The simulated beekeepers are what they claim to be: true frames in true hives, honest twins,
and a judge of the fit that agrees with the chains where nothing is uncertain."""

from __future__ import annotations

import random
from fractions import Fraction

import pytest
from beekeepers.faults import FAULTS, LONG
from beekeepers.hanging import failures
from beekeepers.person import make
from beekeepers.scoring import wilson
from beekeepers.talk import held
from beekeepers.truth import ODD, Truth, draw, spreads, usable
from beekeepers.writing import Number, changed_digit, inches, metric, swapped

from sizing.cage import design_cage
from sizing.fit import GapVerdict
from sizing.measures import (
    Above,
    Below,
    Frame,
    GapName,
    Hive,
    Length,
    LidChoice,
    Purpose,
    Request,
)  # fmt: skip
from sizing.standards import frame_kind

SLIPS = {"inch-as-cm", "ten-times", "exchanged", "digits-swapped", "one-digit"}
FRAME = (
    "side_to_side", "top_to_bottom", "lug_to_lug", "lug_thickness", "lug_width", "widest_wood",
    "comb_thickness",
)  # fmt: skip


def exact(truth: Truth, lid: LidChoice) -> Request:
    """The order of somebody who measures without any error."""

    def length(value: float) -> Length:
        return Length((Fraction(value),))

    return Request(
        Purpose(truth.purpose),
        Frame(**{name: length(truth.lengths[name]) for name in FRAME}),
        Hive(
            inside_along=length(truth.lengths["inside_along"]),
            lug_room=length(truth.lengths["lug_room"]),
            ledge_down=length(truth.lengths["ledge_down"]),
            ledge_up=length(truth.lengths["ledge_up"]),
            above_space=None if truth.above == "cloth" else length(truth.lengths["above_space"]),
            below=Below(truth.below), below_space=length(truth.space_below),
            above=Above(truth.above),
        ),
        lid=lid,
    )  # fmt: skip


@pytest.mark.parametrize("kind", [*(kind.id for kind in usable()), ODD])
def test_every_frame_of_the_data_is_drawn_near_its_size(kind: str) -> None:
    """Each length that is published is missed by no more than makers differ."""
    truth = draw(random.Random(1), kind)
    most = spreads()["maker"]["hive_most"] + spreads()["maker"]["frame_most"]
    for measure in LONG:
        known = None if kind == ODD else frame_kind(kind).value(measure)
        if known is not None:
            assert abs(truth.lengths[measure] - float(known)) <= most, measure
    assert truth.lengths["lug_room"] > truth.lengths["lug_to_lug"]
    assert truth.lengths["inside_along"] > truth.lengths["side_to_side"]


@pytest.mark.parametrize("lid", list(LidChoice))
def test_the_judge_agrees_with_the_chains_on_exact_lengths(lid: LidChoice) -> None:
    """Written apart, they find the same musts failing in frames and hives of all kinds."""
    for seed in range(150):
        truth = draw(random.Random(seed))
        design = design_cage(exact(truth, lid))
        fails = {gap.gap for gap in design.gaps if gap.verdict is GapVerdict.FAILS}
        judged = {GapName(name) for name in failures(design, truth) if name != "wood_goes_in"}
        assert judged == fails, (seed, truth)


@pytest.mark.parametrize("lid", [LidChoice.AUTO])
def test_a_cage_that_misses_something_is_seen_to_miss_it(lid: LidChoice) -> None:
    """Both ways of judging find failures among cages for another frame than the true one."""
    found: set[str] = set()
    for seed in range(40):
        truth, other = draw(random.Random(seed)), draw(random.Random(seed + 1000))
        found |= set(failures(design_cage(exact(other, lid)), truth))
    assert len(found) >= 8, found


@pytest.mark.parametrize("fault", FAULTS)
def test_a_fault_spoils_the_answer_and_only_that(fault: str) -> None:
    """Against the same person without it; a slip is not made again, a misunderstanding is until
    it is cleared up."""
    person = make(f"test-{fault}", (fault,))
    honest = person.honest()
    spoilt = {measure for fault in person.faults for measure in fault.measures}
    for measure in person.truth.lengths:
        same = person.typed(measure, 0) == honest.typed(measure, 0)
        if measure not in spoilt:
            assert same
    assert any(person.off(measure) for measure in spoilt)
    again = {measure: person.typed(measure, 1) for measure in spoilt}
    if fault in SLIPS:
        assert all(again[measure] == honest.typed(measure, 1) for measure in spoilt)
    else:
        assert any(again[measure] != honest.typed(measure, 1) for measure in spoilt)
        person.told.add(fault)
        assert all(person.typed(m, 1) == honest.typed(m, 1) for m in spoilt)


def test_numbers_are_written_as_they_are_meant() -> None:
    """Millimetres, centimetres, parts of an inch."""
    assert metric(363.4, 1, "mm", shows_zero=True) == Number("363", "mm")
    assert metric(363.4, 1, "cm", shows_zero=True) == Number("36.3", "cm")
    assert metric(362.6, 5, "cm", shows_zero=False) == Number("36.5", "cm")
    assert metric(362.4, 10, "cm", shows_zero=True) == Number("36", "cm")
    assert inches(358.775, 8) == Number("14", "in", Fraction(1, 8))
    assert inches(358.775, 8).mm == Fraction("358.775")


def test_slips_of_the_fingers_keep_the_length_of_the_number() -> None:
    """Two neighbours exchanged, or one digit another; never a leading nought."""
    chance = random.Random(3)
    turned = {swapped(Number("360", "mm"), chance) for _ in range(50)}
    assert turned == {Number("630", "mm"), Number("306", "mm")}
    assert swapped(Number("44", "mm"), chance) is None
    for _ in range(200):
        wrong = changed_digit(Number("36.3", "cm"), chance)
        differing = [a for a, b in zip(wrong.digits, "36.3", strict=True) if a != b]
        assert len(differing) == 1
        assert wrong.digits[0] != "0"


@pytest.mark.parametrize(
    ("hits", "of", "low", "high"), [(81, 263, 0.2553, 0.3662), (0, 20, 0.0, 0.1611)]
)
def test_the_intervals_are_those_of_the_score_method(
    hits: int, of: int, low: float, high: float
) -> None:
    """As R. G. Newcombe printed them (Statistics in Medicine 17, 1998, Table I; from memory)."""
    assert wilson(hits, of) == pytest.approx((low, high), abs=0.0001)


@pytest.mark.parametrize("hive", [True, False])
def test_an_honest_person_gets_through(hive: bool) -> None:
    """Every talk ends in an order, and no separating question stays without a truthful answer."""
    for seed in range(8):
        talk = held(make(f"through-{seed}", hive=hive))
        assert talk.request is not None
        assert talk.unknown == []
