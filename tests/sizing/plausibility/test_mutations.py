"""Each rule of doubt is needed: with any one switched off, a fixed order is doubted otherwise."""

from __future__ import annotations

from collections.abc import Callable, Iterator, Mapping
from fractions import Fraction

import pytest

from sizing.measures import Measure, Request
from sizing.plausibility import customs, mixups, relations
from sizing.plausibility.findings import Finding
from sizing.plausibility.judging import all_doubts
from sizing.plausibility.mistakes import Mistake, Variant, variants
from sizing.plausibility.ranges import Band
from sizing.plausibility.ranges import band as real_band
from sizing.plausibility.stories import JUDGED, PLACES

Make = Callable[..., Request]
Changes = dict[str, str | int | None]

BROKEN_RELATIONS: dict[str, Changes] = {
    "lug-sum": {"lug_to_lug": 365},
    "end-gap": {"inside_along": 362},
    "lug-play": {"lug_room": 420},
    "hang": {"ledge_down": 300},
    "rise": {"ledge_up": 40},
    "ledges": {"lug_room": 378},
    "stack": {"ledge_down": 300},
    "pitch": {"frames_held": 14},
    "comb-in-wood": {"comb_thickness": 18, "widest_wood": 36},
    "lug-under-bar": {"top_bar_thickness": 8},
}
REMARKED: dict[str, Changes] = {
    "near_known": {"top_to_bottom": 290, "ledge_down": 283},
    "all_rounded": {
        "side_to_side": 355, "top_to_bottom": 255, "lug_to_lug": 385, "inside_along": 370,
        "lug_room": 390, "ledge_down": 250,
    },
}  # fmt: skip
MADE: dict[Mistake, Changes] = {
    Mistake.UNIT: {"side_to_side": "141.7"},
    Mistake.TEN_TIMES: {"ledge_up": "1.7"},
    Mistake.EXCHANGED: {"side_to_side": 260, "top_to_bottom": 360},
    Mistake.INSIDE: {"side_to_side": 340},
    Mistake.LUGS: {"lug_to_lug": 361},
    Mistake.DIGITS_SWAPPED: {"lug_to_lug": 319},
    Mistake.ONE_DIGIT: {"top_to_bottom": 267},
    Mistake.COMB: {"top_to_bottom": 249},
    Mistake.NOT_FROM_ZERO: {"lug_to_lug": 491},
    Mistake.TAPE_CASE: {"inside_along": 310},
    Mistake.OUTSIDE_OF_BOX: {"inside_along": 417},
    Mistake.HOOK_PLAY: {},
}
JUDGED_BY: dict[Measure, Changes] = {
    Measure.SIDE_TO_SIDE: {"side_to_side": 340},
    Measure.TOP_TO_BOTTOM: {"top_to_bottom": 249},
    Measure.LUG_TO_LUG: {"lug_to_lug": 361},
    Measure.LUG_THICKNESS: {"lug_thickness": 19},
    Measure.INSIDE_ALONG: {"inside_along": 310},
    Measure.LUG_ROOM: {"lug_room": 339},
    Measure.LEDGE_DOWN: {"ledge_down": 235},
    Measure.LEDGE_UP: {"ledge_up": 71},
    Measure.WIDEST_WOOD: {"widest_wood": 53},
    Measure.COMB_THICKNESS: {"comb_thickness": 62},
}


def codes(request: Request) -> list[str]:
    """The doubts about an order, by their codes."""
    return [finding.code for finding in all_doubts(request)]


def told(request: Request) -> list[tuple[Mistake, tuple[Measure, ...]]]:
    """The stories about an order that are told, the weightiest first, up to the first honest."""
    lengths = relations.lengths_of(request)
    weighed = mixups.weigh({m: value for m, value in lengths.items() if m in PLACES})
    return [(one.mistake, one.measures) for one in weighed.stories[:3]]


@pytest.mark.parametrize("rule", relations._RELATIONS, ids=lambda rule: rule.code)
def test_every_relation_is_needed(
    rule: relations._Relation, make: Make, monkeypatch: pytest.MonkeyPatch
) -> None:
    """Without it, an order in which it does not hold is not doubted for it."""
    broken = make(**BROKEN_RELATIONS[rule.code])
    assert rule.code in codes(broken)
    rest = tuple(one for one in relations._RELATIONS if one is not rule)
    monkeypatch.setattr(relations, "_RELATIONS", rest)
    assert rule.code not in codes(broken)


@pytest.mark.parametrize("measure", list(Measure))
@pytest.mark.parametrize("code", ["unusual", "not-possible"])
def test_every_band_is_needed(
    code: str, measure: Measure, make: Make, monkeypatch: pytest.MonkeyPatch
) -> None:
    """Without the band of a measure, a value over it is not doubted for it."""
    usual = real_band(measure)
    high = usual.hard_high + 1 if code == "not-possible" else usual.soft_high + 1
    if code == "unusual" and high > usual.hard_high:
        high = usual.soft_low - 1
    count = measure in (Measure.FRAMES_HELD, Measure.FRAMES_OUT, Measure.PIECES)
    changed = make(**{measure.value: int(high) if count else high})

    def doubted() -> bool:
        return any(one.code == code and one.measures == (measure,) for one in all_doubts(changed))

    assert doubted()
    endless = Band(Fraction(0), Fraction(10**6), Fraction(0), Fraction(10**6), "test")
    monkeypatch.setattr(
        relations, "band", lambda one: endless if one is measure else real_band(one)
    )
    assert not doubted()


@pytest.mark.parametrize("custom", customs.CUSTOMS, ids=lambda custom: custom.__name__)
def test_every_remark_is_needed(
    custom: Callable[[Mapping[Measure, Fraction]], Iterator[Finding]],
    make: Make,
    monkeypatch: pytest.MonkeyPatch,
) -> None:
    """Without it, an order that calls for it goes without."""
    order = make(**REMARKED[custom.__name__])
    before = codes(order)
    rest = tuple(one for one in customs.CUSTOMS if one is not custom)
    monkeypatch.setattr(customs, "CUSTOMS", rest)
    assert codes(order) != before


@pytest.mark.parametrize("mistake", list(MADE))
def test_every_mistake_is_needed(
    mistake: Mistake, make: Make, monkeypatch: pytest.MonkeyPatch
) -> None:
    """Where nobody thinks of it, other stories are told of an order in which it was made."""
    order = make(**MADE[mistake])
    before = told(order)
    assert mistake in [name for name, _ in before]

    def without(values: Mapping[Measure, int], suspects: Mapping[Measure, int]) -> list[Variant]:
        return [one for one in variants(values, suspects) if one.mistake is not mistake]

    monkeypatch.setattr(mixups, "variants", without)
    assert told(order) != before


@pytest.mark.parametrize("measure", PLACES)
def test_what_each_answer_should_be_is_needed(
    measure: Measure, make: Make, monkeypatch: pytest.MonkeyPatch
) -> None:
    """Where an answer may be anything, other stories are told of an order in which it is wrong."""
    order = make(**JUDGED_BY[measure])
    before = told(order)
    place = PLACES.index(measure)
    judged = (*JUDGED[:place], lambda *_: 0.01, *JUDGED[place + 1 :])
    monkeypatch.setattr(mixups, "JUDGED", judged)
    assert told(order) != before
