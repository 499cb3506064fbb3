"""What a cage weighs."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass
from fractions import Fraction

import pytest
from hypothesis import given
from hypothesis import strategies as st

from sizing.cage import design_cage
from sizing.fabrication.weight import area, cage_mass, sheet_mass, wire_mass
from sizing.materials import sheet
from sizing.measures import Material, Request
from sizing.workshop import Figures

SIDES = st.integers(1, 5000).map(lambda tenths: Fraction(tenths, 10))


@dataclass(frozen=True)
class Plate:
    """A rectangle of sheet."""

    width: Fraction
    height: Fraction
    thickness: Fraction = Fraction(1)
    count: int = 1

    @property
    def outline(self) -> tuple[tuple[Fraction, Fraction], ...]:
        """Its corners."""
        zero = Fraction(0)
        return ((zero, zero), (self.width, zero), (self.width, self.height), (zero, self.height))


@given(SIDES, SIDES)
def test_the_area_of_a_rectangle_is_width_times_height(width: Fraction, height: Fraction) -> None:
    """Whichever way round its corners are named."""
    outline = Plate(width, height).outline
    assert area(outline) == area(outline[::-1]) == width * height


def test_a_notch_is_taken_away() -> None:
    """A plate of 10 x 10 with a notch of 3 x 2 in a corner has 94."""
    corners = ((0, 0), (10, 0), (10, 8), (7, 8), (7, 10), (0, 10))
    assert area([(Fraction(x), Fraction(y)) for x, y in corners]) == 94


@pytest.mark.parametrize("material", Material)
def test_a_square_metre_weighs_what_the_sheet_says(material: Material) -> None:
    """The mass per area, as often as there are pieces."""
    plate = Plate(Fraction(1000), Fraction(1000), Fraction(1), 3)
    assert sheet_mass([plate], sheet(material)) == 3 * sheet(material).mass_per_area(Fraction(1))


@given(SIDES, SIDES)
def test_masses_add_up(width: Fraction, height: Fraction) -> None:
    """A plate weighs as much as its two halves, a wire as much as its two halves."""
    galvanised = sheet(Material.GALVANISED)
    halves = [Plate(width / 2, height), Plate(width / 2, height)]
    assert sheet_mass([Plate(width, height)], galvanised) == sheet_mass(halves, galvanised)
    assert wire_mass(width + height, Fraction(2)) == wire_mass(width, Fraction(2)) + wire_mass(
        height, Fraction(2)
    )


def test_what_has_no_size_is_refused() -> None:
    """Wire of no thickness, and sheet thinner than its coating."""
    for length, diameter in ((Fraction(-1), Fraction(2)), (Fraction(1), Fraction(0))):
        with pytest.raises(ValueError, match="Fraction"):
            wire_mass(length, diameter)
    with pytest.raises(ValueError, match="1/100"):
        sheet(Material.GALVANISED).mass_per_area(Fraction(1, 100))


def test_a_cage_weighs_what_its_parts_do(make: Callable[..., Request], figures: Figures) -> None:
    """By hand: walls and lid 0.05233 m2 of 0.8 mm at 6.251 kg, strips and guides 0.03337 m2 of
    0.5 mm at 3.896 kg, 457.1 g; 34.337 m of 2 mm wire at 24.66 g a metre, 846.8 g.
    """
    design = design_cage(make())
    mass = cage_mass(design, sheet(Material.GALVANISED), figures)
    assert mass is not None
    assert float(mass) == pytest.approx(457.1 + 846.8, abs=0.3)
    assert mass == design.weight_g


def test_a_cage_with_an_open_size_has_no_weight(
    make: Callable[..., Request], figures: Figures
) -> None:
    """The lid that nobody knows yet weighs nothing that could be said."""
    design = design_cage(make(lug_room=None))
    assert cage_mass(design, sheet(Material.GALVANISED), figures) is None
