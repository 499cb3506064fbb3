"""Who passes which gap, and when what hatches, against what is in print.

The passage of a caste was set on these very gaps, so these tests hold the model to the facts it
was made from; they do not show that it is right elsewhere.
"""

from __future__ import annotations

from datetime import date, timedelta
from fractions import Fraction

import pytest

from sizing.bees import Level, Wired, caste, passes, risks
from sizing.days import brood_break_ends, comb_changes, hatches, introduction
from sizing.fabrication.wires import equal_gap
from sizing.measures import Purpose
from sizing.units import INCH

DAY = date(2026, 5, 1)

TABLES = "Tables of development (Imkerei Straubinger; kolaybilgim.com; weiselrichtig.de, undated)"
HATCHINGS = [
    ("queen", 16, TABLES, "published"),
    ("worker", 21, TABLES, "published"),
    ("drone", 24, TABLES, "published"),
]


@pytest.mark.parametrize(("who", "days", "source", "known"), HATCHINGS)
def test_days_from_egg_to_bee(who: str, days: int, source: str, known: str) -> None:
    """Counted in the calendar."""
    assert hatches(who, DAY) - DAY == timedelta(days), (source, known)


def test_a_brood_break_takes_24_days() -> None:
    """Varroa, blocco di covata (UNAAPI, undated), published; 21 to 26 elsewhere in print."""
    assert brood_break_ends(DAY) == date(2026, 5, 25)


def test_a_trapping_comb_is_changed_on_days_9_18_27_and_36() -> None:
    """Bannwabe, Fangwabe (Bienenzuchtverein Hohenthann-Schönau, undated), published."""
    assert [(day - DAY).days for day in comb_changes(DAY)] == [9, 18, 27, 36]


def test_a_queen_is_introduced_in_3_days_and_checked_at_10_to_14() -> None:
    """What is the best way to introduce a queen into a colony? (M. Spivak, undated), published.

    No longer than 5: Queen Introductions (training note, undated), published.
    """
    days = introduction(DAY)
    found = [days.opened, days.latest, days.eggs_from, days.eggs_to]
    assert [(day - DAY).days for day in found] == [3, 5, 10, 14]


MESH = "What size hardware cloth? (honeybeesuite.com, undated)"
CUSHMAN = "Drone excluder (D. Cushman, undated)"
LISTED = "Small cell and excluders (forum thread, citing a measured list), 1920s to 2000s"
SPACE = "Bee space, after Cushman (beginner-beekeeping.co.uk, undated)"
PASSING = [
    # gap in mm, who, at least, at most
    ("4.14", "worker", 0.99, 1, LISTED, "published: an excluder lets workers through"),
    ("4.14", "queen", 0, 0.001, LISTED, "published: and holds queens"),
    ("4.36", "worker", 0.99, 1, LISTED, "published: the widest that was sold"),
    ("4.36", "queen", 0, 0.01, LISTED, "published: still holds most"),
    ("5.2", "queen", 0.99, 1, CUSHMAN, "published: queens pass"),
    ("5.2", "drone", 0, 0.05, CUSHMAN, "published: drones do not"),
    ("6.0", "drone", 0.9, 1, "Entrance of hives and hornets (Blanco et al., 2020)",
     "published: the widest drone is 6.0"),
    ("3.0", "worker", 0, 1e-6, "Queen cages (Otis, Hadisoesilo, Wardell, 2000)",
     "published: workers feed through 3 mm and stay out"),
]  # fmt: skip


@pytest.mark.parametrize(("gap", "who", "least", "most", "source", "known"), PASSING)
def test_who_passes_a_published_gap(
    gap: str, who: str, least: float, most: float, source: str, known: str
) -> None:
    """One bee at one gap that is exactly so wide."""
    assert least <= passes(caste(who), float(gap)) <= most, (source, known)


CLOTHS = [
    # meshes an inch, wire in mm, share of workers that pass at least and at most
    (4, "1.0", 0.999, 1, MESH, "published: does not hinder bees"),
    (5, "0.8", 0.999, 1, MESH, "published: workers freely"),
    (6, "0.6", 0.01, 0.5, MESH, "published: only some workers, with great effort"),
    (7, "0.6", 0, 1e-4, MESH, "published: keeps workers in"),
    (8, "0.43", 0, 1e-9, MESH, "published: stops bees"),
]


@pytest.mark.parametrize(("meshes", "wire", "least", "most", "source", "known"), CLOTHS)
def test_workers_at_hardware_cloth(
    meshes: int, wire: str, least: float, most: float, source: str, known: str
) -> None:
    """The opening follows from meshes and wire, who passes follows from the opening."""
    opening = equal_gap(INCH - Fraction(wire), Fraction(wire), meshes - 1)
    assert opening == INCH / meshes - Fraction(wire)
    assert least <= passes(caste("worker"), float(opening)) <= most, (source, known)


def test_below_four_millimetres_most_workers_squeeze() -> None:
    """In print of gaps below 4 mm: too narrow for regular bees (Bee space, after Cushman)."""
    told = {one.name: one.level for one in risks(Purpose.ISOLATE, Wired(3.9, 0.03, 150))}
    assert told["workers-held"] is Level.HIGH, SPACE


def test_excluders_keep_most_queens() -> None:
    """Wire and plastic alike "keep most queens": J. Bromenshenk, BEE-L (2001), published.

    So a whole cage at the wide end of what is sold is to be watched, not called safe.
    """
    told = {one.name: one.level for one in risks(Purpose.ISOLATE, Wired(4.3, 0.05, 150))}
    assert told["queen-out"] is Level.WATCH
