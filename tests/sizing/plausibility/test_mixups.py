"""All stories weighed together: the right one comes first, and honest frames are believed."""

from __future__ import annotations

import time
from fractions import Fraction

import pytest

from sizing.measures import Measure
from sizing.plausibility.mistakes import Mistake, figure
from sizing.plausibility.mixups import HARMLESS, Weighed, suspicions, weigh
from sizing.plausibility.stories import PLACES
from sizing.standards import FrameKind, frame_kinds

USUAL = {
    "side_to_side": 360, "top_to_bottom": 260, "lug_to_lug": 391, "lug_thickness": 10,
    "inside_along": 375, "lug_room": 393, "ledge_down": 253, "ledge_up": 17, "widest_wood": 35,
    "comb_thickness": 27,
}  # fmt: skip
OF_HIVE = ("inside_along", "lug_room", "ledge_down", "ledge_up")


def answers(**changes: float | None) -> dict[Measure, Fraction]:
    """The usual answers, some of them changed or missing."""
    given = {**USUAL, **changes}
    return {Measure(name): Fraction(str(v)) for name, v in given.items() if v is not None}


def frame_alone(**changes: float | None) -> dict[Measure, Fraction]:
    """The same without the hive."""
    return answers(**dict.fromkeys(OF_HIVE), **changes)


@pytest.mark.parametrize(
    ("changes", "mistake", "measures"),
    [
        ({"side_to_side": 340}, Mistake.INSIDE, ("side_to_side",)),
        ({"top_to_bottom": 238}, Mistake.INSIDE, ("top_to_bottom",)),
        ({"top_to_bottom": 249}, Mistake.COMB, ("top_to_bottom",)),
        ({"lug_to_lug": 361}, Mistake.LUGS, ("lug_to_lug",)),
        ({"side_to_side": 391}, Mistake.LUGS, ("side_to_side",)),
        ({"side_to_side": 260, "top_to_bottom": 360}, Mistake.EXCHANGED,
         ("side_to_side", "top_to_bottom")),
        ({"lug_to_lug": 319}, Mistake.DIGITS_SWAPPED, ("lug_to_lug",)),
        ({"ledge_down": 235}, Mistake.DIGITS_SWAPPED, ("ledge_down",)),
        ({"top_to_bottom": 267}, Mistake.ONE_DIGIT, ("top_to_bottom",)),
        ({"lug_to_lug": 491}, Mistake.NOT_FROM_ZERO, ("lug_to_lug",)),
        ({"inside_along": 310}, Mistake.TAPE_CASE, ("inside_along",)),
        ({"inside_along": 417}, Mistake.OUTSIDE_OF_BOX, ("inside_along",)),
        ({"side_to_side": 141.7}, Mistake.UNIT, ("side_to_side",)),
        ({"ledge_up": 1.7}, Mistake.TEN_TIMES, ("ledge_up",)),
    ],
)  # fmt: skip
def test_the_mistake_that_was_made_comes_first(
    changes: dict[str, float], mistake: Mistake, measures: tuple[str, ...]
) -> None:
    """One mistake in a usual order is suspected, in its own answer and by its own name."""
    found = weigh(answers(**changes))
    assert found.suspicion > 0.5
    assert (found.suspects[0].mistake, found.suspects[0].measures) == (mistake, measures)


def test_what_would_be_true_is_told() -> None:
    """Inside for outside by two bars of 10: the frame is 360."""
    first = weigh(answers(side_to_side=340)).suspects[0]
    assert first.true == (Fraction(360),)


def test_weights_are_prior_times_likelihood_and_sum_to_one() -> None:
    """The arithmetic of every story can be done again from what is shown."""
    found = weigh(answers(top_to_bottom=240))
    assert sum(one.weight for one in found.stories) == pytest.approx(1, abs=0.02)
    honest = sum(one.weight for one in found.stories if one.mistake in HARMLESS
                 and one.mistake is not Mistake.HOOK_PLAY)  # fmt: skip
    for one in found.suspects:
        assert one.weight == pytest.approx(one.prior * one.likelihood * honest, rel=0.01)


def test_two_ledges_tell_which_of_two_answers_is_wrong() -> None:
    """The same gap at the walls: the lugs say whether the frame or the box is too small."""
    of_frame = weigh(answers(side_to_side=342)).suspects[0]
    of_box = weigh(answers(inside_along=393, lug_room=411, lug_to_lug=391)).suspects[0]
    assert of_frame.measures == (Measure.SIDE_TO_SIDE,)
    assert Measure.SIDE_TO_SIDE not in of_box.measures


def said(kind: FrameKind, lug: int) -> dict[Measure, Fraction]:
    """What a row of the data says, with a usual lug and comb where it is silent."""
    known = {m: value for m in PLACES if (value := kind.value(m)) is not None}
    known.setdefault(Measure.LUG_THICKNESS, Fraction(lug))
    known[Measure.COMB_THICKNESS] = Fraction(27)
    body, up = kind.value("body_depth"), kind.value("ledge_up")
    if body is not None and up is not None:
        known[Measure.LEDGE_DOWN] = body - up
    return known


@pytest.mark.parametrize("lug", [8, 10])
def test_no_frame_in_the_data_is_suspected(lug: int) -> None:
    """Every row of the standards, in its own hive where it has one, is believed."""
    doubted = {}
    for kind in frame_kinds():
        found = weigh(said(kind, lug)) if kind.cannot is None else Weighed(())
        if found.suspicion >= figure("share.doubted"):
            doubted[kind.id] = (found.suspects[0].mistake, round(found.suspicion, 2))
    assert doubted == {}


@pytest.mark.parametrize("step", [5, 10])
def test_who_rounds_everything_is_believed(step: int) -> None:
    """All lengths on fives or tens: the person rounds, and the gaps are off by as much."""
    rounded = {name: round(value / step) * step for name, value in USUAL.items() if value > 100}
    assert weigh(answers(**rounded)).suspicion < figure("share.doubted")


def test_one_exact_number_among_rounded_ones_is_remarkable() -> None:
    """Who gives fives does not type 268."""
    rounded = {"lug_to_lug": 390, "lug_room": 395, "ledge_down": 255}
    on_fives = weigh(answers(**rounded, top_to_bottom=265))
    assert weigh(answers(**rounded, top_to_bottom=268)).suspicion > on_fives.suspicion


def test_a_frame_of_any_size_in_a_hive_made_for_it_is_believed() -> None:
    """An odd size whose hive agrees with it is an odd frame, and nothing is wrong."""
    odd = answers(side_to_side=333, top_to_bottom=247, lug_to_lug=364, inside_along=348,
                  lug_room=366, ledge_down=240, ledge_up=17)  # fmt: skip
    found = weigh(odd)
    assert found.suspicion < figure("share.doubted")
    assert found.stories[0].mistake is Mistake.ODD_FRAME


def test_the_frame_alone_is_doubted_by_what_is_known_of_frames() -> None:
    """Without the hive a known frame measured between its bars is still noticed."""
    assert weigh(frame_alone()).suspicion < figure("share.doubted")
    found = weigh(frame_alone(side_to_side=340))
    assert found.suspects[0].mistake is Mistake.INSIDE
    assert found.suspicion > 0.5


def test_a_name_settles_what_numbers_leave_open() -> None:
    """A frame called by a kind's name is expected to be of that kind."""
    short = frame_alone(top_to_bottom=250)
    without = weigh(short).suspicion
    assert weigh(short, named=frozenset({"pl_wielkopolska"})).suspicion > without


def test_an_earlier_order_makes_the_same_numbers_believed() -> None:
    """What was ordered before, and is no kind, is not doubted again."""
    odd = frame_alone(side_to_side=330, top_to_bottom=247, lug_to_lug=383)
    assert weigh(odd, earlier=[odd]).suspicion < weigh(odd).suspicion / 2


def test_without_a_frame_nothing_is_weighed() -> None:
    """Two lengths of the frame must be there."""
    assert weigh({Measure.SIDE_TO_SIDE: Fraction(360)}).stories == ()
    assert weigh({}).suspicion == 0


def test_a_suspicion_becomes_a_finding_that_shows_its_stories() -> None:
    """The desk sees the doubted answer, where it is expected, and every story with its weight."""
    given = answers(side_to_side=340)
    (found,) = suspicions(given, weigh(given))
    low, high = found.expected
    assert (found.code, found.seen) == ("mixup", Fraction(340))
    assert found.measures[0] is Measure.SIDE_TO_SIDE
    assert low is not None
    assert high is not None
    assert low <= 360 <= high
    assert not low <= 340 <= high
    assert found.weights[0].mistake is Mistake.INSIDE
    assert list(suspicions(answers(), weigh(answers()))) == []


def test_a_small_mistake_is_expected_outside_of_what_was_seen() -> None:
    """Where the true value lies near, the band is narrower, and never holds what was seen."""
    given = answers(lug_thickness=14)
    for found in suspicions(given, weigh(given)):
        low, high = found.expected
        assert low is not None
        assert high is not None
        assert not low <= found.seen <= high


def test_nothing_that_can_be_typed_raises() -> None:
    """Zero differences, huge and tiny values, lone measures: always an answer."""
    for value in (Fraction(1, 3), Fraction(1, 100000), Fraction(10**9), Fraction(360)):
        given = dict.fromkeys(PLACES, value)
        found = weigh(given)
        assert len(list(suspicions(given, found))) <= 1
        assert 0 <= found.suspicion <= 1


def test_weighing_is_quick() -> None:
    """Well under a tenth of a second even on a busy machine; usually a few milliseconds."""
    weigh(answers())
    begin = time.process_time()
    for _ in range(10):
        weigh(answers(side_to_side=340))
    assert (time.process_time() - begin) / 10 < 0.05
