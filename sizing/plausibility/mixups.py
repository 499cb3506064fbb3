"""All stories about a set of answers weighed together: what is suspected, and how strongly.

Bayes' rule over the mistakes of `mistakes` and the honest frames of `stories`: the weight of a
story is how likely it is before looking, times how likely the numbers are in it. A mistake is
judged by the answers as they would have been without it. A finding shows the arithmetic.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping
from dataclasses import dataclass
from fractions import Fraction
from math import prod

from sizing.measures import Measure
from sizing.plausibility.findings import Finding, Severity, Weight
from sizing.plausibility.mistakes import (
    LONG,
    TICKS,
    Mistake,
    Variant,
    figure,
    figures,
    in_inches,
    variants,
)
from sizing.plausibility.stories import (
    CHILDREN,
    JUDGED,
    NEEDED,
    PLACES,
    A,
    D,
    Habit,
    R,
    Story,
    before,
    habits,
    in_reach,
    rounded_so,
    stories,
    yard,
)

__all__ = ["HARMLESS", "Weighed", "suspicions", "weigh"]

HARMLESS = frozenset({Mistake.HOOK_PLAY, Mistake.ODD_FRAME, Mistake.ODD_HIVE, Mistake.AS_USUAL})
"""Stories in which the answers stand as they are; a hook's play no question finds."""
_KEPT = 1e-3
"""Worlds this much less likely than the likeliest are left out, …"""
_MOST = 12
"""… and all but so many."""
_TRACE = 1e-9
"""What comes to less than this share of a world is not worked out to its end."""
_TOO_LITTLE = 1e-3
"""Stories that weigh less are forgotten."""
_NEVER = 1e-12
"""Added to every likelihood, so that a story can be taken apart by dividing."""


_SHOWN = 0.01
"""A story that weighs less is not told."""
_LIVE = 0.02
"""A mistake that weighs less than this share of the suspicion points at no answer."""


@dataclass(frozen=True, slots=True)
class Weighed:
    """The stories about some answers, the weightiest first; their weights sum to 1."""

    stories: tuple[Weight, ...]

    @property
    def suspicion(self) -> float:
        """How likely it is that some answer is not what was asked for [probability]."""
        return sum(one.weight for one in self.stories if one.mistake not in HARMLESS)

    @property
    def suspects(self) -> tuple[Weight, ...]:
        """The mistakes that may have been made, the likeliest first."""
        return tuple(one for one in self.stories if one.mistake not in HARMLESS)

    @property
    def doubted(self) -> tuple[Measure, ...]:
        """The answers the live mistakes point at, the most suspected first."""
        live = _LIVE * self.suspicion
        return tuple(
            dict.fromkeys(m for one in self.suspects if one.weight >= live for m in one.measures)
        )


class _World:
    """One honest story told by somebody with one habit, and what it makes of each answer."""

    __slots__ = ("habit", "parts", "rounded", "share", "story", "whole", "yard")

    def __init__(self, story: Story, habit: Habit, answers: _Answers, rounded: list[float]) -> None:
        self.story, self.habit, self.yard = story, habit, yard(habit.step)
        self.share = story.share * habit.share
        self.rounded = rounded
        self.parts = [1.0] * len(PLACES)
        self.whole = self.share
        for place in answers.judged:
            part = JUDGED[place](answers.row, story, self.yard) + _NEVER
            self.parts[place] = part
            self.whole *= part
        for factor in rounded:
            self.whole *= factor


class _Answers:
    """The answers as they are compared: by place, in ticks and in mm."""

    __slots__ = ("judged", "row", "ticks")

    def __init__(self, lengths: Mapping[Measure, Fraction]) -> None:
        self.ticks = {m: round(lengths[m] * TICKS) for m in PLACES if m in lengths}
        there = {place for place, measure in enumerate(PLACES) if measure in self.ticks}
        self.row = [self.ticks.get(measure, 0) / TICKS for measure in PLACES]
        self.judged = tuple(place for place in sorted(there) if there.issuperset(NEEDED[place]))


def weigh(
    lengths: Mapping[Measure, Fraction],
    *,
    named: frozenset[str] = frozenset(),
    earlier: Iterable[Mapping[Measure, Fraction]] = (),
) -> Weighed:
    """How likely each story about the answers `lengths` [mm] is, all taken together.

    `named`: ids of the kinds the frame was called by; `earlier`: the lengths [mm] of this
    person's earlier orders. Without both side_to_side and top_to_bottom nothing is suspected.
    Source: `data/mixups.toml`, `data/frames.toml`.
    """
    if Measure.SIDE_TO_SIDE not in lengths or Measure.TOP_TO_BOTTOM not in lengths:
        return Weighed(())
    answers = _Answers(lengths)
    told = [one for one in stories(named) if in_reach(one, answers.row)]
    told += [before(_row(one)) for one in earlier]
    worlds = _worlds(told, answers)
    honest = sum(world.whole for world in worlds)
    near: dict[tuple[Measure, ...], _Near] = {}
    found: dict[tuple[Mistake, tuple[Measure, ...]], _Found] = {}
    for variant in variants(answers.ticks, answers.ticks):
        measures = variant.measures
        if measures not in near:
            near[measures] = _Near(worlds, measures, answers)
        weight = variant.weight * near[measures].likelihood(variant)
        found.setdefault((variant.mistake, measures), _Found()).add(weight, variant)
    return _weighed(found, worlds, honest)


def suspicions(lengths: Mapping[Measure, Fraction], weighed: Weighed) -> Iterator[Finding]:
    """The doubt that comes of weighing `lengths` [mm], if it is strong enough for the desk.

    `seen` is the most suspected answer, `expected` where it would lie without the likeliest
    mistake. Source: `share.doubted` in `data/mixups.toml`.
    """
    if not weighed.suspects or weighed.suspicion < figure("share.doubted"):
        return
    first = weighed.suspects[0]
    measure, true = first.measures[0], first.true[0]
    seen = lengths[measure]
    around = min(Fraction(figures("usual.round_the_true")[0]), abs(seen - true) / 2)
    yield Finding(
        "mixup",
        Severity.CHECK,
        weighed.doubted,
        seen,
        (true - around, true + around),
        "workshop-judgement",
        tuple(one for one in weighed.stories if one.weight >= _SHOWN),
    )


def _row(lengths: Mapping[Measure, Fraction]) -> list[float | None]:
    return [float(lengths[m]) if m in lengths else None for m in PLACES]


# --- how likely the answers are -------------------------------------------------------


def _worlds(told: Iterable[Story], answers: _Answers) -> list[_World]:
    long = [answers.ticks[measure] for measure in LONG if measure in answers.ticks]
    inches = sum(map(in_inches, long)) * 2 > len(long)
    rounding = [
        (habit, [rounded_so(answers.ticks.get(m, 0), habit, n) if m in answers.ticks else 1.0
                 for n, m in enumerate(PLACES)])
        for habit in habits(inches=inches)
    ]  # fmt: skip
    # One answer that does not keep to a habit may be the one that is wrong.
    chance = [habit.share * prod(factors) / min(factors) for habit, factors in rounding]
    return [
        _World(story, habit, answers, factors)
        for (habit, factors), share in zip(rounding, chance, strict=True)
        if share >= _KEPT * max(chance)
        for story in told
    ]


class _Near:
    """The worlds that matter once the answers to `measures` are taken out."""

    __slots__ = ("answers", "places", "touched", "trace", "worlds")

    def __init__(
        self, worlds: list[_World], measures: tuple[Measure, ...], answers: _Answers
    ) -> None:
        self.answers = answers
        self.places = [PLACES.index(measure) for measure in measures]
        touched = {child for place in self.places for child in CHILDREN[place]}
        self.touched = [child for child in answers.judged if child in touched]
        found = []
        for world in worlds:
            weight = world.whole
            for place in self.touched:
                weight /= world.parts[place]
            for place in self.places:
                weight /= world.rounded[place]
            found.append((weight, world))
        found.sort(key=lambda pair: -pair[0])
        least = found[0][0] * _KEPT
        self.worlds = [pair for pair in found[:_MOST] if pair[0] >= least]
        self.trace = found[0][0] * _TRACE

    def likelihood(self, variant: Variant) -> float:
        """How likely the numbers are if `variant` is what happened."""
        if min(variant.true) <= 0:
            return 0.0
        row = [*self.answers.row]
        for place, value in zip(self.places, variant.true, strict=True):
            row[place] = value / TICKS
        total = 0.0
        for weight, world in self.worlds:
            product, story, curves = weight, world.story, world.yard
            for place in self.touched:
                product *= JUDGED[place](row, story, curves)
                if product < self.trace:
                    break
            else:
                for place, value in zip(self.places, variant.true, strict=True):
                    if variant.slip:
                        product *= rounded_so(value, world.habit, place)
                    else:
                        product *= world.rounded[place]
                total += product
        return total


# --- what comes of it -----------------------------------------------------------------


class _Found:
    """All variants of one mistake in one place, added up."""

    __slots__ = ("best", "most", "prior", "weight")

    def __init__(self) -> None:
        self.weight = self.prior = self.most = 0.0
        self.best: Variant | None = None

    def add(self, weight: float, variant: Variant) -> None:
        """One more variant with its weight."""
        self.weight += weight
        self.prior += variant.weight
        if weight > self.most:
            self.most, self.best = weight, variant


def _weighed(
    found: Mapping[tuple[Mistake, tuple[Measure, ...]], _Found],
    worlds: list[_World],
    honest: float,
) -> Weighed:
    total = honest + sum(one.weight for one in found.values())
    weighed = _as_it_is(worlds, honest, total)
    for (mistake, measures), one in found.items():
        if one.best is not None and one.weight >= _TOO_LITTLE * total:
            true = tuple(Fraction(ticks, TICKS) for ticks in one.best.true)
            likelihood = one.weight / one.prior / honest
            share = one.weight / total
            weighed.append(Weight(mistake, measures, true, one.prior, likelihood, share))
    weighed.sort(key=lambda one: -one.weight)
    return Weighed(tuple(weighed))


def _as_it_is(worlds: list[_World], honest: float, total: float) -> list[Weight]:
    """The share of the honest stories, by what would be unusual in them."""
    odd_frame = sum(world.whole for world in worlds if world.story.kind is None)
    odd_hive = sum(world.whole * _odd(world) for world in worlds if world.story.kind is not None)
    usual = honest - odd_frame - odd_hive
    parts = {
        Mistake.ODD_FRAME: odd_frame, Mistake.ODD_HIVE: odd_hive, Mistake.AS_USUAL: usual,
    }  # fmt: skip
    return [Weight(name, (), (), part / honest, 1.0, part / total) for name, part in parts.items()]


def _odd(world: _World) -> float:
    """How far the hive answers of a world rest on "it may be otherwise" alone."""
    curves = world.yard
    floors = {A: curves.ends.floor, R: curves.play.floor, D: curves.stack.floor}
    usual = 1.0
    for place, floor in floors.items():
        usual *= max(0.0, 1 - floor / max(world.parts[place], floor))
    return 1 - usual
