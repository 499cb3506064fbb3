"""Curves: where lengths lie in the data they are likely, elsewhere unlikely, never impossible."""

from __future__ import annotations

import pytest

from sizing.plausibility.curves import Bell, Curve


def test_a_curve_adds_up_to_one() -> None:
    """Peaks and floor together are one probability."""
    curve = Curve([15, 16, 30], 2.0, 0.1, -50, 50)
    assert sum(curve.at(-50 + n / 2) / 2 for n in range(201)) == pytest.approx(1, abs=0.01)


def test_far_from_every_peak_there_is_the_floor() -> None:
    """What agrees with nothing is as likely as the floor, at both ends."""
    curve = Curve([15], 2.0, 0.1, 0, 100)
    assert curve.at(-40) == curve.at(80) == pytest.approx(0.001)
    assert curve.at(15) > 100 * curve.at(40)


def test_a_length_that_stands_twice_weighs_twice() -> None:
    """Each row of the data counts."""
    curve = Curve([10, 10, 30], 1.0, 0.0, 0, 100)
    assert curve.at(10) == pytest.approx(2 * curve.at(30))


def test_a_curve_knows_lengths_under_zero() -> None:
    """A frame longer than its box is on the scale too."""
    curve = Curve([-10], 2.0, 0.0, -50, 50)
    assert curve.at(-10) > curve.at(-12) > curve.at(-16) > curve.at(10)


def test_a_bell_is_even_on_both_sides_and_ends() -> None:
    """Too long and too short weigh alike; far off nothing is left."""
    bell = Bell(1.5)
    assert bell.at(-2) == bell.at(2) < bell.at(0)
    assert bell.at(20) == 0
    assert sum(bell.at(-20 + n / 4) / 4 for n in range(161)) == pytest.approx(1, abs=0.01)
