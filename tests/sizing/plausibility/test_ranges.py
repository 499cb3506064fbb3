"""Bands, tried on every frame in the data."""

from __future__ import annotations

from fractions import Fraction

import pytest

from sizing.errors import DataError
from sizing.measures import COUNTS, Measure
from sizing.plausibility import ranges
from sizing.plausibility.ranges import band, relation
from sizing.standards import frame_kinds

INCH = Fraction(254, 10)


@pytest.mark.parametrize("measure", Measure)
def test_every_measure_has_a_band(measure: Measure) -> None:
    """The usual lies within the possible, and both are more than one value."""
    found = band(measure)
    assert found.hard_low <= found.soft_low < found.soft_high <= found.hard_high


@pytest.mark.parametrize("measure", Measure)
def test_no_frame_in_the_data_is_unusual(measure: Measure) -> None:
    """Every figure of every row lies in the soft band of its measure."""
    usual = band(measure)
    unusual = {
        kind.id: float(value)
        for kind in frame_kinds()
        if (value := kind.value(measure)) is not None and not usual.usual(value)
    }
    assert unusual == {}


def test_no_depth_below_the_ledge_in_the_data_is_unusual() -> None:
    """Body depth less ledge depth is a usual `ledge_down` in every row that has both."""
    seen = 0
    for kind in frame_kinds():
        depth, up = kind.value("body_depth"), kind.value("ledge_up")
        if depth is not None and up is not None:
            assert band(Measure.LEDGE_DOWN).usual(depth - up), kind.id
            seen += 1
    assert seen >= 8


@pytest.mark.parametrize("measure", [Measure.WIDEST_WOOD, Measure.COMB_THICKNESS])
def test_a_bare_number_across_is_never_both_centimetres_and_inches(measure: Measure) -> None:
    """These bands are narrower than an inch is long in centimetres."""
    usual = band(measure)
    assert usual.soft_high / usual.soft_low < INCH / 10


@pytest.mark.parametrize("measure", [m for m in Measure if m not in COUNTS and "space" not in m])
def test_a_bare_number_is_never_both_millimetres_and_centimetres(measure: Measure) -> None:
    """No soft band of a length spans a factor of ten; only free spaces may be near nothing."""
    usual = band(measure)
    assert usual.soft_high / usual.soft_low < 10


def test_bounds_belong_to_their_band() -> None:
    """Both ends are usual and possible; a hair outside is not."""
    found = band(Measure.SIDE_TO_SIDE)
    for bound in (found.soft_low, found.soft_high):
        assert found.usual(bound)
    for bound in (found.hard_low, found.hard_high):
        assert found.possible(bound)
        assert not found.usual(bound)
    hair = Fraction(1, 1000)
    assert not found.possible(found.hard_low - hair)
    assert not found.possible(found.hard_high + hair)
    assert not found.usual(found.soft_high + hair)


def test_a_relation_may_have_one_end_only() -> None:
    """A lug may be thinner than its bar by anything, thicker by nothing."""
    found = relation("lug-under-bar")
    assert found.holds(Fraction(100))
    assert found.holds(Fraction(0))
    assert not found.holds(Fraction(-1, 100))


def test_a_relation_that_is_not_in_the_data_is_an_error() -> None:
    """An unknown code is not answered with something else."""
    with pytest.raises(KeyError):
        relation("hearsay")


@pytest.mark.parametrize("row", [None, {"soft": [1, 9], "hard": [2, 8], "source": "x"}])
def test_a_band_that_is_missing_or_upside_down_is_refused(
    row: dict[str, object] | None, monkeypatch: pytest.MonkeyPatch
) -> None:
    """The data has to have a band for every measure, the usual within the possible."""
    rows = {"measure": {} if row is None else dict.fromkeys(Measure, row)}
    monkeypatch.setattr(ranges, "table", lambda _: rows)
    with pytest.raises(DataError):
        ranges._bands.__wrapped__()
