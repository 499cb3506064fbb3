"""Bends: published corrections, allowances and blanks."""

from __future__ import annotations

from fractions import Fraction

import pytest

from sizing.fabrication.bending import bend_allowance, correction, din_factor, factor_of_strip

DIN = "DIN 6935, k = 0.65 + 0.5 log10(r/s), reported by excelution.at (2019); published"
DPS = (
    "K-Faktor und Biegezugabe, DIN 6935 (DPS GmbH, undated); published formula, worked out by hand"
)
TABLE_BOOK = "Biegeumformen berechnen, v = 0.43 r + 1.48 s (excerpts of DIN 6935:1975); published"
TEXTBOOK = (
    "Fundamentals of Modern Manufacturing, sheet bending example (M. P. Groover); from memory"
)
BENDMATH = (
    "Sheet-metal pages, reverse K (bendmath.com, undated); published formula, worked out by hand"
)

FACTORS = [
    ("1", "1", 0.6500),
    ("1", "0.8", 0.6985),
    ("1.6", "1", 0.7521),
    ("1.6", "1.5", 0.6640),
    ("2.5", "2", 0.6985),
    ("6", "3", 0.8005),
]


@pytest.mark.parametrize(("radius", "sheet", "k"), FACTORS)
def test_the_correction_factor_of_the_standard(radius: str, sheet: str, k: float) -> None:
    """The standard's k is twice K."""
    assert 2 * din_factor(Fraction(radius), Fraction(sheet)) == pytest.approx(k, abs=5e-5), DIN


CORRECTIONS = [
    ("1", "1", 90, -1.9187),
    ("1", "0.8", 90, -1.5904),
    ("1.6", "1", 90, -2.0961),
    ("1.6", "1.5", 90, -2.9045),
    ("2.5", "2", 90, -3.9759),
    ("6", "3", 90, -6.6891),
    ("1", "1", 45, -0.6162),
    ("1", "0.8", 45, -0.4863),
    ("1.6", "1", 45, -0.6019),
    ("1.6", "1.5", 45, -0.9204),
    ("2.5", "2", 45, -1.2159),
    ("6", "3", 45, -1.8004),
]


@pytest.mark.parametrize(("radius", "sheet", "turned", "v"), CORRECTIONS)
def test_the_correction_of_a_bend(radius: str, sheet: str, turned: int, v: float) -> None:
    """v of the standard, at a right angle and opened to 135 degrees."""
    r, s = Fraction(radius), Fraction(sheet)
    assert correction(r, s, din_factor(r, s), turned) == pytest.approx(v, abs=5e-5), DPS


SHORTCUTS = [("1", "1", 0.01), ("1", "0.8", 0.03), ("1.6", "1.5", 0.01), ("1.6", "1", 0.08),
             ("2.5", "2", 0.08)]  # fmt: skip


@pytest.mark.parametrize(("radius", "sheet", "within"), SHORTCUTS)
def test_the_table_book_s_shortcut_is_near(radius: str, sheet: str, within: float) -> None:
    """For thin sheet and small radii both rules give nearly the same blank."""
    r, s = Fraction(radius), Fraction(sheet)
    shortcut = 0.43 * float(r) + 1.48 * float(s)
    assert correction(r, s, din_factor(r, s)) == pytest.approx(-shortcut, abs=within), TABLE_BOOK


def test_the_table_book_s_worked_blank() -> None:
    """s 3.18, r 7, legs 50 + 605, two bends: 639.58 printed; its K gives the same blank back."""
    r, s = Fraction(7), Fraction("3.18")
    one = Fraction("7.71")  # as printed, cut after two places
    k = factor_of_strip(Fraction(50), Fraction(50), 100 - one, r, s)
    blank = 50 + 605 + 2 * correction(r, s, k)
    assert blank == pytest.approx(639.58, abs=0.005), TABLE_BOOK


def test_the_textbook_s_bracket() -> None:
    """r 4.75, t 3.2, turned by 60, K 0.33: allowance 6.08; straight legs 38 + 25 make 69.08."""
    allowance = bend_allowance(Fraction("4.75"), Fraction("3.2"), 0.33, 60)
    assert allowance == pytest.approx(6.08, abs=0.005), TEXTBOOK
    assert 38 + 25 + allowance == pytest.approx(69.08, abs=0.005), TEXTBOOK


def test_a_channel_of_25_48_25() -> None:
    """Outside 25, 48, 25, sheet and radius 1: 98 - 2 x 1.9187 = 94.163."""
    one = Fraction(1)
    assert 98 + 2 * correction(one, one, din_factor(one, one)) == pytest.approx(94.163, abs=5e-4), (
        DPS
    )


def test_k_from_a_bent_strip() -> None:
    """Legs 20 and 30 of 1 mm round 1 mm from 48 before: K = (2 / 1.5708 - 1) / 1 = 0.2732."""
    k = factor_of_strip(Fraction(20), Fraction(30), Fraction(48), Fraction(1), Fraction(1))
    assert k == pytest.approx(0.2732, abs=5e-5), BENDMATH
