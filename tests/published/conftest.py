"""A published frame in its published hive body, sized as it stands."""

from __future__ import annotations

from collections.abc import Callable
from fractions import Fraction

import pytest

from sizing.cage import Design, design_cage
from sizing.measures import (
    FRAME_LENGTHS,
    HIVE_LENGTHS,
    Above,
    Below,
    Frame,
    Hive,
    Length,
    Measure,
    Purpose,
    Request,
)
from sizing.standards import frame_kind

Sized = tuple[Design, Request]

NOT_IN_CHAIN = {Measure.WIDEST_WOOD: 35, Measure.COMB_THICKNESS: 27, Measure.LUG_WIDTH: 25}
"""What no source prints and the checked chain does not hold: the workshop's usual frame."""


def heights(name: str, lug: Fraction) -> dict[Measure, Fraction]:
    """Ledge heights of the row: as read, or from its depth and the gap above the frame."""
    kind = frame_kind(name)
    depth, up, rise = kind.value("body_depth"), kind.value("ledge_up"), kind.value("rise")
    hang, height = kind.value("hang"), kind.value("top_to_bottom")
    if up is None and rise is None and None not in (depth, hang, height):
        assert depth is not None
        assert hang is not None
        assert height is not None
        rise = depth - hang - height
    if up is None and rise is not None:
        up = rise + lug
    found = {} if up is None else {Measure.LEDGE_UP: up}
    if depth is not None and up is not None:
        found[Measure.LEDGE_DOWN] = depth - up
    return found


@pytest.fixture(scope="session")
def published() -> Callable[..., Sized]:
    """Sizes the kind with this id from what its row gives; `given` adds or replaces lengths."""

    def size(name: str, **given: object) -> Sized:
        kind = frame_kind(name)
        lug = kind.value("lug_thickness") or Fraction(10)
        values: dict[Measure, object] = {Measure.LUG_THICKNESS: lug, **NOT_IN_CHAIN}
        values |= {one: kind.value(one) for one in Measure if kind.value(one) is not None}
        values |= heights(name, lug)
        values |= {Measure(one): value for one, value in given.items() if value is not None}

        def lengths(of: tuple[Measure, ...]) -> dict[str, Length]:
            known = {one: values[one] for one in of if one in values}
            return {one: Length((Fraction(str(value)),)) for one, value in known.items()}

        held = values.get(Measure.FRAMES_HELD)
        request = Request(
            Purpose.ISOLATE,
            Frame(**lengths(FRAME_LENGTHS)),
            Hive(
                **lengths(HIVE_LENGTHS),  # type: ignore[arg-type]
                below=Below.BOX,
                above=Above.BOX,
                frames_held=None if held is None else int(Fraction(str(held))),
                frames_out=1,
            ),
        )
        return design_cage(request), request

    return size
