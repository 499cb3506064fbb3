"""Every known frame in its own hive body: what the data gives, filled up by plain rules."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from fractions import Fraction
from functools import cache

from sizing.measures import (
    Above,
    Below,
    Frame,
    Hive,
    Length,
    MeasuredWith,
    Purpose,
    Request,
    Spacer,
    Tape,
)
from sizing.standards import FrameKind, frame_kinds

ON_A_FLOOR = ("dadant_ru_435x300", "dadant_ro_stas")
"""One-body hives: `ledge_down` goes to the floor."""


@dataclass(frozen=True)
class Lengths:
    """The true lengths [mm] of one frame and one hive body."""

    frame: dict[str, Fraction]
    hive: dict[str, Fraction]
    held: int
    floor: bool


@cache
def whole_kinds() -> list[FrameKind]:
    """The kinds whose three lengths of the frame are known and that hang in a hive."""
    three = ("side_to_side", "top_to_bottom", "lug_to_lug")
    return [
        kind
        for kind in frame_kinds()
        if kind.cannot is None and all(kind.value(name) is not None for name in three)
    ]


def lengths(kind: FrameKind) -> Lengths:
    """What the row gives; else C 27, u 10, W 35, A = S + 15, R = L + 2, rise 7, depth H + 10."""

    def known(name: str, otherwise: Fraction | int) -> Fraction:
        found = kind.value(name)
        return Fraction(otherwise) if found is None else found

    side, height = known("side_to_side", 0), known("top_to_bottom", 0)
    bar, lug = known("lug_to_lug", 0), known("lug_thickness", 10)
    wood = known("widest_wood", 35)
    depth, held = known("body_depth", height + 10), int(known("frames_held", 10))
    rise = kind.value("rise")
    hang = kind.value("hang")
    if rise is None and hang is not None and kind.value("body_depth") is not None:
        rise = depth - height - hang
    up = known("ledge_up", (Fraction(7) if rise is None else rise) + lug)
    return Lengths(
        frame={
            "side_to_side": side, "top_to_bottom": height, "lug_to_lug": bar,
            "lug_thickness": lug, "widest_wood": wood, "comb_thickness": Fraction(27),
            "lug_width": known("top_bar_width", 25),
        },
        hive={
            "inside_along": known("inside_along", side + 15),
            "lug_room": known("lug_room", bar + 2),
            "ledge_down": depth - up, "ledge_up": up,
            "inside_across": known("inside_across", held * wood + 12),
        },
        held=held,
        floor=kind.id in ON_A_FLOOR,
    )  # fmt: skip


def request(
    true: Lengths,
    purpose: Purpose,
    tape: Tape = Tape.UNKNOWN,
    readings: dict[str, dict[str, tuple[Fraction, ...]]] | None = None,
) -> Request:
    """An order for these lengths: with these readings, else with each as it is, read once."""
    if readings is None:
        readings = {
            "frame": {name: (value,) for name, value in true.frame.items()},
            "hive": {name: (value,) for name, value in true.hive.items()},
        }
    frame = {name: Length(read) for name, read in readings["frame"].items()}
    hive = {name: Length(read) for name, read in readings["hive"].items()}
    return Request(
        purpose,
        Frame(**frame),
        Hive(
            **hive,  # type: ignore[arg-type]
            below=Below.FLOOR if true.floor else Below.BOX,
            below_space=Length((Fraction(0),)) if true.floor else None,
            above=Above.BOX,
            spacer=Spacer.SHOULDERS,
            frames_held=true.held,
        ),
        measured_with=MeasuredWith(tape),
    )


def orders(purpose: Purpose, tape: Tape, readings: int) -> Iterator[tuple[FrameKind, Request]]:
    """An honest order for every kind in its own hive, each length read so many times."""
    for kind in whole_kinds():
        true = lengths(kind)
        said = {
            "frame": {name: (value,) * readings for name, value in true.frame.items()},
            "hive": {name: (value,) * readings for name, value in true.hive.items()},
        }
        yield kind, request(true, purpose, tape, said)
