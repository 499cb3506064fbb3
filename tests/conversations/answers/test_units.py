"""The units people type."""

from __future__ import annotations

from decimal import Decimal

import pint
import pytest

from conversations.answers.units import BARE, METRIC, Symbol, Unit

PINT = {"mm": "mm", "cm": "cm", "dm": "dm", "m": "m", "in": "inch", "ft": "foot"}


@pytest.mark.parametrize("symbol", list(Symbol))
def test_sizes_agree_with_an_independent_library(symbol: Symbol) -> None:
    """One of each unit is as many millimetres as pint says."""
    registry: pint.UnitRegistry[Decimal] = pint.UnitRegistry(non_int_type=Decimal)
    assert symbol.size == registry.Quantity(1, PINT[symbol]).to("mm").magnitude


def test_every_symbol_is_echoed_in_a_unit_of_its_family() -> None:
    """Feet are echoed in inches, decimetres in centimetres, the others as typed."""
    assert {symbol: symbol.unit for symbol in Symbol} == {
        Symbol.MM: Unit.MM, Symbol.CM: Unit.CM, Symbol.DM: Unit.CM, Symbol.M: Unit.M,
        Symbol.IN: Unit.IN, Symbol.FT: Unit.IN,
    }  # fmt: skip


def test_a_bare_number_is_never_feet_or_decimetres() -> None:
    """Without a unit a number is millimetres, centimetres or inches."""
    assert set(BARE) == {Symbol.MM, Symbol.CM, Symbol.IN}
    assert Symbol.IN not in METRIC
