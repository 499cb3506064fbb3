"""What honest answers look like: kinds, habits, and what lies how far from what."""

from __future__ import annotations

import pytest

from sizing.plausibility.mistakes import TICKS
from sizing.plausibility.stories import (
    CHILDREN,
    JUDGED,
    NEEDED,
    PLACES,
    A,
    D,
    H,
    L,
    R,
    S,
    T,
    U,
    before,
    habits,
    in_reach,
    rounded_so,
    stories,
    yard,
)
from sizing.standards import frame_kinds

WIELKOPOLSKA = [360.0, 260.0, 391.0, 10.0, 375.0, 393.0, 253.0, 17.0, 35.0, 27.0]


def with_(place: int, value: float) -> list[float]:
    """The usual answers with another in one place."""
    row = [*WIELKOPOLSKA]
    row[place] = value
    return row


def test_the_shares_of_all_stories_are_one() -> None:
    """With a name or without, every frame is in one of the stories."""
    assert sum(one.share for one in stories()) == pytest.approx(1)
    named = stories(frozenset({"zander"}))
    assert sum(one.share for one in named) == pytest.approx(1)


def test_a_name_makes_its_kind_likelier() -> None:
    """Who says a name has most often such a frame, and not always."""
    shares = {one.kind: one.share for one in stories(frozenset({"zander"}))}
    assert 0.8 < shares["zander"] < 1
    assert 0 < shares["dnm"] < 0.01
    assert shares[None] > 0


def test_there_is_a_story_for_every_kind_that_can_be_made() -> None:
    """And a last one for a frame of any size."""
    makeable = [kind.id for kind in frame_kinds() if kind.cannot is None]
    assert [one.kind for one in stories()][: len(makeable)] == makeable
    assert stories()[-1].kind is None


def test_a_hive_read_alone_borrows_the_frames_that_fit_in_it() -> None:
    """The Italian body of 450 and 338 takes the frames of 435 by 300 of a body as long."""
    deep = [one for one in stories() if one.kind == "dadant_blatt_it10" and one.known[S]]
    assert {(one.known[S], one.known[H]) for one in deep} == {(435.0, 300.0)}
    assert {one.body for one in deep} == {338.0}


def test_a_story_out_of_reach_has_neither_length_nor_height() -> None:
    """One of the two may be wrong, or both exchanged; not both at once."""
    story = next(one for one in stories() if one.kind == "pl_wielkopolska")
    assert in_reach(story, with_(S, 100))
    assert in_reach(story, with_(H, 100))
    assert not in_reach(story, [100.0, 100.0, *WIELKOPOLSKA[2:]])
    assert in_reach(story, [260.0, 360.0, *WIELKOPOLSKA[2:]])
    assert in_reach(stories()[-1], [100.0, 100.0, *WIELKOPOLSKA[2:]])


@pytest.mark.parametrize(
    ("place", "usual", "odd"),
    [(S, 360, 340), (L, 391, 361), (T, 10, 15), (A, 375, 415), (R, 393, 406), (D, 253, 270),
     (U, 17, 26), (H, 260, 240)],
)  # fmt: skip
def test_a_length_is_likely_where_its_kind_and_its_neighbours_have_it(
    place: int, usual: float, odd: float
) -> None:
    """In its own story the usual value is at least twenty times likelier than one far off."""
    story = next(one for one in stories() if one.kind == "pl_wielkopolska")
    curves = yard(1.0)
    likely = JUDGED[place](with_(place, usual), story, curves)
    assert likely > 20 * JUDGED[place](with_(place, odd), story, curves)


def test_a_hive_may_be_another_than_the_kind_was_read_with() -> None:
    """Walls that suit the frame are never ruled out by what one body measured."""
    story = next(one for one in stories() if one.kind == "pl_wielkopolska")
    curves = yard(1.0)
    assert JUDGED[A](with_(A, 379), story, curves) > 10 * JUDGED[A](with_(A, 400), story, curves)


def test_an_earlier_order_is_one_more_kind() -> None:
    """Its own lengths are likely in it."""
    story = before([352.0, 247.0, 383.0, 10.0, 367.0, 385.0, 240.0, 17.0, None, None])
    assert story.body == 257
    row = [352.0, 247.0, 383.0, 10.0, 367.0, 385.0, 240.0, 17.0, 35.0, 27.0]
    assert JUDGED[H](row, story, yard(1.0)) > 0.1


def test_habits_share_all_people_and_coarse_ones_keep_to_their_step() -> None:
    """361 is no answer of somebody who rounds to fives; 360 is one in five of the others'."""
    for inches in (False, True):
        assert sum(one.share for one in habits(inches=inches)) == pytest.approx(1)
    one, five, _ = habits(inches=False)
    assert rounded_so(361 * TICKS, one, S) == 1
    assert rounded_so(361 * TICKS, five, S) < 0.1
    assert rounded_so(360 * TICKS, five, S) > 4
    assert rounded_so(11 * TICKS, five, T) == 1


def test_who_rounds_more_is_expected_less_sharply() -> None:
    """A gap off by 5 is likelier for who rounds to 10 than for who reads millimetres."""
    story = stories()[-1]
    off = with_(A, 382)
    assert JUDGED[A](off, story, yard(10.0)) > 3 * JUDGED[A](off, story, yard(1.0))


def test_each_answer_is_judged_by_what_it_needs() -> None:
    """What a place needs names it among those it judges."""
    for place, needs in enumerate(NEEDED):
        assert place in CHILDREN[place]
        assert all(place in CHILDREN[need] for need in needs), PLACES[place]
