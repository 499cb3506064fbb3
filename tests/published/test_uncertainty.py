"""Tapes, general tolerances, readings and sums of errors, against what is in print."""

from __future__ import annotations

from fractions import Fraction

import pytest

from sizing.measures import Length, MeasuredWith, Tape
from sizing.probability import deviation
from sizing.uncertainty.reading import reading
from sizing.uncertainty.tape import tape_limit
from sizing.uncertainty.wood import growth
from sizing.workshop import default_figures

ANNEX_X = "Directive 2014/32/EU, Annex X (2014), as in UK SI 2016/1153, schedule 1I"
TAPES = [
    # class, length from the end of the tape in mm, limit in mm: a + b x metres begun + c
    (Tape.I, "482", "0.3", ANNEX_X, "published"),
    (Tape.II, "482", "0.7", ANNEX_X, "published"),
    (Tape.III, "482", "1.3", ANNEX_X, "published"),
    (Tape.II, "1000", "0.7", ANNEX_X, "published"),
    (Tape.II, "1001", "0.9", ANNEX_X, "published"),
    (Tape.I, "1500", "0.4", ANNEX_X, "published"),
    (Tape.III, "1500", "1.7", ANNEX_X, "published"),
    (Tape.III, "2500", "2.1", ANNEX_X, "published"),
    (Tape.UNKNOWN, "482", "1.3", ANNEX_X, "common practice: without a class as class III"),
]


@pytest.mark.parametrize(("tape", "length", "limit", "source", "known"), TAPES)
def test_what_the_law_allows_a_tape(
    tape: Tape, length: str, limit: str, source: str, known: str
) -> None:
    """Metres count from the next whole one."""
    assert tape_limit(tape, Fraction(length)) == Fraction(limit), (source, known)


ISO_2768 = "ISO 2768-1: General tolerances (1989), table sheet as reprinted"
GB_1804 = "GB/T 1804-m in the title block of a published conveyor drawing (undated)"


READINGS = [
    # one reading near 482 on a tape with whole millimetres, landmark 0.5: the root of
    # (limit/√3)² + (1/√12)² + 0.5²
    (Tape.I, 0.60, ANNEX_X, "derived"),
    (Tape.II, 0.705, ANNEX_X, "derived"),
    (Tape.III, 0.95, ANNEX_X, "derived"),
]


@pytest.mark.parametrize(("tape", "uncertainty", "source", "known"), READINGS)
def test_how_sure_one_reading_is(tape: Tape, uncertainty: float, source: str, known: str) -> None:
    """The parts of a reading by the rules of the GUM."""
    found = reading(
        Length((Fraction(482),)), MeasuredWith(tape, Fraction(1)), default_figures()
    ).uncertainty
    assert found == pytest.approx(uncertainty, abs=0.005), (source, known)


GAUGE_BLOCK = "JCGM 100:2008 (GUM), example H.1"
SUNCAL = "suncal, notebook End Gauge GUM H.1 (Sandia National Laboratories, 2025)"
STACK = "Tolerance stackup, worked example (metricmech.com, 2026)"
ANALYSIS = "Tolerance stack-up analysis (ficientdesign.com, undated)"
SUMS = [
    # shares of independent errors, their sum, digits
    ({"standard": 75 / 3, "difference": 9.7, "expansion": 2.9, "temperature": 16.6}, 31.7, 0.05,
     SUNCAL, "published inputs [nm]"),
    ({"standard": 25.0, "difference": 9.7, "expansion": 2.9, "temperature": 16.6}, 32, 0.5,
     GAUGE_BLOCK, "from memory: 32 nm"),
    ({"repeated": 5.8, "random": 3.9, "systematic": 20 / 3}, 9.7, 0.05, GAUGE_BLOCK,
     "from memory: comparison of the two gauges [nm]"),
    ({"a": 0.10, "b": 0.05, "c": 0.03, "d": 0.05}, 0.1261, 0.00005, STACK,
     "published: 40 - 25 - 2 - 10 mm"),
    ({"a": 0.005, "b": 0.003, "c": 0.002, "d": 0.005}, 0.00794, 0.000005, ANALYSIS, "published"),
]  # fmt: skip


@pytest.mark.parametrize(("shares", "expected", "within", "source", "known"), SUMS)
def test_errors_add_up_by_their_squares(
    shares: dict[str, float], expected: float, within: float, source: str, known: str
) -> None:
    """End gauge of the GUM, and two stacks of parts."""
    assert deviation(shares) == pytest.approx(expected, abs=within), (source, known)


def test_a_flat_sawn_board_of_240_grows_by_three_millimetres() -> None:
    """For 6 % of moisture: 3.1, arithmetic from the Wood Handbook (2010); derived.

    Radial boards move half as much, so this is the side of caution.
    """
    assert abs(growth(Fraction(240), Fraction(6)) - Fraction("3.1")) <= Fraction("0.1")
