"""The fourteen things that go wrong, each in one answer (a hook's play in all long ones)."""

from __future__ import annotations

import random
from collections.abc import Callable
from dataclasses import dataclass

from beekeepers.truth import Truth, spreads, weighted
from beekeepers.writing import Number, changed_digit, swapped

__all__ = ["BODY", "FAULTS", "LONG", "Fault", "drawn", "names"]

FRAME_LONG = ("side_to_side", "top_to_bottom", "lug_to_lug")
HIVE_LONG = ("inside_along", "lug_room", "ledge_down")
LONG = (*FRAME_LONG, *HIVE_LONG)
FRAME_SMALL = ("lug_thickness", "widest_wood", "comb_thickness")
HIVE_SMALL = ("ledge_up",)
BODY = frozenset((*HIVE_LONG, *HIVE_SMALL))


@dataclass(frozen=True)
class Fault:
    """One thing gone wrong.

    `measures`: the answers it spoils. `amount` [mm]: what it adds. `slip`: made once, with the
    fingers; else a misunderstanding, made each time until somebody says what is meant.
    """

    name: str
    measures: tuple[str, ...]
    amount: float = 0.0
    slip: bool = False

    def seen(self, measure: str, truth: Truth) -> float | None:
        """The length the tape is laid over instead [mm]; None where it is laid right."""
        if self.slip or measure not in self.measures:
            return None
        if self.name == "lugs-left-out":
            return truth.lengths["side_to_side"]
        if self.name == "lugs-included":
            return truth.lengths["lug_to_lug"]
        return truth.lengths[measure] + self.amount

    def typed(self, number: Number, chance: random.Random) -> Number | None:
        """What the fingers make of a number; None where it comes out the same."""
        if self.name == "digits-swapped":
            return swapped(number, chance)
        if self.name == "one-digit":
            return changed_digit(number, chance)
        if self.name == "inch-as-cm":
            return Number(f"{float(number.mm) / 25.4:.1f}", "cm")
        if self.name == "ten-times":
            return Number(number.digits, "cm" if number.unit == "mm" else "mm", number.part)
        return number


Draw = Callable[[random.Random, Truth, bool, str], Fault]


def _of(chance: random.Random, hive: bool, frame: tuple[str, ...], body: tuple[str, ...]) -> str:
    return chance.choice([*frame, *(body if hive else ())])


def _inside_length(_c: random.Random, truth: Truth, _h: bool, _u: str) -> Fault:
    return Fault("inside-length", ("side_to_side",), -2 * truth.side_bar)


def _inside_height(_c: random.Random, truth: Truth, _h: bool, _u: str) -> Fault:
    return Fault("inside-height", ("top_to_bottom",), -truth.top_bar - truth.bottom_bar)


def _comb(chance: random.Random, truth: Truth, _h: bool, _u: str) -> Fault:
    short = chance.uniform(*spreads()["fault"]["comb_more"])
    # comb hangs from the top bar's underside; some measure from the top bar's top face
    above = chance.choice([0.0, truth.top_bar])
    return Fault("comb-for-wood", ("top_to_bottom",), -above - truth.bottom_bar - short)


def _lugs_out(_c: random.Random, _t: Truth, _h: bool, _u: str) -> Fault:
    return Fault("lugs-left-out", ("lug_to_lug",))


def _lugs_in(_c: random.Random, _t: Truth, _h: bool, _u: str) -> Fault:
    return Fault("lugs-included", ("side_to_side",))


def _inch_as_cm(chance: random.Random, _t: Truth, hive: bool, _u: str) -> Fault:
    return Fault("inch-as-cm", (_of(chance, hive, FRAME_LONG, HIVE_LONG),), slip=True)


def _ten_times(chance: random.Random, _t: Truth, hive: bool, _u: str) -> Fault:
    frame, body = (*FRAME_LONG, *FRAME_SMALL), (*HIVE_LONG, *HIVE_SMALL)
    return Fault("ten-times", (_of(chance, hive, frame, body),), slip=True)


def _exchanged(chance: random.Random, _t: Truth, hive: bool, _u: str) -> Fault:
    pairs = [(("side_to_side", "top_to_bottom"), 0.8), (("side_to_side", "lug_to_lug"), 0.1)]
    if hive:
        pairs.append((("inside_along", "lug_room"), 0.1))
    return Fault("exchanged", weighted(chance, pairs), slip=True)


def _digits(name: str) -> Draw:
    def draw(chance: random.Random, _t: Truth, hive: bool, _u: str) -> Fault:
        # a long length is as likely to be hit as all small ones together
        small = (*FRAME_SMALL, *(HIVE_SMALL if hive else ()))
        long = (*FRAME_LONG, *(HIVE_LONG if hive else ()))
        pool = small if chance.random() < 1 / (len(long) + 1) else long
        return Fault(name, (chance.choice(pool),), slip=True)

    return draw


def _zero(chance: random.Random, _t: Truth, hive: bool, unit: str) -> Fault:
    table = spreads()["fault"]
    start = table["inch_zero"] if unit == "in" else weighted(chance, table["metric_zero"])
    return Fault("not-from-zero", (_of(chance, hive, FRAME_LONG, HIVE_LONG),), start)


def _case(chance: random.Random, truth: Truth, _h: bool, _u: str) -> Fault:
    return Fault("tape-case", (chance.choice(["inside_along", "lug_room"]),), -truth.tape_case)


def _outside(chance: random.Random, truth: Truth, _h: bool, _u: str) -> Fault:
    if chance.random() < 1 / 5:
        outside = truth.lengths["inside_along"] + 2 * truth.wall
        return Fault("outside-of-box", ("lug_room",), outside - truth.lengths["lug_room"])
    return Fault("outside-of-box", ("inside_along",), 2 * truth.wall)


def _hook(chance: random.Random, _t: Truth, _h: bool, _u: str) -> Fault:
    play = chance.uniform(*spreads()["fault"]["hook"])
    return Fault("hook-play", LONG, chance.choice([-play, play]))


FAULTS: dict[str, Draw] = {
    "inside-length": _inside_length,
    "inside-height": _inside_height,
    "lugs-left-out": _lugs_out,
    "lugs-included": _lugs_in,
    "inch-as-cm": _inch_as_cm,
    "ten-times": _ten_times,
    "exchanged": _exchanged,
    "digits-swapped": _digits("digits-swapped"),
    "one-digit": _digits("one-digit"),
    "comb-for-wood": _comb,
    "not-from-zero": _zero,
    "tape-case": _case,
    "outside-of-box": _outside,
    "hook-play": _hook,
}
_NEEDS_HIVE = frozenset({"tape-case", "outside-of-box"})


def names(hive: bool) -> list[str]:
    """The faults that can happen where the hive is answered too, or the frame alone."""
    return [name for name in FAULTS if hive or name not in _NEEDS_HIVE]


def drawn(name: str, chance: random.Random, truth: Truth, *, hive: bool, unit: str) -> Fault:
    """One fault of this name for this frame and hive."""
    return FAULTS[name](chance, truth, hive, unit)
