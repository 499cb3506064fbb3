"""Cages of all kinds: both ways to hang, both floors, the three lids."""

from __future__ import annotations

from collections.abc import Callable
from fractions import Fraction

import pytest
from hypothesis import strategies as st

from sizing.cage import Design, Verdict, design_cage
from sizing.measures import LidChoice, Purpose, Request

Make = Callable[..., Request]

KINDS: dict[str, dict[str, object]] = {
    "end-open": {},
    "closed": {"lid": LidChoice.CLOSED, "lug_room": 398},
    "between-walls": {"lid": LidChoice.CLOSED_BETWEEN_WALLS},
    "beside-lug": {"ledge_up": 12, "ledge_down": 260},
    "flat-floor": {"below_space": 5},
    "deep": {"comb_thickness": 40},
    "no-guide": {"widest_wood": 40},
    "introduce": {"purpose": Purpose.INTRODUCE},
}


@pytest.fixture(params=KINDS)
def design(request: pytest.FixtureRequest, make: Make) -> Design:
    """One cage of each kind that the workshop makes."""
    return design_cage(make(**KINDS[request.param]))


def _tenths(low: int, high: int) -> st.SearchStrategy[Fraction]:
    return st.integers(low * 10, high * 10).map(lambda tenths: Fraction(tenths, 10))


def _cage(make: Make, draw: st.DrawFn) -> Design:
    side = draw(_tenths(200, 480))
    lug = draw(_tenths(12, 25))
    up = draw(_tenths(8, 25))
    thickness = draw(_tenths(6, 12))
    height = draw(_tenths(120, 420))
    wood = draw(_tenths(24, 42))
    end = draw(_tenths(5, 9))
    return design_cage(
        make(
            side_to_side=side,
            top_to_bottom=height,
            lug_to_lug=side + 2 * lug,
            lug_thickness=thickness,
            top_bar_thickness=thickness,
            lug_width=min(wood, draw(_tenths(18, 30))),
            widest_wood=wood,
            comb_thickness=draw(_tenths(22, 40)),
            inside_along=side + 2 * end,
            lug_room=side + 2 * lug + draw(_tenths(2, 8)),
            ledge_down=height - thickness + draw(_tenths(2, 20)),
            ledge_up=up,
            lid=draw(st.sampled_from(LidChoice)),
            purpose=draw(st.sampled_from(Purpose)),
        )
    )


@pytest.fixture(scope="session")
def cages(make: Make) -> st.SearchStrategy[Design]:
    """Cages that can be made, of any size that frames have."""
    strategy = st.composite(lambda draw: _cage(make, draw))()
    return strategy.filter(lambda design: design.verdict is not Verdict.CANNOT)
