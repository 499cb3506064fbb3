"""Coatings, masses, wire by gauge and wood, against what is in print."""

from __future__ import annotations

from fractions import Fraction

import pytest

from sizing.fabrication.weight import wire_mass
from sizing.gauges import gauge
from sizing.materials import sheet, steel
from sizing.measures import Material
from sizing.moisture import coefficient, equilibrium

EN_10346 = "EN 10326:2004, taken over by EN 10346 (CEN), table of coatings as reprinted"
SUPPLIERS = "Properties of a 55 % aluminium-zinc coating (author not named, undated)"

COATINGS = [
    # µm on each side, worked out from mass and density; range of the table
    (Material.GALVANISED, "19.4", "15 27", EN_10346, "published: typically 20, 15 to 27"),
    (Material.ALUMINIUM_ZINC, "19.7", "15 27", SUPPLIERS, "from memory: typically 20, 15 to 27"),
]


@pytest.mark.parametrize(("material", "micrometres", "span", "source", "known"), COATINGS)
def test_thickness_of_a_coating(
    material: Material, micrometres: str, span: str, source: str, known: str
) -> None:
    """Mass over density gives the printed thickness, and lies in the printed range."""
    found = sheet(material).coating_each * 1000
    low, high = (Fraction(bound) for bound in span.split())
    assert abs(found - Fraction(micrometres)) < Fraction("0.05"), source
    assert low < found < high, known


MASSES = [
    # kg of a square metre of 1.00 mm, coating counted in the thickness; arithmetic from the
    # printed densities 7.85, 7.1 and 3.8
    (Material.GALVANISED, "7.821", EN_10346, "derived"),
    (Material.ALUMINIUM_ZINC, "7.690", SUPPLIERS, "derived"),
]


@pytest.mark.parametrize(("material", "mass", "source", "known"), MASSES)
def test_mass_of_a_square_metre(material: Material, mass: str, source: str, known: str) -> None:
    """Lighter than the 7.85 kg of bare steel, by as much as the coating takes of it."""
    found = sheet(material).mass_per_area(Fraction(1)) / 1000
    assert abs(found - Fraction(mass)) < Fraction("0.0006"), (source, known)


def test_bare_sheet_of_a_millimetre() -> None:
    """1 mm of steel sheet is 7.85 kg/m²: Blech, Meyers Konversations-Lexikon, published."""
    assert steel().density == Fraction("7.85")


def test_zinc_of_a_micrometre() -> None:
    """1 µm of zinc on one side is 7.14 g/m²: coating relations after ASTM A653, published."""
    zinc = sheet(Material.GALVANISED)
    one_side = zinc.coating_mass / 2 / (zinc.coating_each * 1000)
    assert abs(one_side - Fraction("7.14")) < Fraction("0.05")


def test_a_metre_of_two_millimetre_wire() -> None:
    """24.66 g: π/4 d² x 7.85, as wire tables print it; common practice."""
    assert abs(wire_mass(Fraction(1000), Fraction(2)) - Fraction("24.66")) < Fraction("0.005")


AUTONOPEDIA = "Wire gauge conversion chart (autonopedia.org.uk, undated)"
TOOLBOX = "SWG, Standard Wire Gauge (engineeringtoolbox.com, undated)"
GAUGES = [
    ("AWG 12", "2.052", AUTONOPEDIA, "published"),
    ("AWG 14", "1.628", AUTONOPEDIA, "published"),
    ("AWG 16", "1.291", AUTONOPEDIA, "published"),
    ("AWG 18", "1.024", AUTONOPEDIA, "published"),
    ("SWG 12", "2.642", TOOLBOX, "published"),
    ("SWG 14", "2.032", TOOLBOX, "published"),
    ("SWG 16", "1.626", TOOLBOX, "published"),
    ("SWG 18", "1.219", TOOLBOX, "published"),
]


@pytest.mark.parametrize(("name", "diameter", "source", "known"), GAUGES)
def test_wire_by_its_gauge(name: str, diameter: str, source: str, known: str) -> None:
    """The American numbers are worked out, the British ones looked up."""
    found = gauge(name)
    assert found is not None
    assert abs(found - Fraction(diameter)) <= Fraction("0.0006"), (source, known)


SIMPSON = "Equilibrium moisture content (FPL-RN-0268, W. T. Simpson, 1998), as coded in public"
MOISTURES = [
    # °C, relative humidity, % of moisture
    ("20", "0.65", "12.0", SIMPSON, "published"),
    ("20", "0.50", "9.3", SIMPSON, "published"),
    ("21.1", "0.50", "9.24", SIMPSON, "published"),
    ("10", "0.30", "6.3", SIMPSON, "derived"),
    ("35", "0.80", "15.3", SIMPSON, "derived"),
    ("30", "0.90", "20.0", SIMPSON, "derived"),
]


@pytest.mark.parametrize(("temperature", "humidity", "moisture", "source", "known"), MOISTURES)
def test_moisture_of_wood_in_air(
    temperature: str, humidity: str, moisture: str, source: str, known: str
) -> None:
    """To the last printed digit."""
    found = equilibrium(Fraction(temperature), Fraction(humidity))
    digits = len(moisture.partition(".")[2])
    assert abs(found - Fraction(moisture)) <= Fraction(1, 2) / 10**digits, (source, known)


HANDBOOK = "Wood Handbook (FPL-GTR-190), tables 4-3 and 13-5 (2010)"
WOODS = [
    # shrinkage from green to oven-dry in %, coefficient of change a per cent
    ("basswood, radial", "6.6", "0.00230", HANDBOOK, "published"),
    ("basswood, tangential", "9.3", "0.00330", HANDBOOK, "published"),
    ("beech, radial", "5.5", "0.00190", HANDBOOK, "published"),
    ("beech, tangential", "11.9", "0.00431", HANDBOOK, "published"),
    ("quaking aspen, radial", "3.5", "0.00119", HANDBOOK, "published"),
    ("quaking aspen, tangential", "6.7", "0.00234", HANDBOOK, "published"),
    ("eastern white pine, tangential", "6.1", "0.00212", HANDBOOK, "from memory"),
]


@pytest.mark.parametrize(("wood", "shrinkage", "change", "source", "known"), WOODS)
def test_movement_of_wood_from_its_shrinkage(
    wood: str, shrinkage: str, change: str, source: str, known: str
) -> None:
    """The tabulated coefficient follows from the tabulated shrinkage."""
    found = coefficient(Fraction(shrinkage))
    assert abs(found - Fraction(change)) <= Fraction("0.000006"), (wood, source, known)


def test_wood_across_the_grain_by_rule_of_thumb() -> None:
    """1 % of its size for 4 % of moisture: FAQ on shrinkage (American Wood Council), published.

    Softwoods of hive bodies, flat-sawn, lie about it.
    """
    found = [coefficient(Fraction(shrinkage)) for shrinkage in ("6.9", "7.6")]
    assert all(abs(one - Fraction(1, 400)) < Fraction(1, 4000) for one in found)
