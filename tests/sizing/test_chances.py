"""How sure the fit is: two independent ways to the same number, and what must be true of it."""

from __future__ import annotations

import random
from collections.abc import Callable
from dataclasses import replace
from fractions import Fraction
from math import inf

import numpy as np
import pytest
from hanging import Many, all_hold, holds, made, sizes
from own_hives import lengths, orders, request, whole_kinds
from scipy.stats import multivariate_normal

from sizing.cage import Design, Verdict, design_cage
from sizing.chances import chances, second_readings
from sizing.draft import Draft, draft
from sizing.fit import GapVerdict, gaps_of
from sizing.measures import (
    GapName,
    Length,
    LidChoice,
    LidKind,
    Measure,
    MeasuredWith,
    Purpose,
    Request,
    Tape,
)
from sizing.probability import Row, chance_of_all
from sizing.uncertainty.making import cut
from sizing.uncertainty.reading import reading, readings
from sizing.uncertainty.spread import spread
from sizing.uncertainty.wood import ACROSS_BODY, ACROSS_FRAME, movement
from sizing.units import INCH
from sizing.workshop import Figures, default_figures

Make = Callable[..., Request]

DRAWS = 400_000
FIGURES = default_figures()


def generated(seed: int) -> Request:
    """An order for a known frame in a hive that may be wide or tight, any lid, any tape."""
    chance = random.Random(seed)
    true = lengths(chance.choice(whole_kinds()))

    def about(value: Fraction, low: float, high: float) -> Fraction:
        return value + Fraction(round(chance.uniform(low, high) * 10), 10)

    frame, hive = dict(true.frame), dict(true.hive)
    hive["inside_along"] = about(frame["side_to_side"], 8, 17)
    hive["lug_room"] = about(frame["lug_to_lug"], 0.5, 6)
    hive["ledge_down"] = about(hive["ledge_down"], -4, 5)
    hive["ledge_up"] = about(frame["lug_thickness"], 0, 9)
    readings_of = {
        part: {name: (value,) * chance.choice((1, 1, 2)) for name, value in values.items()}
        for part, values in (("frame", frame), ("hive", hive))
    }
    order = request(true, chance.choice(list(Purpose)), chance.choice(list(Tape)), readings_of)
    return replace(order, lid=chance.choice(list(LidChoice)))


def joints(seeds: range) -> list[tuple[int, Request, Draft]]:
    """Those of the generated orders whose cage can be judged."""
    found = [(seed, generated(seed)) for seed in seeds]
    return [(seed, order, draft(order, FIGURES)) for seed, order in found]


# --- (a) agreement: the truth drawn back from the readings, and hung ----------------------


def drawn(order: Request, count: int, seed: int) -> dict[str, Many]:
    """True lengths as these readings leave them open, with the wood of another day."""
    chance = np.random.default_rng(seed)
    body, wood = chance.standard_normal(count), chance.standard_normal(count)
    found, measured = {}, {}
    for measure, said in given(order).items():
        value, sure = float(said.value), reading(said, order.measured_with, FIGURES)
        measured[measure] = value + sure.uncertainty * chance.standard_normal(count)
        true = measured[measure] + spread(measure, FIGURES) * chance.standard_normal(count)
        if measure in ACROSS_BODY:
            true = true + movement(said.value, FIGURES) * body
        elif measure in ACROSS_FRAME:
            true = true + movement(said.value, FIGURES) * wood
        found[measure.value] = true

    def of_another(measure: Measure) -> Many:
        true = measured[measure] + spread(measure, FIGURES) * chance.standard_normal(count)
        if measure in ACROSS_FRAME:
            true = true + movement(given(order)[measure].value, FIGURES) * wood
        return np.asarray(true)

    lug, height = of_another(Measure.LUG_THICKNESS), of_another(Measure.TOP_TO_BOTTOM)
    told = order.hive.below_space
    found["below_space"] = found["ledge_up"] - lug if told is None else np.zeros(count)
    found["above_space"] = found["ledge_down"] - height + of_another(Measure.LUG_THICKNESS)
    return found


def given(order: Request) -> dict[Measure, Length]:
    """The measured lengths of an order."""
    return {
        measure: said
        for measure in readings(order, FIGURES)
        if (said := getattr(order.frame, measure, None) or getattr(order.hive, measure, None))
    }


def hung(order: Request, design: Design, count: int, seed: int) -> float:
    """The share of so many cages that go in, hang and hold."""
    chance = np.random.default_rng(seed + 1)
    pieces = {}
    for name, size in sizes(design, order, FIGURES).items():
        grade = FIGURES.cutting_ears if name == "ears" else FIGURES.cutting
        pieces[name] = size + cut(grade, Fraction(size)) * chance.standard_normal(count)
    every = holds(design, made(design, pieces), drawn(order, count, seed), FIGURES)
    return float(all_hold(every).mean())


def check_agreement(seeds: range) -> None:
    """The joint is the share that hangs, within 0.003."""
    apart = {}
    for seed, order, found in joints(seeds):
        assert found.chances.probability is not None
        share = hung(order, design_cage(order), DRAWS, seed)
        apart[seed] = abs(share - found.chances.probability)
    print(f"{len(apart)} orders at {DRAWS} draws, largest difference {max(apart.values()):.5f}")
    assert {seed: error for seed, error in apart.items() if error > 0.003} == {}


def test_the_joint_is_the_share_of_cages_that_hang() -> None:
    """Drawn piece by piece and hung by plain geometry, 400 000 times an order."""
    check_agreement(range(12))


@pytest.mark.slow
def test_the_joint_is_the_share_of_cages_that_hang_in_many_orders() -> None:
    """The same for many more orders."""
    check_agreement(range(12, 52))


# --- against an independent integrator -----------------------------------------------------


def reference(rows: tuple[Row, ...]) -> float:
    """The probability of all rows by scipy."""
    names = sorted({name for row in rows for name in row.errors})
    shares = np.array([[row.errors.get(name, 0.0) for name in names] for row in rows])
    means, covariance = [row.mean for row in rows], shares @ shares.T
    lows, highs = [row.low for row in rows], [row.high for row in rows]
    exact = multivariate_normal(means, covariance, allow_singular=True, maxpts=100_000)
    return float(exact.cdf(highs, lower_limit=lows))


def check_integrator(seeds: range) -> None:
    """All rows of a cage at once, nothing joined or left out: within 0.002."""
    apart = {}
    for seed, _, found in joints(seeds):
        assert found.chances.probability is not None
        apart[seed] = abs(found.chances.probability - reference(found.chances.rows))
    print(f"{len(apart)} cages, largest difference {max(apart.values()):.5f}")
    assert {seed: error for seed, error in apart.items() if error > 0.002} == {}


def test_the_joint_is_that_of_an_independent_integrator() -> None:
    """For generated cages of every sort."""
    check_integrator(range(150))


@pytest.mark.slow
def test_the_joint_is_that_of_an_independent_integrator_for_many_cages() -> None:
    """The same for hundreds more."""
    check_integrator(range(150, 500))


# --- what must be true of it ---------------------------------------------------------------


def test_generated_orders_are_of_every_sort() -> None:
    """They do not all come out alike: verdicts, lids, joints."""
    found = [one for _, _, one in joints(range(120))]
    assert {one.verdict for one in found} == set(Verdict)
    assert len({one.hanging.closing for one in found}) == 3
    joint = [one.chances.probability or 0.0 for one in found]
    assert min(joint) < 0.3
    assert max(joint) > 0.99


def test_the_joint_is_at_most_the_weakest_and_at_least_what_is_left() -> None:
    """Between the least probability of one gap and one less all that may go wrong."""
    for seed, _, found in joints(range(120)):
        alone = {gap.gap: gap.probability for gap in found.gaps if gap.probability is not None}
        joint = found.chances.probability
        assert joint is not None
        assert found.chances.weakest == min(alone, key=lambda name: alone[name]), seed
        assert 1 - sum(1 - one for one in alone.values()) - 1e-6 <= joint, seed
        assert joint <= min(alone.values()) + 1e-6, seed


def test_the_interval_lies_round_the_nominal(make: Make) -> None:
    """As far below as above, and a must inside it is less sure than one outside."""
    for gap in design_cage(make()).gaps:
        if gap.gap is GapName.ACROSS:
            assert (gap.low, gap.high, gap.probability) == (None, None, None)
            continue
        assert gap.nominal is not None
        assert gap.low is not None
        assert gap.high is not None
        assert gap.low < gap.nominal < gap.high
        assert gap.low + gap.high == pytest.approx(2 * gap.nominal, abs=0.002)
        if gap.must[0] is not None:
            assert gap.probability is not None
            assert (gap.probability > 0.975) is (gap.low > gap.must[0])


ROOM = {
    "inside_along": GapName.HIVE_END,
    "lug_room": GapName.EAR_PLAY,
    "ledge_down": GapName.BELOW,
    "below_space": GapName.BELOW,
    "ledge_up": GapName.HEAD_ROOM,
}


@pytest.mark.parametrize("name", ROOM)
def test_more_room_round_the_same_cage_never_lowers_its_probability(name: str) -> None:
    """The cage stays as it is cut, the hive is read wider, millimetre by millimetre."""
    for _, order, found in joints(range(25)):
        before = -1.0
        for wider in range(-4, 5):
            given_length = getattr(found.lengths, name)
            start = given_length if given_length is not None else Fraction(5)
            wide = max(Fraction(1), start + wider)
            lengths_now = replace(found.lengths, **{name: wide})  # type: ignore[arg-type]
            case = replace(found.case, lengths=lengths_now)
            # the same uncertainty throughout: only the room changes
            sure = readings(order, FIGURES)
            now = chances(gaps_of(case), case, sure)
            one = next(gap for gap in now.gaps if gap.gap is ROOM[name]).probability
            if one is None:
                continue
            assert one >= before - 2e-4, (name, wider)
            before = one


def test_a_better_tape_and_a_second_look_make_what_holds_surer() -> None:
    """Class by class and reading by reading, wherever every must holds nominally."""
    for purpose in Purpose:
        columns = [
            [design_cage(order).fit.probability or 0.0 for _, order in orders(purpose, tape, count)]
            for tape, count in ((Tape.III, 1), (Tape.III, 2), (Tape.II, 2), (Tape.I, 2))
        ]
        for row in zip(*columns, strict=True):
            assert list(row) == sorted(row)


def test_an_unknown_tape_counts_as_one_of_the_widest() -> None:
    """Same joint as class III."""
    for (_, one), (_, other) in zip(
        orders(Purpose.ISOLATE, Tape.UNKNOWN, 1), orders(Purpose.ISOLATE, Tape.III, 1), strict=True
    ):
        assert design_cage(one).fit == design_cage(other).fit


def test_mirrored_the_probability_is_the_same() -> None:
    """Left for right: every error and bound with the other sign."""
    for _, _, found in joints(range(60)):
        rows = found.chances.rows
        turned = [
            Row(
                -row.mean, {name: -share for name, share in row.errors.items()}, -row.high, -row.low
            )
            for row in rows
        ]
        assert chance_of_all(turned) == pytest.approx(chance_of_all(rows), abs=1e-6)


def test_in_another_unit_the_probability_is_the_same() -> None:
    """Every row in inches instead of millimetres, and in another order."""
    inch = float(INCH)
    for _, _, found in joints(range(60)):
        rows = found.chances.rows
        scaled = [
            Row(row.mean / inch, {name: share / inch for name, share in row.errors.items()},
                row.low / inch if row.low > -inf else -inf,
                row.high / inch if row.high < inf else inf)
            for row in reversed(rows)
        ]  # fmt: skip
        assert chance_of_all(scaled) == pytest.approx(chance_of_all(rows), abs=1e-4)


def test_boxes_that_differ_make_everything_less_sure(make: Make, figures: Figures) -> None:
    """Box-to-box spread is nothing unless the workshop says so."""
    uneven = replace(figures, spread_box=Fraction(2))
    plain, wide = draft(make(), figures).chances, draft(make(), uneven).chances
    assert (wide.probability or 0) < (plain.probability or 0) - 0.05


def test_dry_wood_is_surer_than_wood_that_moves(make: Make, figures: Figures) -> None:
    """The swing of moisture belongs to what lies across the grain."""
    still = draft(make(), replace(figures, moisture_swing=Fraction(0))).chances
    moving = draft(make(), figures).chances
    before = {gap.gap: gap.probability for gap in moving.gaps}
    after = {gap.gap: gap.probability for gap in still.gaps}
    changed = {name for name in after if after[name] != before[name]}
    assert changed == {GapName.BELOW, GapName.HEAD_ROOM, GapName.FRAME_BOTTOM}
    assert (after[GapName.BELOW] or 0) > (before[GapName.BELOW] or 0)


def test_the_persons_own_doubt_counts(make: Make) -> None:
    """± 3 mm on the lug room is felt where the ears play."""
    order = make()
    wide = Length((Fraction("393.25"),), plus_minus=Fraction(3))
    doubtful = replace(order, hive=replace(order.hive, lug_room=wide))
    sure, unsure = design_cage(order).fit, design_cage(doubtful).fit
    assert unsure.probability is not None
    assert sure.probability is not None
    assert unsure.probability < sure.probability - 0.05
    assert unsure.measure_again is Measure.LUG_ROOM


def test_without_a_needed_length_nothing_is_promised(make: Make) -> None:
    """An open gap leaves the joint open; what is known of the others stands."""
    design = design_cage(make(lug_room=None))
    assert (design.fit.probability, design.fit.weakest, design.fit.measure_again) == (None,) * 3
    known = {gap.gap for gap in design.gaps if gap.probability is not None}
    assert GapName.FRAME_END in known
    assert GapName.EAR_PLAY not in known
    assert second_readings(draft(make(lug_room=None), FIGURES).chances) == {}


def test_a_told_space_of_nothing_is_not_doubted(make: Make) -> None:
    """A flat board under the body is no reading."""
    told = draft(make(below_space=0, ledge_down=262), FIGURES).chances
    row = next(row for row, gap in zip(told.rows, told.gaps, strict=False)
               if gap.gap is GapName.BELOW)  # fmt: skip
    assert not any("space" in name for name in row.errors)


def test_an_assumed_space_of_nothing_is_doubted(make: Make) -> None:
    """Frames flush with the lower edge: that of the next box is as unsure as what it came from."""
    order = make(ledge_up=10, ledge_down=250, lug_thickness=10)
    found = draft(order, FIGURES)
    assert found.lengths.hang == 0
    assert found.hanging.closing is LidKind.CLOSED_BETWEEN_WALLS
    row = next(row for row, gap in zip(found.chances.rows, found.gaps, strict=False)
               if gap.gap is GapName.HEAD_ROOM)  # fmt: skip
    assert {"read top_to_bottom", "read ledge_down", "wood hive"} <= set(row.errors)


def reread(order: Request, measure: Measure) -> Request:
    """The order with that measure read once more, the same."""
    part = "frame" if hasattr(order.frame, measure) else "hive"
    holder = getattr(order, part)
    said = getattr(holder, measure)
    more = replace(said, readings=(*said.readings, said.value))
    return replace(order, **{part: replace(holder, **{measure.value: more})})


def test_what_to_measure_again_is_what_gains_most(figures: Figures) -> None:
    """Sized anew with each measure read twice: the best is named, under 0.005 none is."""
    named = set()
    for seed, order, found in joints(range(60)):
        after = second_readings(found.chances)
        joint = found.chances.probability
        assert joint is not None
        for measure, expected in after.items():
            again = draft(reread(order, measure), figures).chances.probability
            assert again == pytest.approx(expected, abs=5e-4), (seed, measure)
        best = max(after.values())
        fit = design_cage(order).fit
        if best - joint >= figures.measure_again_gain:
            assert fit.measure_again is not None
            assert after[fit.measure_again] == best
        else:
            assert fit.measure_again is None
        named.add(fit.measure_again)
    assert len(named) > 3


def test_sizes_do_not_depend_on_how_sure_they_are(make: Make) -> None:
    """Uncertainty decides make or ask, never the cage."""
    fine, coarse = (
        design_cage(make(measured_with=MeasuredWith(tape, step)))
        for tape, step in ((Tape.I, Fraction(1, 2)), (Tape.III, Fraction(5)))
    )
    assert (fine.cage, fine.lid, fine.wire) == (coarse.cage, coarse.lid, coarse.wire)
    assert (fine.verdict, coarse.verdict) == (Verdict.MAKE, Verdict.ASK)


def test_a_must_that_fails_is_more_likely_to_fail(make: Make) -> None:
    """Nominally outside is less than even."""
    design = design_cage(make(inside_along=366))
    end = next(gap for gap in design.gaps if gap.gap is GapName.HIVE_END)
    assert end.verdict is GapVerdict.FAILS
    assert end.probability is not None
    assert end.probability < 0.5
