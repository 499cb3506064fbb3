"""From a cage that was ordered to what is kept of it."""

from __future__ import annotations

import json
from dataclasses import replace
from fractions import Fraction

from bot.contract import request_from_json
from bot.designing import designed
from conversations.effects import Cage
from sizing.measures import Frame, Length, Purpose, Request
from sizing.workshop import default_figures


def a_cage() -> Cage:
    frame = Frame(*(Length((Fraction(value),)) for value in (360, 260, 391)))
    return Cage(item=2, label="deep", pieces=3, request=Request(Purpose.ISOLATE, frame))


def test_what_is_kept_is_the_answer_of_size() -> None:
    """The design is that of the contract, and both parts can be written as JSON."""
    kept = designed(a_cage(), default_figures())
    assert (kept.item, kept.label, kept.pieces) == (2, "deep", 3)
    assert json.loads(json.dumps(kept.design))["cage"]["length_outside"] == 370.0
    assert kept.design["workshop_version"] == default_figures().version


def test_the_request_comes_back_as_it_was() -> None:
    """What is stored can be sized again."""
    kept = designed(a_cage(), default_figures())
    assert request_from_json(json.dumps(kept.request)) == a_cage().request


def test_the_workshop_s_own_figures_count() -> None:
    """A workshop that allows more makes a longer cage."""
    figures = replace(default_figures(), allowance_along=Fraction(12))
    assert designed(a_cage(), figures).design["cage"]["length_outside"] == 372.0
