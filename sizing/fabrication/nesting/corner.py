"""The smallest corner of a sheet out of which a few pieces can be cut: exact, for few of them.

Whatever the first cut, it parts the pieces in two; each part has its own smallest corners. So all
ways to part them are looked at, from one piece upward (shape curves of slicing layouts: L.
Stockmeyer, Optimal Orientations of Cells in Slicing Floorplan Designs, Information and Control
57, 1983). Whole numbers throughout.
"""

from __future__ import annotations

from itertools import product
from math import prod
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from collections.abc import Iterable, Sequence

    from sizing.fabrication.nesting.guillotine import Oblong

__all__ = ["smallest_corner"]

_Corner = tuple[int, int]


def smallest_corner(
    pieces: Sequence[Oblong], demand: Sequence[int], wide: int, high: int, limit: int
) -> int | None:
    """Area of the smallest corner of a sheet `wide` and `high` that holds all pieces.

    They may be turned. Sides in one unit of length, the area in its square; None where the sheet
    does not hold them,
    or where there are more than `limit` different lots of pieces to look at.
    Source: above; a test compares it with trying out all cuts.
    """
    if not any(demand) or prod(count + 1 for count in demand) > limit:
        return None
    lots = sorted(product(*(range(count + 1) for count in demand)), key=sum)
    corners: dict[tuple[int, ...], list[_Corner]] = {}
    for lot in lots[1:]:
        found: set[_Corner] = set()
        if sum(lot) == 1:
            one = pieces[lot.index(1)]
            found |= {(one.width, one.height), (one.height, one.width)}
        for part in product(*(range(count + 1) for count in lot)):
            rest = tuple(count - taken for count, taken in zip(lot, part, strict=True))
            if any(part) and part <= rest:
                for a, b in product(corners[part], corners[rest]):
                    found.add((a[0] + b[0], max(a[1], b[1])))
                    found.add((max(a[0], b[0]), a[1] + b[1]))
        corners[lot] = _least(one for one in found if one[0] <= wide and one[1] <= high)
    whole = corners[tuple(demand)]
    return min((width * height for width, height in whole), default=None)


def _least(found: Iterable[_Corner]) -> list[_Corner]:
    """Those corners beside which no other is smaller both ways."""
    kept: list[_Corner] = []
    for corner in sorted(found):
        if not kept or corner[1] < kept[-1][1]:
            kept.append(corner)
    return kept
