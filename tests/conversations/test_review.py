"""The stages of an order as one table."""

from __future__ import annotations

import re
from pathlib import Path

import pytest

import conversations
from conversations.events import DeskVerb
from conversations.review import CHANGEABLE, MOVES, Refusal, Stage, refusal

UP_TO_THE_PARCEL = [
    (DeskVerb.TAKE, Stage.HANDED_IN),
    (DeskVerb.CLEAR, Stage.ON_THE_DESK),
    (DeskVerb.BENCH, Stage.CLEARED),
    (DeskVerb.MADE, Stage.ON_THE_BENCH),
    (DeskVerb.POSTED, Stage.MADE),
]


@pytest.mark.parametrize("verb", DeskVerb)
@pytest.mark.parametrize("stage", Stage)
def test_a_verb_moves_from_its_stages_and_from_no_other(verb: DeskVerb, stage: Stage) -> None:
    """Whatever is not in the table is refused."""
    why = refusal(verb, stage, newest=1, looked_at=1, note="a note")
    allowed = verb in MOVES and stage in MOVES[verb].source
    assert why is (None if allowed else Refusal.NOT_FROM_THIS_STAGE)


def test_the_moves_lead_from_the_desk_to_the_parcel() -> None:
    """Each stage of the way is where the next verb begins."""
    targets = [MOVES[verb].target for verb, _ in UP_TO_THE_PARCEL]
    assert [stage for _, stage in UP_TO_THE_PARCEL[1:]] == targets[:-1]
    assert targets[-1] is Stage.POSTED
    assert all(stage in MOVES[verb].source for verb, stage in UP_TO_THE_PARCEL)


@pytest.mark.parametrize("verb", [verb for verb, move in MOVES.items() if move.target])
def test_what_was_not_looked_at_is_not_moved(verb: DeskVerb) -> None:
    """A newer version refuses the action, an unnamed version stands for the newest."""
    stage = next(iter(MOVES[verb].source))
    assert refusal(verb, stage, newest=2, looked_at=1, note="x") is Refusal.NEWER_VERSION
    assert refusal(verb, stage, newest=1, looked_at=2, note="x") is Refusal.NEWER_VERSION
    assert refusal(verb, stage, newest=2, looked_at=2, note="x") is None
    assert refusal(verb, stage, newest=2, looked_at=None, note="x") is None


def test_a_note_needs_words_and_no_version() -> None:
    """It changes nothing, so it is never too late for it."""
    for stage in Stage:
        assert refusal(DeskVerb.NOTE, stage, newest=3, looked_at=1, note="x") is None
    note = refusal(DeskVerb.NOTE, Stage.MADE, newest=1, looked_at=1, note=" \n")
    assert note is Refusal.NEEDS_A_NOTE


def test_turning_down_says_why() -> None:
    """Nobody is turned down without a reason."""
    why = refusal(DeskVerb.TURN_DOWN, Stage.HANDED_IN, newest=1, looked_at=1, note="")
    assert why is Refusal.NEEDS_A_NOTE


def test_what_is_stopped_is_cleared_with_a_reason() -> None:
    """A few characters are none; every other verb needs none."""

    def why(verb: DeskVerb, note: str) -> Refusal | None:
        return refusal(verb, Stage.ON_THE_DESK, newest=1, looked_at=1, note=note, stopped=True)

    assert why(DeskVerb.CLEAR, "") is Refusal.NEEDS_A_REASON
    assert why(DeskVerb.CLEAR, "  because   ") is Refusal.NEEDS_A_REASON
    assert why(DeskVerb.CLEAR, "she measured it twice") is None
    assert why(DeskVerb.ASK, "") is None


def test_answers_change_until_an_order_is_cleared() -> None:
    """From then on a person decides."""
    assert {Stage.HANDED_IN, Stage.ON_THE_DESK, Stage.QUESTION_OUT} == CHANGEABLE
    assert MOVES[DeskVerb.CLEAR].source == CHANGEABLE


def test_the_page_of_the_folder_draws_the_same_table() -> None:
    """The table in the README is the one in the code."""
    page = Path(conversations.__file__).with_name("README.md").read_text(encoding="utf-8")
    rows = re.findall(r"^\| `([\w-]+)` \| (.*?) \| (.*?) \|$", page, re.MULTILINE)
    drawn = {
        verb: (set(re.findall(r"`([\w-]+)`", source)), re.findall(r"`([\w-]+)`", target))
        for verb, source, target in rows
    }
    assert drawn == {
        verb.value: (
            set() if move.source == frozenset(Stage) else {stage.value for stage in move.source},
            [move.target.value] if move.target else [],
        )
        for verb, move in MOVES.items()
    }
