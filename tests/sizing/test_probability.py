"""Sums of normal errors inside their bounds, against an independent integrator."""

from __future__ import annotations

import random
from math import inf, sqrt

import numpy as np
import pytest
from scipy.stats import multivariate_normal, norm

from sizing.probability import Row, chance, chance_of_all, deviation, groups, scaled

CASES = 240
WITHIN = 0.002


def reference(rows: list[Row]) -> float:
    """The same by scipy, whose integrator knows nothing of shared errors."""
    names = sorted({name for row in rows for name in row.errors})
    shares = np.array([[row.errors.get(name, 0.0) for name in names] for row in rows])
    means = [row.mean for row in rows]
    exact = multivariate_normal(means, shares @ shares.T, allow_singular=True, maxpts=400_000)
    return float(exact.cdf([row.high for row in rows], lower_limit=[row.low for row in rows]))


def generated(seed: int) -> list[Row]:
    """Two to four sums over a few shared errors, one- or two-sided, sure and unsure."""
    chance_of = random.Random(seed)
    count = chance_of.randint(2, 4)
    rows = []
    for _ in range(count):
        names = chance_of.sample(range(count + 2), chance_of.randint(1, 4))
        errors = {f"e{name}": chance_of.choice((-1, 1)) * chance_of.uniform(0.1, 1.5)
                  for name in names}  # fmt: skip
        spread, mean = deviation(errors), chance_of.uniform(-5, 5)
        low = mean - chance_of.uniform(0.2, 4) * spread
        high = mean + chance_of.uniform(0.2, 4) * spread
        side = chance_of.random()
        rows.append(Row(mean, errors, -inf if side < 0.2 else low, inf if side > 0.6 else high))
    return rows


def test_the_joint_is_that_of_an_independent_integrator() -> None:
    """Hundreds of cases, up to four correlated rows each."""
    apart = {}
    for seed in range(CASES):
        rows = generated(seed)
        apart[seed] = abs(chance_of_all(rows) - reference(rows))
    print(f"largest difference in {CASES} cases: {max(apart.values()):.5f}")
    assert {seed: error for seed, error in apart.items() if error > WITHIN} == {}


@pytest.mark.parametrize(
    ("low", "high"), [(-1.0, inf), (-inf, 0.3), (-1.5, 2.0), (6.0, 7.0), (-7.0, -6.0)]
)
def test_one_row_is_exact(low: float, high: float) -> None:
    """Also far out in either tail, where differences of large numbers would be nought."""
    row = Row(1.0, {"a": 3.0, "b": 4.0}, 1 + 5 * low, 1 + 5 * high)
    assert chance(row) == pytest.approx(norm.cdf(high) - norm.cdf(low), rel=1e-9)


def test_the_same_sum_twice_is_one_row() -> None:
    """Two bounds on one sum, also when it is written with the other sign and in halves."""
    both = [Row(0, {"a": 1.0}, -1.0), Row(0, {"a": -0.5}, -0.5)]
    assert chance_of_all(both) == pytest.approx(norm.cdf(1) - norm.cdf(-1))
    apart = [Row(0, {"a": 1.0}, 1.0), Row(0, {"a": 1.0}, -inf, -1.0)]
    assert chance_of_all(apart) == 0.0


def test_rows_that_share_nothing_multiply() -> None:
    """Independent rows stand in groups of their own."""
    rows = [Row(0, {"a": 1.0}, 0.0), Row(0, {"b": 1.0}, 0.0), Row(0, {"c": 1.0}, -1.0)]
    assert len(groups(rows)) == 3
    assert chance_of_all(rows) == pytest.approx(0.25 * norm.cdf(1))


def test_two_halves_of_the_plane() -> None:
    """Both above their mean with correlation r: 1/4 + asin(r)/2π.

    Sheppard's theorem on medial dichotomy, published: W. F. Sheppard, 1899.
    """
    for share in (-0.95, -0.5, 0.2, 0.9):
        rows = [Row(0, {"a": 1.0}, 0.0), Row(0, {"a": share, "b": sqrt(1 - share**2)}, 0.0)]
        assert chance_of_all(rows) == pytest.approx(0.25 + np.arcsin(share) / (2 * np.pi), abs=1e-4)


def test_a_row_without_errors_holds_or_does_not() -> None:
    """What is exactly known is inside or outside."""
    assert chance_of_all([Row(1.0, {}, 0.0), Row(0, {"a": 1.0}, 0.0)]) == pytest.approx(0.5)
    assert chance_of_all([Row(-1.0, {}, 0.0), Row(0, {"a": 1.0}, 0.0)]) == 0.0


def test_a_smaller_error_makes_an_inner_row_surer() -> None:
    """Scaling touches the error that is named and no other."""
    row = Row(1.0, {"a": 1.0, "b": 0.5}, 0.0)
    assert chance(scaled(row, "a", 0.5)) > chance(row)
    assert scaled(row, "c", 0.5) is row
    assert scaled(row, "a", 0.5).errors == {"a": 0.5, "b": 0.5}
