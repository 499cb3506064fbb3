"""What would work instead: offered only if it does."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import replace
from fractions import Fraction

import pytest

from sizing.accepted import space_below
from sizing.alternatives import Remedy, WouldWork, would_work
from sizing.draft import Changes, Draft, Verdict, draft
from sizing.measures import Length, LidChoice, Purpose, Request, Tape
from sizing.workshop import Figures

Make = Callable[..., Request]


def ways(request: Request, figures: Figures) -> tuple[WouldWork, ...]:
    """What would work for this request."""
    return would_work(request, draft(request, figures), figures)


CANNOT: dict[str, dict[str, object]] = {
    "no head room": {"lid": LidChoice.END_OPEN, "ledge_up": 10, "ledge_down": 260},
    "narrow body": {"inside_along": 366},
    "very narrow body": {"inside_along": Fraction("363.7"), "lid": LidChoice.AUTO},
    "narrow ledge": {"inside_along": 388},
    "stands on a board": {"below_space": 0, "ledge_down": 249},
    "short lugs": {"lug_to_lug": 378, "lug_room": 380, "inside_along": 374},
}


@pytest.mark.parametrize(
    ("case", "ids"),
    [
        ("no head room", ["lid", "rim"]),
        ("narrow body", ["allowance"]),
        ("very narrow body", ["allowance"]),
        ("narrow ledge", ["ears"]),
        ("stands on a board", ["rim"]),
        ("short lugs", ["allowance"]),
    ],
)
def test_each_trouble_has_its_remedy(
    make: Make, figures: Figures, case: str, ids: list[str]
) -> None:
    """A single change of the right kind is offered."""
    request = make(**CANNOT[case])
    assert draft(request, figures).verdict is Verdict.CANNOT
    assert [way.id for way in ways(request, figures)] == ids


def after(request: Request, way: WouldWork, figures: Figures) -> Draft:
    """The cage when one does what was offered."""
    value = way.value
    if way.id is Remedy.LID:
        return draft(replace(request, lid=LidChoice(str(value))), figures)
    if way.id is Remedy.TAPE_CLASS:
        known = replace(request.measured_with, tape=Tape(str(value)))
        return draft(replace(request, measured_with=known), figures)
    if way.id is Remedy.SECOND_READING:
        return draft(read_again(request, str(way.measure)), figures)
    if way.id is Remedy.FLOOR:
        gap = value if isinstance(value, Fraction) else figures.gap_under
        return draft(request, figures, Changes(flat_floor_gap=gap))
    assert isinstance(value, Fraction)
    if way.id is Remedy.EARS:
        return draft(request, figures, Changes(ear_span=value))
    if way.id is Remedy.ALLOWANCE:
        return draft(request, figures, Changes(allowance_along=value))
    assert way.id is Remedy.RIM
    hive = request.hive
    found = draft(request, figures).lengths
    if way.measure == "ledge_up":
        assert found.ledge_up is not None
        under = found.below_space if found.below_space is not None else found.rise
        assert under is not None
        raised = replace(hive, ledge_up=Length((found.ledge_up + value,)),
                         below_space=Length((under,)))  # fmt: skip
        return draft(replace(request, hive=raised), figures)
    below = space_below(found).value
    assert below is not None
    lowered = replace(hive, below_space=Length((below + value,)))
    return draft(replace(request, hive=lowered), figures)


def read_again(request: Request, name: str) -> Request:
    """The request with that measure read once more, the same."""
    part = "frame" if hasattr(request.frame, name) else "hive"
    holder = getattr(request, part)
    twice = Length(getattr(holder, name).readings * 2)
    return replace(request, **{part: replace(holder, **{name: twice})})


@pytest.mark.parametrize("case", CANNOT)
def test_what_is_offered_works(make: Make, figures: Figures, case: str) -> None:
    """Whoever does one of the things offered gets a cage in which no must fails.

    How sure that cage would be is said with it.
    """
    request = make(**CANNOT[case])
    offered = ways(request, figures)
    assert offered
    for way in offered:
        other = after(request, way, figures)
        assert other.verdict is not Verdict.CANNOT
        assert way.probability == pytest.approx(other.chances.probability, abs=0.01), way


UNSURE: dict[str, tuple[dict[str, object], set[Remedy]]] = {
    "introduction": (
        {"purpose": Purpose.INTRODUCE},
        {Remedy.SECOND_READING, Remedy.TAPE_CLASS, Remedy.LID, Remedy.FLOOR, Remedy.RIM},
    ),
    "closed over the tips": (
        {"lid": LidChoice.CLOSED, "lug_room": 397},
        {Remedy.TAPE_CLASS, Remedy.LID},
    ),
    "narrow ledge": ({"inside_along": 385}, {Remedy.TAPE_CLASS}),
    "little play": (
        {"inside_along": Fraction("368.8"), "lug_room": Fraction("392.75")},
        {Remedy.EARS},
    ),
}


@pytest.mark.parametrize("case", UNSURE)
def test_what_is_offered_makes_it_sure_enough(make: Make, figures: Figures, case: str) -> None:
    """Each way reaches what is asked for, and says with what probability."""
    changes, expected = UNSURE[case]
    request = make(**changes)
    found = draft(request, figures)
    assert found.verdict is Verdict.ASK
    offered = ways(request, figures)
    print(case, found.chances.probability, offered)
    assert {way.id for way in offered} >= expected
    for way in offered:
        other = after(request, way, figures)
        assert other.verdict is Verdict.MAKE, way
        assert way.probability == pytest.approx(other.chances.probability, abs=1e-6), way


def test_a_rim_makes_room_over_the_lugs(make: Make, figures: Figures) -> None:
    """At least 4 mm, and more where the top bars stand above the rim."""
    without = replace(figures, makes_lid_between_walls=False)
    flush = ways(make(ledge_up=10, ledge_down=260), without)
    assert [replace(one, probability=None) for one in flush] == [
        WouldWork(Remedy.RIM, "ledge_up", Fraction(4))
    ]
    proud = ways(make(ledge_up=9, ledge_down=261), without)
    assert [replace(one, probability=None) for one in proud] == [
        WouldWork(Remedy.RIM, "ledge_up", Fraction(5))
    ]


def test_without_the_lid_between_the_walls_a_tight_end_open_lid_may_do(
    make: Make, figures: Figures
) -> None:
    """From a rise of 1.9 it goes over the lugs, if one asks for it."""
    without = replace(figures, makes_lid_between_walls=False)
    offered = ways(make(ledge_up=13, ledge_down=257), without)
    assert (Remedy.LID, "end-open") in {(one.id, one.value) for one in offered}


def test_missing_measures_are_asked_for(make: Make, figures: Figures) -> None:
    """For an order with open gaps, the measures that are needed, and only those."""
    request = make(lug_room=None, comb_thickness=None, frames_held=None)
    assert ways(request, figures) == (
        WouldWork(Remedy.MEASURE, "comb_thickness", None),
        WouldWork(Remedy.MEASURE, "lug_room", None),
    )


def test_what_can_be_made_needs_no_other_way(make: Make, figures: Figures) -> None:
    """Nothing is offered for a cage that fits."""
    assert ways(make(), figures) == ()


def test_nothing_is_offered_where_no_single_change_helps(make: Make, figures: Figures) -> None:
    """A frame wider than the hive stays a frame wider than the hive."""
    request = make(inside_along=350)
    assert draft(request, figures).verdict is Verdict.CANNOT
    assert ways(request, figures) == ()
