"""What the bees set."""

from __future__ import annotations

from fractions import Fraction
from math import exp, pi, sqrt

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from scipy.integrate import quad
from scipy.special import ndtr

from sizing.bees import Caste, Level, Wired, caste, finds_a_way, gap_band, passes, risks
from sizing.measures import Purpose
from sizing.workshop import Figures


def test_isolation_lets_workers_pass_and_holds_the_queen(figures: Figures) -> None:
    """The band lies within the gaps of excluders in use, 4.14 to 4.36, or a little under."""
    band = gap_band(Purpose.ISOLATE, figures)
    assert (band.least, band.limit, band.middle) == (
        Fraction("4.1"), Fraction("4.3"), Fraction("4.2"),
    )  # fmt: skip


def test_introduction_holds_workers_out(figures: Figures) -> None:
    """The whole band of introduction is narrower than the least gap workers pass."""
    tight, wide = gap_band(Purpose.INTRODUCE, figures), gap_band(Purpose.ISOLATE, figures)
    assert tight.limit < wide.least
    assert tight.middle == Fraction("3.025")


def test_both_ends_of_the_band_belong_to_it(figures: Figures) -> None:
    """A gap of exactly 4.3 holds; a hair more does not."""
    band = gap_band(Purpose.ISOLATE, figures)
    assert band.holds(band.limit)
    assert band.holds(band.least)
    assert not band.holds(band.limit + Fraction(1, 1000))


GAPS = st.floats(2.5, 6.5)
SPREADS = st.floats(0.01, 0.2)
CASTES = st.sampled_from([caste(name) for name in ("worker", "queen", "small-queen", "drone")])


@settings(max_examples=40)
@given(CASTES, GAPS, SPREADS, st.integers(1, 300))
def test_the_widest_of_all_gaps_as_counted_by_an_independent_integral(
    bee: Caste, gap: float, spread: float, gaps: int
) -> None:
    """Agrees with a library's quadrature over the bee instead of over the gap."""

    def squeezed(at: float) -> float:
        away = (at - bee.middle) / bee.spread
        held = ndtr((at - gap) / spread) ** gaps
        return float(exp(-away * away / 2) / (bee.spread * sqrt(2 * pi)) * (1 - held))

    low, high = bee.middle - 8 * bee.spread, bee.middle + 8 * bee.spread
    turn = min(max(gap + 2 * spread, low), high)
    expected, _ = quad(squeezed, low, high, points=[turn], limit=400)
    assert finds_a_way(bee, Wired(gap, spread, gaps)) == pytest.approx(expected, abs=1e-5)


@given(CASTES, GAPS, SPREADS, st.integers(1, 300))
def test_more_gaps_and_wider_ones_never_hold_better(
    bee: Caste, gap: float, spread: float, gaps: int
) -> None:
    """Monotone in both."""
    usual = finds_a_way(bee, Wired(gap, spread, gaps))
    assert finds_a_way(bee, Wired(gap, spread, gaps + 50)) >= usual - 1e-6
    assert finds_a_way(bee, Wired(gap + 0.05, spread, gaps)) >= usual - 1e-6
    assert -1e-9 <= usual <= 1 + 1e-6


def test_gaps_that_are_all_alike_are_one_gap() -> None:
    """Without spread the widest is as wide as any."""
    queen = caste("queen")
    assert finds_a_way(queen, Wired(4.3, 0.0, 150)) == passes(queen, 4.3)


def levels(purpose: Purpose, gap: float, spread: float = 0.03) -> dict[str, Level]:
    """What is to be feared at 150 gaps."""
    return {one.name: one.level for one in risks(purpose, Wired(gap, spread, 150))}


def test_isolation_is_told_as_low_watch_or_high() -> None:
    """At 4.2 a laying queen stays and a small one is watched; at 4.4 by hand neither is safe."""
    assert levels(Purpose.ISOLATE, 4.2) == {
        "queen-out": Level.LOW, "small-queen-out": Level.WATCH, "workers-held": Level.LOW,
    }  # fmt: skip
    loose = levels(Purpose.ISOLATE, 4.4, 0.1)
    assert loose["queen-out"] is loose["small-queen-out"] is Level.HIGH
    assert levels(Purpose.ISOLATE, 3.9)["workers-held"] is Level.HIGH


def test_introduction_is_told_by_the_workers_that_get_in() -> None:
    """3.0 keeps them out, 3.25 has little in reserve, 3.25 spaced by hand does not hold."""
    assert levels(Purpose.INTRODUCE, 3.0) == {"workers-in": Level.LOW}
    assert levels(Purpose.INTRODUCE, 3.25, 0.05)["workers-in"] is Level.WATCH
    assert levels(Purpose.INTRODUCE, 3.25, 0.1)["workers-in"] is Level.HIGH


def test_what_cannot_be_is_refused() -> None:
    """No gap at all, a spread below nothing, a caste that is none."""
    for wired in (Wired(4.2, 0.1, 0), Wired(4.2, -0.1, 5)):
        with pytest.raises(ValueError, match="0"):
            finds_a_way(caste("queen"), wired)
    with pytest.raises(ValueError, match="0"):
        passes(caste("queen"), 4.2, -0.1)
    with pytest.raises(KeyError):
        caste("moth")
