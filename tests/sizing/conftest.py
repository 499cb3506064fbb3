"""A frame and a hive that fit, and ways to change one thing about them."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import replace
from fractions import Fraction

import pytest

from sizing.measures import (
    FRAME_LENGTHS,
    HIVE_LENGTHS,
    Above,
    Below,
    Frame,
    Hive,
    Length,
    Purpose,
    Request,
    Spacer,
)
from sizing.workshop import Figures, default_figures

FRAME = {
    "side_to_side": "360",
    "top_to_bottom": "260",
    "lug_to_lug": "391",
    "lug_thickness": "10",
    "top_bar_thickness": "10",
    "lug_width": "25",
    "widest_wood": "35",
    "comb_thickness": "27",
}
HIVE = {
    "inside_along": "375",
    "lug_room": "393.25",
    "ledge_down": "253",
    "ledge_up": "17",
    "inside_across": "375",
}

Change = str | int | Fraction | None
Make = Callable[..., Request]


def length(value: Change) -> Length | None:
    """One reading; None stays None."""
    return None if value is None else Length((Fraction(value),))


@pytest.fixture(scope="session")
def make() -> Make:
    """Makes a request for a ten-frame stack that fits, with what is named changed.

    Lengths are given by their names as text, number or None; everything else as it is.
    """
    whole = Request(
        purpose=Purpose.ISOLATE,
        frame=Frame(**{name: length(value) for name, value in FRAME.items()}),  # type: ignore[arg-type]
        hive=Hive(
            **{name: length(value) for name, value in HIVE.items()},  # type: ignore[arg-type]
            below=Below.BOX,
            above=Above.BOX,
            spacer=Spacer.SHOULDERS,
            frames_held=10,
        ),
    )

    def changed(**changes: object) -> Request:
        frame, hive, rest = {}, {}, {}
        for name, value in changes.items():
            if name in FRAME_LENGTHS:
                frame[name] = length(value)  # type: ignore[arg-type]
            elif name in HIVE_LENGTHS:
                hive[name] = length(value)  # type: ignore[arg-type]
            elif hasattr(whole.hive, name):
                hive[name] = value  # type: ignore[assignment]
            else:
                rest[name] = value
        return replace(
            whole,
            frame=replace(whole.frame, **frame),  # type: ignore[arg-type]
            hive=replace(whole.hive, **hive),  # type: ignore[arg-type]
            **rest,  # type: ignore[arg-type]
        )

    return changed


@pytest.fixture(scope="session")
def figures() -> Figures:
    """The workshop's figures as they stand in the data."""
    return default_figures()
