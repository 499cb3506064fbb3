"""An order is read as it stands, with the design that was kept."""

from __future__ import annotations

import json

from bot.contract import design_to_json
from bot.paperwork.order import PaperCage, read
from bot.pictures.sample import SAMPLE
from bot.wiring import Workshop
from sizing.cage import design_cage
from sizing.workshop import Figures


def number_of(workshop: Workshop, stage: str) -> str:
    """An order at this stage."""
    with workshop.database.reading() as connection:
        row = connection.execute("SELECT number FROM orders WHERE stage = ?", [stage]).fetchone()
    return str(row["number"])


def test_an_order_brings_its_cages_its_person_and_who_cleared_it(
    workshop: Workshop, figures: Figures
) -> None:
    """Version, stage and the words typed as contact are those of the newest version."""
    number = number_of(workshop, "on-the-bench")
    order = read(workshop.database, number, figures)
    assert order is not None
    assert (order.number, order.version, order.stage) == (number, 1, "on-the-bench")
    assert order.cleared_by == "workshop"
    assert order.contact == "Halina, halina@example.org"
    assert order.language == "pl"
    with workshop.database.reading() as connection:
        kept = connection.execute(
            "SELECT design_json FROM cages WHERE number = ?", [number]
        ).fetchone()["design_json"]
    assert design_to_json(order.cages[0].design)["cage"] == json.loads(kept)["cage"]


def test_an_order_that_was_not_cleared_names_nobody(workshop: Workshop, figures: Figures) -> None:
    """Nobody is said to have cleared what waits."""
    order = read(workshop.database, number_of(workshop, "handed-in"), figures)
    assert order is not None
    assert order.cleared_by == ""


def test_there_is_no_paper_of_an_order_that_is_not_there(
    workshop: Workshop, figures: Figures
) -> None:
    """An unknown number gives nothing."""
    assert read(workshop.database, "48291742", figures) is None


def test_a_cage_can_be_sized_without_an_order(figures: Figures) -> None:
    """For samples and benchmarks."""
    cage = PaperCage.sized(SAMPLE, figures, item=2, label="x")
    assert (cage.item, cage.label, cage.pieces) == (2, "x", SAMPLE.pieces)
    assert cage.design == design_cage(SAMPLE, figures)
