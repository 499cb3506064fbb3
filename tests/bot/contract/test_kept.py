"""A kept design comes back with its own numbers, whatever the workshop's figures are today."""

from __future__ import annotations

from dataclasses import replace
from fractions import Fraction

import pytest

from bot.contract import design_to_json
from bot.contract.kept import kept_design
from bot.pictures.sample import SAMPLE
from sizing.cage import design_cage
from sizing.measures import LidChoice, Request
from sizing.workshop import default_figures

FIGURES = default_figures()
CASES = (
    SAMPLE,
    replace(SAMPLE, lid=LidChoice.CLOSED_BETWEEN_WALLS),
    replace(SAMPLE, frame=replace(SAMPLE.frame, comb_thickness=None)),
)


@pytest.mark.parametrize("request_", CASES)
def test_with_the_figures_of_then_it_is_the_design_itself(request_: Request) -> None:
    """Exact to the last fraction."""
    design = design_cage(request_, FIGURES)
    assert kept_design(request_, design_to_json(design), FIGURES) == design


@pytest.mark.parametrize("request_", CASES)
def test_with_other_figures_today_the_numbers_stay_those_of_then(request_: Request) -> None:
    """Sizes, wires and lid are said again exactly as they were kept."""
    then = replace(FIGURES, version="0", allowance_along=Fraction(9), wire_diameter=Fraction("1.8"))
    kept = design_to_json(design_cage(request_, then))
    again = design_to_json(kept_design(request_, kept, FIGURES))
    for part in ("workshop_version", "cage", "wire", "lid"):
        assert again[part] == kept[part]
    assert again["cage"] != design_to_json(design_cage(request_, FIGURES))["cage"]
