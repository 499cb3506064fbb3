"""What the bees set."""

from __future__ import annotations

from fractions import Fraction

from sizing.bees import gap_band
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
