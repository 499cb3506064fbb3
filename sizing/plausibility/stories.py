"""What honest answers look like, and how likely a set of answers is among them.

There is a story for each kind of frame in the data and one for a frame of any size, each told
by people with different habits of rounding. A length is likely where its kind says so, or where
it lies from the lengths it belongs to as such lengths do in the frame data: lugs over side bars,
walls over side bars, ledge over lugs, body over frame, rim over top bar.
"""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import dataclass
from functools import cache
from math import sqrt
from typing import TYPE_CHECKING

from sizing.measures import Measure
from sizing.plausibility.curves import Bell, Curve
from sizing.plausibility.mistakes import TICKS, figure, figures
from sizing.plausibility.ranges import band
from sizing.standards import frame_kinds

if TYPE_CHECKING:
    from sizing.standards import FrameKind

__all__ = [
    "CHILDREN",
    "JUDGED",
    "NEEDED",
    "PLACES",
    "Habit",
    "Row",
    "Story",
    "Yard",
    "before",
    "habits",
    "in_reach",
    "rounded_so",
    "stories",
    "yard",
]  # fmt: skip


PLACES: tuple[Measure, ...] = (
    Measure.SIDE_TO_SIDE, Measure.TOP_TO_BOTTOM, Measure.LUG_TO_LUG, Measure.LUG_THICKNESS,
    Measure.INSIDE_ALONG, Measure.LUG_ROOM, Measure.LEDGE_DOWN, Measure.LEDGE_UP,
    Measure.WIDEST_WOOD, Measure.COMB_THICKNESS,
)  # fmt: skip
"""Answers are kept in rows, in this order: thousands of them are compared."""
S, H, L, T, A, R, D, U, W, C = range(len(PLACES))
LONG_PLACES = frozenset((S, H, L, A, R, D))

CHILDREN: tuple[tuple[int, ...], ...] = (
    (S, L, A), (H, D), (L, R), (T, U), (A,), (R,), (D,), (U, D), (W,), (C,),
)  # fmt: skip
"""The answers that are judged by the answer in each place, itself included."""

Row = Sequence[float | None]
"""Lengths [mm] by place; None where there is none."""


@dataclass(frozen=True, slots=True)
class Habit:
    """How somebody rounds long lengths: to `step` [mm], which is `times` the finest of its kind."""

    step: float
    times: int
    share: float


@cache
def habits(*, inches: bool) -> tuple[Habit, ...]:
    """How people round: to 1, 5, 10 mm, or to 16ths, 8ths, quarters of an inch [mm].

    Source: shares in `data/mixups.toml`.
    """
    five, ten = figure("share.rounds_to_5"), figure("share.rounds_to_10")
    shares = (1 - five - ten, five, ten)
    steps, times = ((25.4 / 16, 25.4 / 8, 25.4 / 4), (1, 2, 4)) if inches else (
        (1.0, 5.0, 10.0), (1, 5, 10)
    )  # fmt: skip
    return tuple(Habit(*parts) for parts in zip(steps, times, shares, strict=True))


@dataclass(frozen=True, slots=True)
class Story:
    """A frame of a kind, or of any size (`kind` None), and how likely it is before looking.

    `known` holds what the kind says [mm]; `body` the depth of its hive body [mm].
    """

    kind: str | None
    share: float
    known: Row
    body: float | None


def _known(kind: FrameKind) -> tuple[list[float | None], float | None]:
    known: list[float | None] = [
        None if (value := kind.value(measure)) is None else float(value) for measure in PLACES
    ]
    lug, gap, body = (kind.value(name) for name in ("lug_each", "end_gap_each", "body_depth"))
    if (side := known[S]) is not None:
        if known[L] is None and lug is not None:
            known[L] = side + 2 * float(lug)
        if known[A] is None and gap is not None:
            known[A] = side + 2 * float(gap)
    return known, None if body is None else float(body)


@cache
def _rows() -> tuple[tuple[str, list[float | None], float | None], ...]:
    return tuple((kind.id, *_known(kind)) for kind in frame_kinds() if kind.cannot is None)


@cache
def _borrowed() -> tuple[tuple[str, list[float | None], float | None], ...]:
    """Rows that give a hive alone, each with the frames of rows whose hive is as long inside."""
    found = []
    for name, known, body in _rows():
        inside = known[A]
        if known[S] is not None or known[H] is not None or inside is None or body is None:
            continue
        for _, other, _ in _rows():
            height, theirs = other[H], other[A]
            fits = theirs is not None and abs(theirs - inside) < 1
            if fits and height is not None and 0 < body - height < body / 4:
                both = [other[place] if one is None else one for place, one in enumerate(known)]
                found.append((name, both, body))
    return tuple(found)


_REACH = 16
"""No honest reading lies so far from what its kind says [mm]."""


def in_reach(story: Story, row: Sequence[float]) -> bool:
    """Whether one wrong answer, or two exchanged, may lie between `row` [mm] and this story."""
    side, height = story.known[S], story.known[H]
    if side is None or height is None:
        return True
    straight = abs(side - row[S]) < _REACH or abs(height - row[H]) < _REACH
    return straight or (abs(side - row[H]) < _REACH and abs(height - row[S]) < _REACH)


@cache
def stories(named: frozenset[str] = frozenset()) -> tuple[Story, ...]:
    """Every kind a cage can be made for, and a frame of any size last.

    `named`: ids of the kinds the frame was called by; most such frames are of one of them.
    Source: `data/frames.toml`, shares in `data/mixups.toml`.
    """
    rows = (*_rows(), *_borrowed())
    published, trusted = figure("share.published_frame"), figure("share.named_frame")
    among = [name for name, _, _ in rows if name in named]
    unnamed = 1 - trusted if among else 1.0
    even = unnamed * published / len(rows)
    found = [
        Story(name, even + (trusted / len(among) if name in named else 0.0), known, body)
        for name, known, body in rows
    ]
    of_any_size = Story(None, unnamed * (1 - published), [None] * len(PLACES), None)
    return (*found, of_any_size)


def before(known: Row) -> Story:
    """The frame and hive of an earlier order, with its lengths `known` [mm], as one more kind.

    Source: `data/mixups.toml`.
    """
    down, up = known[D], known[U]
    body = None if down is None or up is None else down + up
    return Story("before", figure("share.same_as_before"), known, body)


# --- what is usual between lengths ----------------------------------------------------


@cache
def _between() -> dict[str, tuple[float, ...]]:
    """How lengths of the frame data lie from each other [mm], each row once."""
    found: dict[str, list[float]] = {"lugs": [], "ends": [], "play": [], "stack": [], "rise": []}
    deepest = figure("usual.deepest_stack")
    for _, known, body in _rows():
        pairs = {"lugs": (L, S), "ends": (A, S), "play": (R, L), "rise": (U, T)}
        for name, (one, other) in pairs.items():
            if (more := known[one]) is not None and (less := known[other]) is not None:
                found[name].append(more - less)
        height = known[H]
        if body is not None and height is not None and body - height <= deepest:
            found["stack"].append(body - height)
    found["rise"] += map(float, figures("usual.rise_over_bee_space"))
    return {name: tuple(values) for name, values in found.items()}


class Yard:
    """The curves of one habit of rounding: what is judged with which width [mm]."""

    def __init__(self, step: float) -> None:
        anything, reading = figure("share.anything"), figure("spread.reading")
        long = sqrt(reading**2 + step**2 / 12)
        frame, hive = figure("spread.frame"), figure("spread.hive")
        small, short = figure("spread.small"), sqrt(0.5**2 + 1 / 12)
        pair, between = sqrt(2) * long, _between()
        self.frame = Bell(sqrt(frame**2 + long**2))
        self.hive = Bell(sqrt(hive**2 + long**2))
        self.small = Bell(sqrt(small**2 + short**2))
        self.body = Bell(sqrt(hive**2 + long**2 + short**2))
        self.lugs = Curve(between["lugs"], sqrt(pair**2 + frame**2 + 1), anything, 0, 120)
        shortest, longest = round(min(between["lugs"])), round(max(between["lugs"]))
        of_any = [*between["lugs"], *map(float, range(shortest, longest + 1, 2))]
        self.lugs_of_any_size = Curve(of_any, sqrt(pair**2 + frame**2), anything, 0, 120)
        self.ends = Curve(between["ends"], sqrt(pair**2 + hive**2), anything, -20, 80)
        self.play = Curve(between["play"], sqrt(pair**2 + small**2), anything, -20, 60)
        stack = sqrt(pair**2 + short**2 + small**2)
        self.stack = Curve(between["stack"], stack, 2 * anything, -20, 80)
        self.rise = Curve(between["rise"], sqrt(2 * short**2 + small**2), anything, -10, 40)
        low, high = band(PLACES[T]).hard_low, band(PLACES[T]).hard_high
        lug = [float(value) for value in figures("usual.lug_thickness")]
        self.lug = Curve(lug, sqrt(small**2 + short**2), anything, float(low), float(high))
        wood = [wide for _, known, _ in _rows() if (wide := known[W]) is not None] * 3
        wood += [float(value) for value in figures("usual.straight_wood")]
        low, high = band(PLACES[W]).hard_low, band(PLACES[W]).hard_high
        self.wood = Curve(wood, sqrt(small**2 + short**2 + 1), anything, float(low), float(high))
        comb = sqrt(figure("spread.comb") ** 2 + short**2)
        low, high = band(PLACES[C]).hard_low, band(PLACES[C]).hard_high
        self.comb = Curve([figure("usual.comb")], comb, 2 * anything, float(low), float(high))
        self.any_side, self.any_height = _evenly(PLACES[S]), _evenly(PLACES[H])
        self.of_kind = figure("share.hive_of_the_kind")
        self.other = 1 - self.of_kind


def _evenly(measure: Measure) -> float:
    usual = band(measure)
    return 1 / float(usual.soft_high - usual.soft_low)


@cache
def yard(step: float) -> Yard:
    """The curves of a person who rounds long lengths to `step` [mm]."""
    return Yard(step)


# --- how likely one answer is, the others given ---------------------------------------


_Row = Sequence[float]


def _side(v: _Row, story: Story, y: Yard) -> float:
    known = story.known[S]
    return y.any_side if known is None else y.frame.at(v[S] - known)


def _height(v: _Row, story: Story, y: Yard) -> float:
    known = story.known[H]
    return y.any_height if known is None else y.frame.at(v[H] - known)


def _bar(v: _Row, story: Story, y: Yard) -> float:
    lugs, known = y.lugs if story.known[S] is not None else y.lugs_of_any_size, story.known[L]
    usual = lugs.at(v[L] - v[S])
    return usual if known is None else y.of_kind * y.frame.at(v[L] - known) + y.other * usual


def _lug(v: _Row, story: Story, y: Yard) -> float:
    usual, known = y.lug.at(v[T]), story.known[T]
    return usual if known is None else y.of_kind * y.small.at(v[T] - known) + y.other * usual


def _inside(v: _Row, story: Story, y: Yard) -> float:
    usual, known = y.ends.at(v[A] - v[S]), story.known[A]
    return usual if known is None else y.of_kind * y.hive.at(v[A] - known) + y.other * usual


def _room(v: _Row, story: Story, y: Yard) -> float:
    usual, known = y.play.at(v[R] - v[L]), story.known[R]
    return usual if known is None else y.of_kind * y.hive.at(v[R] - known) + y.other * usual


def _up(v: _Row, story: Story, y: Yard) -> float:
    usual, known = y.rise.at(v[U] - v[T]), story.known[U]
    return usual if known is None else y.of_kind * y.small.at(v[U] - known) + y.other * usual


def _down(v: _Row, story: Story, y: Yard) -> float:
    usual, body = y.stack.at(v[D] + v[U] - v[H]), story.body
    return usual if body is None else y.of_kind * y.body.at(v[D] + v[U] - body) + y.other * usual


def _wood(v: _Row, story: Story, y: Yard) -> float:
    usual, known = y.wood.at(v[W]), story.known[W]
    return usual if known is None else y.of_kind * y.small.at(v[W] - known) + y.other * usual


def _comb(v: _Row, _story: Story, y: Yard) -> float:
    return y.comb.at(v[C])


NEEDED: tuple[tuple[int, ...], ...] = (
    (),
    (),
    (S,),
    (),
    (S,),
    (L,),
    (U, H),
    (T,),
    (),
    (),
)
"""The answers without which the one in each place cannot be judged."""

JUDGED: tuple[Callable[[_Row, Story, Yard], float], ...] = (
    _side,
    _height,
    _bar,
    _lug,
    _inside,
    _room,
    _down,
    _up,
    _wood,
    _comb,
)
"""How likely the answer in each place is [1/mm] in a story, the others given."""


def rounded_so(value: int, habit: Habit, place: int) -> float:
    """How much likelier a typed length `value` [1/320 mm] is with this habit than without.

    Source: `share.off_habit` in `data/mixups.toml`.
    """
    if habit.times == 1 or place not in LONG_PLACES:
        return 1.0
    off = figure("share.off_habit")
    fits = value % round(habit.step * TICKS) == 0
    return (1 - off) * habit.times + off if fits else off
