"""The table of the workshop's figures."""

from __future__ import annotations

from collections.abc import Iterator
from fractions import Fraction

import pytest

from sizing import workshop
from sizing.data import table
from sizing.errors import DataError
from sizing.measures import GapName
from sizing.workshop import default_figures


@pytest.fixture
def _fresh() -> Iterator[None]:
    default_figures.cache_clear()
    yield
    default_figures.cache_clear()


def test_the_usual_ten_down_is_the_sum_of_its_parts() -> None:
    """Gap under, wired floor, lid sheet and lid clearance together add 10 mm to the height."""
    figures = default_figures()
    parts = (figures.gap_under, figures.floor_wired, figures.lid_sheet, figures.lid_clear)
    assert sum(parts) == 10


def test_the_table_has_a_version() -> None:
    """An order can remember which figures it was sized with."""
    assert default_figures().version == "1"


def test_every_gap_has_a_rule_with_sense() -> None:
    """An aim lies inside its must."""
    for name in GapName:
        rule = default_figures().gaps[name]
        if rule.must_low is not None:
            assert rule.aim_low is not None
            assert rule.aim_low > rule.must_low
        if rule.aim_high is not None:
            assert rule.aim_low is not None
            assert rule.aim_high > rule.aim_low


def test_figures_are_exact() -> None:
    """0.8 is four fifths, not the nearest binary number."""
    assert default_figures().end_sheet == Fraction(4, 5)


@pytest.mark.usefixtures("_fresh")
@pytest.mark.parametrize("change", ["lost", "more", "gap"])
def test_a_table_that_does_not_match_the_code_is_refused(
    change: str, monkeypatch: pytest.MonkeyPatch
) -> None:
    """A figure that is missing and one that nothing uses are errors of the data."""
    data = {key: dict(part) if isinstance(part, dict) else part
            for key, part in table("workshop.toml").items()}  # fmt: skip
    if change == "lost":
        del data["figure"]["end_sheet"]
    elif change == "more":
        data["figure"]["tail"] = {"value": 1}
    else:
        del data["gap"]["below"]
    monkeypatch.setattr(workshop, "table", lambda _: data)
    with pytest.raises(DataError):
        default_figures()
