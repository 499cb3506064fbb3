"""An order sized once more with other figures: what would change."""

from __future__ import annotations

from dataclasses import replace
from fractions import Fraction
from typing import TYPE_CHECKING, Any

import pytest

from bot.designing import designed
from bot.resizing import Resizing, resizing
from bot.storage.errors import InconsistentError
from conversations.effects import Cage, OrderVersion
from conversations.review import Stage
from sizing.measures import Frame, Hive, Length, Purpose, Request
from sizing.workshop import default_figures

if TYPE_CHECKING:
    from tests.bot.conftest import Shop

LONGER = replace(default_figures(), version="2", allowance_along=Fraction(9))


def an_order(stage: str = "handed-in", version: int = 1) -> dict[str, Any]:
    """An order of one cage, in the form of the contract."""
    frame = Frame(*(Length((Fraction(value),)) for value in (360, 260, 391)))
    hive = Hive(inside_along=Length((Fraction(375),)))
    cage = Cage(item=1, label="deep", pieces=3, request=Request(Purpose.ISOLATE, frame, hive))
    kept = designed(cage, default_figures())
    return {
        "number": "48291742", "version": version, "stage": stage,
        "cages": [{"item": 1, "label": "deep", "pieces": 3, "request": kept.request,
                   "design": kept.design}],
    }  # fmt: skip


def changed(found: Resizing) -> dict[str, tuple[object, object]]:
    """The differences by name."""
    return {one.name: (one.before, one.after) for one in found.differences}


def test_every_value_that_becomes_another_is_named() -> None:
    """A millimetre less along: the cage is shorter, and the gaps at both its ends differ."""
    found = changed(resizing(an_order(), LONGER))
    assert found["cage.length_outside"] == (370.0, 369.0)
    assert found["gaps.hive_end.nominal"] == (2.5, 3.0)
    assert found["gaps.frame_end.nominal"] == (4.2, 3.7)
    assert {name for name in found if name.startswith("gaps.below")} == set()


def test_with_the_same_figures_nothing_changes() -> None:
    """What is stored is what these figures give."""
    found = resizing(an_order(), default_figures())
    assert found.changes_nothing
    assert found.before == (default_figures().version,)


def test_another_version_with_the_same_values_is_a_change() -> None:
    """The order would remember another version, although no number differs."""
    found = resizing(an_order(), replace(default_figures(), version="2"))
    assert found.differences == ()
    assert not found.changes_nothing


@pytest.mark.parametrize(
    ("stage", "becomes"),
    [("handed-in", "handed-in"), ("question-out", "question-out"), ("cleared", "on-the-desk")],
)
def test_the_new_version_follows_and_what_was_cleared_is_looked_at_again(
    stage: str, becomes: str
) -> None:
    """The stage stays, but a cleared order goes back to the desk."""
    found = resizing(an_order(stage, version=4), LONGER)
    made = found.as_version()
    assert found.can_be_made
    assert (made.number, made.version, made.stage) == ("48291742", 5, becomes)
    assert (made.by, made.reason) == ("operator", "resized")
    assert [(cage.pieces, cage.label) for cage in made.cages] == [(3, "deep")]


@pytest.mark.parametrize("stage", [Stage.ON_THE_BENCH, Stage.MADE, Stage.WITHDRAWN, Stage.WIPED])
def test_what_went_too_far_stays_as_it_is(stage: Stage) -> None:
    """Nothing is resized on the bench."""
    assert not resizing(an_order(stage), LONGER).can_be_made


def test_a_version_made_outside_of_any_conversation_follows_the_last(shop: Shop) -> None:
    """It is kept with the order, the owner hears nothing; one that does not follow is refused."""
    shop.send("order")
    ((number,),) = shop.rows("SELECT number FROM orders")
    said = shop.said_to()
    made = OrderVersion(
        number=number, version=2, stage="handed-in", cages=(), by="operator", reason="resized"
    )
    shop.service.make_version(made)
    assert shop.rows("SELECT version, reason FROM versions")[-1] == (2, "resized")
    assert shop.said_to() == said
    for refused in (made, made.model_copy(update={"number": "48291742"})):
        with pytest.raises(InconsistentError):
            shop.service.make_version(refused)
