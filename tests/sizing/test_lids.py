"""Hanging and closing: which lid, why, and how long the ears are."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import replace
from fractions import Fraction

import pytest
from hypothesis import given
from hypothesis import strategies as st

from sizing.accepted import accept
from sizing.bees import gap_band
from sizing.draft import draft
from sizing.lids import Hanging, LidReason, hanging, lid_of
from sizing.measures import Ears, LidChoice, LidKind, Purpose, Request
from sizing.workshop import Figures

Make = Callable[..., Request]
ISOLATE, INTRODUCE = Purpose.ISOLATE, Purpose.INTRODUCE


def hung(request: Request, figures: Figures) -> Hanging:
    """How the cage of this request hangs."""
    band = gap_band(request.purpose, figures)
    return hanging(request.lid, request.purpose, accept(request), band, figures)


@pytest.mark.parametrize(
    ("purpose", "room", "span"),
    [
        (ISOLATE, "392.749", "390.599"),
        (ISOLATE, "392.75", "391"),
        (ISOLATE, "393.55", "391"),
        (ISOLATE, "393.551", "391.401"),
        (ISOLATE, "398", "395.85"),
        (INTRODUCE, "392.499", "390.874"),
        (INTRODUCE, "392.5", "391"),
        (INTRODUCE, "392.75", "391"),
        (INTRODUCE, "392.751", "391.126"),
        (INTRODUCE, "396", "394.375"),
    ],
)
def test_ears_under_an_end_open_lid(
    make: Make, figures: Figures, purpose: Purpose, room: str, span: str
) -> None:
    """As long as the top bar while the play is right, else the lug room less half a gap."""
    how = hung(make(purpose=purpose, lug_room=room), figures)
    assert how.ear_span == Fraction(span)
    as_bar = how.ear_span == 391
    assert how.why is (LidReason.LID_END_GAP_HOLDS if as_bar else LidReason.EARS_CUT_TO_THE_HIVE)


@given(st.sampled_from(Purpose), st.integers(3850, 4100))
def test_an_end_open_lid_never_leaves_more_than_a_gap(
    make: Make, figures: Figures, purpose: Purpose, room: int
) -> None:
    """Pushed over, the opening at the far end is narrower than the wire gap, in any hive."""
    request = make(purpose=purpose, lug_room=Fraction(room, 10))
    found = draft(request, figures)
    assert found.lid.end_gap_worst is not None
    assert 0 < found.lid.end_gap_worst < found.band.limit
    assert found.lid.end_gap_each == found.lid.end_gap_worst / 2


LIDS = [
    # choice, rise, lug room, kind, why, ears
    ("auto", "7", "393", "end-open", "lid-end-gap-holds", "under-lug"),
    ("auto", "3.9", "393", "end-open", "lid-end-gap-holds", "under-lug"),
    ("auto", "3.899", "393", "closed-between-walls", "low-rise", "beside-lug"),
    ("auto", "0", None, "closed-between-walls", "low-rise", "beside-lug"),
    ("auto", "7", None, "open-question", "lug-room-missing", "under-lug"),
    ("auto", None, "393", "end-open", "lid-end-gap-holds", "under-lug"),
    ("end-open", "7", "393", "end-open", "asked-for", "under-lug"),
    ("end-open", "2", "393", "end-open", "asked-for", "under-lug"),
    ("end-open", "7", None, "open-question", "lug-room-missing", "under-lug"),
    ("closed", "7", "395.6", "closed", "asked-for", "under-lug"),
    ("closed", "7", "395.599", "closed-between-walls", "no-room-over-lugs", "under-lug"),
    ("closed", "0", "400", "closed-between-walls", "low-rise", "beside-lug"),
    ("closed", "7", None, "open-question", "lug-room-missing", "under-lug"),
    ("closed-between-walls", "7", "393", "closed-between-walls", "asked-for", "under-lug"),
    ("closed-between-walls", "0", "393", "closed-between-walls", "asked-for", "beside-lug"),
    ("closed-between-walls", "7", None, "closed-between-walls", "asked-for", "under-lug"),
]


@pytest.mark.parametrize(("choice", "rise", "room", "kind", "why", "ears"), LIDS)
def test_the_lid_its_reason_and_the_ears(
    make: Make,
    figures: Figures,
    choice: str,
    rise: str | None,
    room: str | None,
    kind: str,
    why: str,
    ears: str,
) -> None:
    """Rise and lug room decide, within what was asked for."""
    up = None if rise is None else 10 + Fraction(rise)
    how = hung(make(lid=LidChoice(choice), ledge_up=up, lug_room=room), figures)
    assert (how.lid, how.why, how.ears) == (kind, why, ears)
    assert how.lift == (Fraction("0.8") if how.ears is Ears.UNDER_LUG else 0)


@pytest.mark.parametrize(
    ("choice", "rise", "clear"),
    [
        ("auto", "7", "1.7"),
        ("auto", "5.3", "1.7"),
        ("auto", "5", "1.4"),
        ("auto", "3.9", "0.3"),
        ("end-open", "2", "0.3"),
        ("closed-between-walls", "5", "1.7"),
        ("auto", "0", "1.7"),
    ],
)
def test_the_lid_lies_lower_under_a_low_rise(
    make: Make, figures: Figures, choice: str, rise: str, clear: str
) -> None:
    """Over the lugs the lid gives way down to 0.3 over the top bar; between the walls never."""
    request = make(lid=LidChoice(choice), ledge_up=10 + Fraction(rise))
    assert hung(request, figures).lid_clear == Fraction(clear)


def test_under_a_closed_lid_the_ears_need_not_reach(make: Make, figures: Figures) -> None:
    """They are as long as the top bar, or 2 mm less than the lug room."""
    closed = {"lid": LidChoice.CLOSED_BETWEEN_WALLS}
    assert hung(make(**closed, lug_room=396), figures).ear_span == 391
    assert hung(make(**closed, lug_room=392), figures).ear_span == 390
    assert hung(make(**closed, lug_room=None), figures).ear_span == 391


def test_lengths_of_the_lids(make: Make, figures: Figures) -> None:
    """End-open as long as the ears, closed over the tips, between the walls as the cage."""

    def lid(**changes: object) -> tuple[object, ...]:
        request = make(**changes)
        found = lid_of(hung(request, figures), Fraction(370), accept(request), figures)
        return found.kind, found.length, found.notch_width

    assert lid() == (LidKind.END_OPEN, 391, None)
    closed = lid(lid=LidChoice.CLOSED, lug_room=400)
    assert closed == (LidKind.CLOSED, Fraction("394.6"), None)
    walls = lid(lid=LidChoice.CLOSED_BETWEEN_WALLS)
    assert walls == (LidKind.CLOSED_BETWEEN_WALLS, 370, Fraction("26.5"))
    assert lid(lug_room=None) == (LidKind.OPEN_QUESTION, None, None)
    assert lid(ledge_up=10, lug_width=None)[2] is None


def test_a_workshop_may_not_make_the_lid_between_the_walls(make: Make, figures: Figures) -> None:
    """Then only cages with that lid are not made."""
    without = replace(figures, makes_lid_between_walls=False)
    assert not hung(make(ledge_up=10), without).made
    assert hung(make(), without).made
