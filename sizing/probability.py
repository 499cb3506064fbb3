"""How likely it is that several sums of normal errors all stay inside their bounds.

The sums are few and hardly correlated: each error is that of one length, and two sums are
correlated only where they share one. So they fall into small groups, and a group of one has
a closed form.
"""

from __future__ import annotations

from dataclasses import dataclass
from functools import cache
from itertools import pairwise
from math import cos, erfc, inf, pi, prod, sqrt
from statistics import NormalDist
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from collections.abc import Mapping, Sequence

__all__ = ["Row", "chance", "chance_of_all", "chance_of_group", "deviation", "groups", "scaled"]

_inverse = NormalDist().inv_cdf
_SURE = 2e-5
"""Rows that leave their bounds less often than this count as independent of the others; each
can change the joint by no more than this."""
_ROOT_TWO = sqrt(2)
_LEAST_SPREAD = 1e-9
_LEAST_SHARE = 1e-12
_EDGE = 1e-14
_FURTHEST = 8.0
"""Beyond this a standard normal is never."""
_STEEP = 0.5
_WIDTHS = 2.5
_NODES = {2: 24, 3: 14, 4: 11, 5: 8, 6: 6}
_NODES_OF_MORE = 5


@dataclass(frozen=True, slots=True)
class Row:
    """A sum of independent standard normal errors about `mean`, which shall stay in `low`…`high`.

    `errors` gives for each error, by name, its share [the unit of the mean].
    """

    mean: float
    errors: Mapping[str, float]
    low: float = -inf
    high: float = inf


def deviation(errors: Mapping[str, float]) -> float:
    """Standard deviation of a sum of independent errors with these shares [their unit]."""
    return sqrt(sum(share * share for share in errors.values()))


def scaled(row: Row, name: str, ratio: float) -> Row:
    """`row` with the share of the error `name` times `ratio` [1]."""
    if name not in row.errors:
        return row
    errors = {**row.errors, name: row.errors[name] * ratio}
    return Row(row.mean, errors, row.low, row.high)


def _below(z: float) -> float:
    return 0.5 * erfc(-z / _ROOT_TWO)


def _between(low: float, high: float) -> float:
    """Probability of a standard normal between two bounds, exact in both tails."""
    if low > 0:
        low, high = -high, -low
    return max(0.0, _below(high) - _below(low))


def _standardised(row: Row) -> tuple[float, float]:
    spread = max(deviation(row.errors), _LEAST_SPREAD)
    return (row.low - row.mean) / spread, (row.high - row.mean) / spread


def chance(row: Row) -> float:
    """Probability [1], 0 to 1, that `row` stays inside its bounds: closed form.

    Source: JCGM 106, conformance probability of a normal quantity, 2012.
    """
    return _between(*_standardised(row))


def chance_of_all(rows: Sequence[Row]) -> float:
    """Probability [1], 0 to 1, that all `rows` stay inside their bounds at once."""
    return prod(chance_of_group(group) for group in groups(rows))


def groups(rows: Sequence[Row]) -> list[tuple[Row, ...]]:
    """`rows` in groups that count as independent of each other.

    Rows that are the same sum up to a factor become one. Rows that are all but certain stand
    alone: each can move the joint by 2e-5 at most. The rest is cut where no error is shared.
    """
    found: list[tuple[Row, ...]] = []
    linked: list[list[Row]] = []
    for row in _joined(rows):
        if chance(row) > 1.0 - _SURE:
            found.append((row,))
            continue
        apart = []
        block = [row]
        for other in linked:
            if any(not row.errors.keys().isdisjoint(mine.errors) for mine in other):
                block = other + block
            else:
                apart.append(other)
        linked = [*apart, block]
    return found + [tuple(block) for block in linked]


def _joined(rows: Sequence[Row]) -> list[Row]:
    """Rows that are the same sum up to a factor, as one row with the bounds of all."""
    found: dict[object, Row] = {}
    for row in rows:
        spread = deviation(row.errors)
        if spread < _LEAST_SPREAD:
            found[len(found)] = row
            continue
        shares = sorted((name, share) for name, share in row.errors.items() if share)
        scale = spread if shares[0][1] > 0 else -spread
        low, high = sorted(((row.low - row.mean) / scale, (row.high - row.mean) / scale))
        errors = {name: share / scale for name, share in shares}
        key = tuple((name, round(share, 12)) for name, share in errors.items())
        known = found.get(key)
        if known is not None:
            low, high = max(low, known.low), min(high, known.high)
        found[key] = Row(0.0, errors, low, high)
    return list(found.values())


def chance_of_group(group: Sequence[Row]) -> float:
    """Probability [1], 0 to 1, that all rows of one group stay inside their bounds.

    Gauss-Legendre quadrature of the separated integral, the least likely row outermost;
    a test holds it within 0.002 of an independent integrator.
    Source: A. Genz, Numerical computation of multivariate normal probabilities, Journal of
    Computational and Graphical Statistics 1, 1992.
    """
    if len(group) == 1:
        return chance(group[0])
    rows = sorted(group, key=chance)
    if any(row.low >= row.high for row in rows):
        return 0.0
    return _Separated(_triangle(rows), [_standardised(row) for row in rows]).chance(())


def _triangle(rows: Sequence[Row]) -> list[list[float]]:
    """The lower triangle whose square is the correlation of `rows` (Cholesky)."""
    names = sorted({name for row in rows for name in row.errors})
    directions = []
    for row in rows:
        spread = max(deviation(row.errors), _LEAST_SPREAD)
        directions.append([row.errors.get(name, 0.0) / spread for name in names])
    factor: list[list[float]] = []
    for place, mine in enumerate(directions):
        line: list[float] = []
        for other in range(place):
            shared = sum(a * b for a, b in zip(mine, directions[other], strict=True))
            known = sum(a * b for a, b in zip(line, factor[other], strict=False))
            own = factor[other][other]
            line.append((shared - known) / own if own else 0.0)
        rest = 1.0 - sum(part * part for part in line)
        line.append(sqrt(rest) if rest > _LEAST_SHARE else 0.0)
        factor.append(line)
    return factor


class _Separated:
    """The integral over one group, one standard normal inside the other."""

    def __init__(self, factor: list[list[float]], bounds: list[tuple[float, float]]) -> None:
        self._factor = factor
        self._bounds = bounds
        self._last = len(factor) - 1
        self._nodes = _legendre(_NODES.get(len(factor), _NODES_OF_MORE))
        self._steep = [self._steep_after(place) for place in range(len(factor))]

    def _steep_after(self, place: int) -> list[tuple[int, float]]:
        """Later rows all but settled once `place` is drawn, and over what width they turn."""
        found = []
        for later in range(place + 1, len(self._factor)):
            line = self._factor[later]
            left = sqrt(sum(part * part for part in line[place + 1 :]))
            if left < _STEEP * abs(line[place]):
                found.append((later, left / abs(line[place])))
        return found

    def chance(self, drawn: tuple[float, ...]) -> float:
        """The probability of the rows from `len(drawn)` on, given the normals `drawn` before."""
        place = len(drawn)
        line = self._factor[place]
        moved = sum(a * b for a, b in zip(line, drawn, strict=False))
        low, high = self._bounds[place]
        low, high, own = low - moved, high - moved, line[place]
        if own == 0.0:
            if not low <= 0.0 <= high:
                return 0.0
            return 1.0 if place == self._last else self.chance((*drawn, 0.0))
        low, high = low / own, high / own
        if place == self._last:
            return _between(low, high)
        low, high = max(low, -_FURTHEST), min(high, _FURTHEST)
        edges = [low, *self._turns(drawn, low, high), high]
        return sum(self._piece(drawn, a, b) for a, b in pairwise(edges))

    def _turns(self, drawn: tuple[float, ...], low: float, high: float) -> list[float]:
        """Where between `low` and `high` a steep row turns: nodes on both sides of it."""
        place = len(drawn)
        turns = set()
        for later, width in self._steep[place]:
            line = self._factor[later]
            moved = sum(a * b for a, b in zip(line, drawn, strict=False))
            for bound in self._bounds[later]:
                middle = (bound - moved) / line[place]
                turns |= {middle - _WIDTHS * width, middle, middle + _WIDTHS * width}
        return sorted(turn for turn in turns if low < turn < high)

    def _piece(self, drawn: tuple[float, ...], low: float, high: float) -> float:
        inside = _between(low, high)
        if inside <= _EDGE:
            return 0.0
        sign = -1.0 if low > 0 else 1.0  # numbers are dense near nought: take the lower tail
        start = _below(-high) if low > 0 else _below(low)
        total = 0.0
        for node, weight in self._nodes:
            normal = sign * _inverse(start + node * inside)
            total += weight * self.chance((*drawn, normal))
        return inside * total


@cache
def _legendre(count: int) -> tuple[tuple[float, float], ...]:
    """Nodes in 0…1 and weights of the Gauss-Legendre rule with `count` nodes.

    Source: M. Abramowitz and I. A. Stegun, Handbook of Mathematical Functions, 25.4.29, 1964.
    """
    found = []
    for place in range(1, count + 1):
        node, step = cos(pi * (place - 0.25) / (count + 0.5)), inf
        while abs(step) > _LEAST_SHARE:
            values = [1.0, node]
            for degree in range(2, count + 1):
                newest = (2 * degree - 1) * node * values[-1] - (degree - 1) * values[-2]
                values.append(newest / degree)
            slope = count * (node * values[-1] - values[-2]) / (node * node - 1.0)
            step = values[-1] / slope
            node -= step
        weight = 2.0 / ((1.0 - node * node) * slope * slope)
        found.append(((1.0 - node) / 2.0, weight / 2.0))
    return tuple(found)
