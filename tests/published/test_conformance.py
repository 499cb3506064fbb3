"""Probability of conformance and the risks of a test, against what is in print."""

from __future__ import annotations

from math import inf

import pytest

from sizing.probability import Row, chance, chance_of_group

JCGM_106 = "JCGM 106:2012, 7.4"
LIEDBERG = "Conformity to specification (H. Liedberg, metrologyrules.com, 2022)"
QUANTILES = "JCGM 106:2012, table of the standard normal"
CONFORMING = [
    # measured, its standard uncertainty, tolerance from and to, probability
    (13.6, 1.8, 12.5, 16.3, 0.6626, LIEDBERG, "published inputs, derived"),
    (13.6, 1.8, -inf, 12.5, 0.2706, LIEDBERG, "published inputs, derived"),
    (13.6, 1.8, 16.3, inf, 0.0668, LIEDBERG, "published inputs, derived"),
    (0, 1, -inf, 0, 0.5, JCGM_106, "from memory: at the limit, simple acceptance"),
    (0, 1, -inf, 2, 0.977, JCGM_106, "from memory: guarded by the expanded uncertainty"),
    (0, 1, -inf, 0.84, 0.80, QUANTILES, "common practice"),
    (0, 1, -inf, 1.28, 0.90, QUANTILES, "common practice"),
    (0, 1, -inf, 1.64, 0.95, QUANTILES, "common practice"),
    (0, 1, -inf, 2.33, 0.99, QUANTILES, "common practice"),
    (0, 1, -inf, 3.09, 0.999, QUANTILES, "common practice"),
]


@pytest.mark.parametrize(("at", "u", "low", "high", "expected", "source", "known"), CONFORMING)
def test_probability_that_what_was_measured_conforms(
    at: float, u: float, low: float, high: float, expected: float, source: str, known: str
) -> None:
    """One measured value against one tolerance."""
    found = chance(Row(at, {"measured": u}, low, high))
    assert found == pytest.approx(expected, abs=0.0006), (source, known)


DEAVER = "How to maintain your confidence (D. Deaver), as in the tests of suncal (2025)"
RISKS = [
    # tolerance and acceptance, either way, of a process of spread 1; uncertainty of the test;
    # risk of accepting what is bad, of rejecting what is good
    (2.0, 2.0, 0.25, 0.0080, None, DEAVER, "published"),
    (2.5, 2.5, 0.25, 0.0025, None, DEAVER, "published"),
    (2.0, 0.91 * 2.0, 0.5, 0.008, 0.066, DEAVER, "published"),
]


@pytest.mark.parametrize(("limit", "accept", "u", "bad", "good", "source", "known"), RISKS)
def test_risks_of_a_test_that_is_itself_unsure(
    limit: float, accept: float, u: float, bad: float, good: float | None, source: str, known: str
) -> None:
    """What is there and what is read of it share the process: two correlated rows."""
    true = Row(0, {"process": 1.0}, -limit, limit)
    read = Row(0, {"process": 1.0, "test": u}, -accept, accept)
    both = chance_of_group((true, read))
    assert chance(read) - both == pytest.approx(bad, abs=0.0002), (source, known)
    if good is not None:
        assert chance(true) - both == pytest.approx(good, abs=0.0005), (source, known)
