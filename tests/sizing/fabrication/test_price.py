"""What a cage comes to by the workshop's own rules."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import replace
from decimal import Decimal
from fractions import Fraction

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from sizing.cage import Design, design_cage
from sizing.fabrication.price import price_of
from sizing.measures import LidChoice, Request
from sizing.own_figures import own_figures
from sizing.workshop import Figures

Make = Callable[..., Request]


def asking(figures: Figures, **prices: int | str) -> Figures:
    """The figures of a workshop that shows its prices."""
    rules = {f"price_{name}": Fraction(value) for name, value in prices.items()}
    return replace(figures, price_shown=True, price_currency="PLN", **rules)  # type: ignore[arg-type]


def test_no_price_unless_the_workshop_wants_one(make: Make, figures: Figures) -> None:
    """Off as it is built in; on but without any amount there is none either."""
    assert figures.price_shown is False
    assert design_cage(make(), replace(figures, price_cage=Fraction(20))).price is None
    assert design_cage(make(), asking(figures)).price is None


def test_a_cage_costs_what_its_parts_do(make: Make, figures: Figures) -> None:
    """Checked by hand: 59 wires of 257 mm and two stays of 368.4 mm in each of two faces, 59 of
    43 mm in the floor are 34.3366 m; at 0.50 the metre 17.17, with cage and lid 40.17.
    """
    rules = asking(figures, cage=20, wire="0.5", lid_end_open=3, lid_closed=7, post=6)
    price = design_cage(make(), rules).price
    assert price is not None
    assert (price.currency, price.each, price.pieces) == ("PLN", Decimal("40.17"), 1)
    assert (price.cages, price.post) == (Decimal("40.17"), Decimal("6.00"))
    assert price.total == Decimal("46.17")


def test_sheet_is_paid_by_the_square_metre_of_blanks(make: Make, figures: Figures) -> None:
    """By hand: two walls 48 x 267.21, two strips 376.17 x 12 and two x 14.885, four guides
    241.5 x 13.885, a lid 391 x 68.22: 85965.75 mm2, at 100 the square metre 8.60.
    """
    area = Decimal("0.0859657507")
    price = design_cage(make(), asking(figures, sheet=100)).price
    assert price is not None
    assert price.each == round(100 * area, 2)


@pytest.mark.parametrize(
    ("changes", "each"),
    [
        ({}, "3.00"),
        ({"lid": LidChoice.CLOSED, "lug_room": 398}, "7.00"),
        ({"lid": LidChoice.CLOSED_BETWEEN_WALLS}, "9.00"),
    ],
)
def test_each_lid_has_its_own_amount(
    make: Make, figures: Figures, changes: dict[str, object], each: str
) -> None:
    """The amount of the lid that the cage gets, and of no other."""
    rules = asking(figures, lid_end_open=3, lid_closed=7, lid_closed_between_walls=9)
    price = design_cage(make(**changes), rules).price
    assert price is not None
    assert price.each == Decimal(each)


@pytest.mark.parametrize(
    ("pieces", "each", "cages"),
    [(4, "10.01", "40.04"), (5, "9.01", "45.05"), (19, "9.01", "171.19"), (20, "7.51", "150.20")],
)
def test_many_are_cheaper_each(
    make: Make, figures: Figures, pieces: int, each: str, cages: str
) -> None:
    """10 % off from 5 on, 25 % from 20 on; halves of a hundredth are rounded up."""
    rules = asking(figures, cage="10.01", some_less=10, many_less=25)
    price = design_cage(make(pieces=pieces), rules).price
    assert price is not None
    assert (price.each, price.cages) == (Decimal(each), Decimal(cages))


def test_an_open_size_has_no_price(make: Make, figures: Figures) -> None:
    """Nothing is told about parts that nobody can cut yet."""
    assert design_cage(make(lug_room=None), asking(figures, cage=20)).price is None


def test_a_workshop_sets_its_prices_in_its_own_file(make: Make) -> None:
    """Amounts, currency and the switch are figures like the others."""
    text = """
        version = "spring"
        [choice.price_shown]
        value = true
        [choice.price_currency]
        value = "PLN"
        [figure.price_cage]
        value = 120
        unit = "money"
        [figure.price_post]
        value = 18.50
        unit = "money"
    """
    price = design_cage(make(), own_figures(text)).price
    assert price is not None
    assert (price.currency, price.total) == ("PLN", Decimal("138.50"))


@settings(max_examples=30)
@given(st.data())
def test_more_pieces_never_cost_more_each(
    cages: st.SearchStrategy[Design], figures: Figures, data: st.DataObject
) -> None:
    """Whatever the shares, and every amount has two places and is not below nothing."""
    less = data.draw(st.integers(0, 45))
    rules = asking(figures, cage=20, wire=1, sheet=30, some_less=less, many_less=2 * less)
    design = data.draw(cages)
    amounts = []
    for pieces in (1, 5, 20):
        price = price_of(design, pieces, rules)
        assert price is not None
        assert price.each.as_tuple().exponent == -2
        amounts.append(price.each)
    assert amounts == sorted(amounts, reverse=True)
    assert amounts[-1] > 0
