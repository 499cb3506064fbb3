"""From what a phone sends to a plain line."""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from conversations.answers.text import normalise, repair_digits


@pytest.mark.parametrize(
    ("raw", "line"),
    [
        ("14⅛", "14 1/8"),
        ("14½ Zoll", "14 1/2 zoll"),
        ("14¹/₈", "14 1 / 8"),
        ("14 1⁄8”", '14 1/8"'),
        ("⅟8", "1/ 8"),
        ("14 ⅛″", '14 1/8 "'),
        ("14 1/8''", '14 1/8"'),
        ("14 1/8´´", '14 1/8"'),
        ("17′", "17'"),
    ],
)
def test_fractions_and_inch_marks_survive_folding(raw: str, line: str) -> None:
    """A fraction never runs into the number before it, an inch mark never becomes two feet."""
    assert normalise(raw) == line


@pytest.mark.parametrize(
    ("raw", "line"),
    [
        ("٣٦٣", "363"),
        ("३६३", "363"),
        ("３６３ｍｍ", "363mm"),
        ("3️⃣6️⃣3️⃣", "363"),
        ("36\u200b3\u2060", "363"),
        ("36٫3", "36,3"),
        ("③⑥③", "363"),
    ],
)
def test_all_digits_become_plain_ones(raw: str, line: str) -> None:
    """Digits of every script, keycaps and hidden signs leave plain digits."""
    assert normalise(raw) == line


@pytest.mark.parametrize(
    ("raw", "line"),
    [
        ("36,3 сm", "36,3 cm"),
        ("36,3 cм", "36,3 cm"),
        ("36 см", "36 см"),
        ("OKOŁO", "okolo"),
        ("Weiß nicht", "weiss nicht"),
        ("36\u00a0\u2009cm\n", "36 cm"),
        ("36–37 — 38", "36-37 - 38"),
        ("363 +/- 1", "363 ± 1"),
        ("435×300", "435x300"),
        ("363㎜", "363mm"),
        ("don’t", "don't"),
    ],
)
def test_words_and_signs_have_one_spelling(raw: str, line: str) -> None:
    """Letters of mixed script, accents, case, spaces, dashes and signs are made alike."""
    assert normalise(raw) == line


def test_letters_among_digits_are_read_as_digits() -> None:
    """O and l typed for 0 and 1 are repaired, words are left alone."""
    assert repair_digits("36o mm") == "360 mm"
    assert repair_digits("3l4") == "314"
    assert repair_digits("363 o 364, okolo 36") == "363 o 364, okolo 36"
    assert repair_digits("36ok") == "36ok"


@given(st.text(max_size=60))
def test_a_plain_line_stays_as_it_is(raw: str) -> None:
    """Normalising twice gives the same as once, without line breaks or double spaces."""
    line = normalise(raw)
    assert normalise(line) == line
    assert line == " ".join(line.split())
