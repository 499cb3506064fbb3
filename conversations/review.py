"""The stages of an order and who moves it: one table.

The person fills a notebook and hands it in; from then on the desk moves the order, each time
naming the version it looked at.
"""

from __future__ import annotations

from dataclasses import dataclass
from enum import StrEnum

from conversations.events import DeskVerb

__all__ = [
    "CHANGEABLE", "MAY", "MOVES", "REASON", "WITHDRAWABLE", "Move", "Refusal", "Role", "Stage",
    "refusal",
]  # fmt: skip


class Stage(StrEnum):
    """Where an order stands. The names are stored and printed; they never change."""

    NOTEBOOK = "notebook"
    READ_BACK = "read-back"
    HANDED_IN = "handed-in"
    ON_THE_DESK = "on-the-desk"
    QUESTION_OUT = "question-out"
    CLEARED = "cleared"
    ON_THE_BENCH = "on-the-bench"
    MADE = "made"
    POSTED = "posted"
    SETTLED = "settled"
    FIT_TROUBLE = "fit-trouble"
    TURNED_DOWN = "turned-down"
    WITHDRAWN = "withdrawn"
    WIPED = "wiped"


class Refusal(StrEnum):
    """Why a staff member's action changes nothing."""

    NO_SUCH_ORDER = "no-such-order"
    NEWER_VERSION = "newer-version"
    NOT_FROM_THIS_STAGE = "not-from-this-stage"
    NO_SUCH_MEASURE = "no-such-measure"
    NEEDS_A_NOTE = "needs-a-note"
    NEEDS_A_REASON = "needs-a-reason"
    NOT_ALLOWED = "not-allowed"


@dataclass(frozen=True, slots=True)
class Move:
    """What a verb does: from which stages, to which (None: it stays), with a note or without."""

    source: frozenset[Stage]
    target: Stage | None
    needs_note: bool = False


def _from(*stages: Stage) -> frozenset[Stage]:
    return frozenset(stages)


_OPEN = (Stage.HANDED_IN, Stage.ON_THE_DESK, Stage.QUESTION_OUT)

MOVES: dict[DeskVerb, Move] = {
    DeskVerb.TAKE: Move(_from(Stage.HANDED_IN), Stage.ON_THE_DESK),
    DeskVerb.ASK: Move(_from(*_OPEN), Stage.QUESTION_OUT),
    DeskVerb.CLEAR: Move(_from(*_OPEN), Stage.CLEARED),
    DeskVerb.TURN_DOWN: Move(_from(*_OPEN, Stage.CLEARED), Stage.TURNED_DOWN, needs_note=True),
    DeskVerb.BENCH: Move(_from(Stage.CLEARED), Stage.ON_THE_BENCH),
    DeskVerb.MADE: Move(_from(Stage.ON_THE_BENCH), Stage.MADE),
    DeskVerb.POSTED: Move(_from(Stage.MADE), Stage.POSTED),
    DeskVerb.NOTE: Move(frozenset(Stage), None, needs_note=True),
}


class Role(StrEnum):
    """What somebody at the workshop may do."""

    OPERATOR = "operator"
    """Everything, and say who else works here."""
    DESK = "desk"
    """All that is done with an order."""
    BENCH = "bench"
    """What happens after an order was cleared."""


MAY: dict[Role, frozenset[DeskVerb]] = {
    Role.OPERATOR: frozenset(DeskVerb),
    Role.DESK: frozenset(DeskVerb),
    Role.BENCH: frozenset({DeskVerb.BENCH, DeskVerb.MADE, DeskVerb.POSTED, DeskVerb.NOTE}),
}

CHANGEABLE: frozenset[Stage] = _from(*_OPEN)
"""Here the person may still change an answer; each change is a new version."""

WITHDRAWABLE: frozenset[Stage] = _from(*_OPEN, Stage.CLEARED)
"""Until somebody begins to make it the person may take the order back."""


REASON = 10
"""Fewer characters are no reason for clearing what the program would not."""


def refusal(
    verb: DeskVerb,
    stage: Stage,
    *,
    newest: int,
    looked_at: int | None,
    note: str,
    stopped: bool = False,
) -> Refusal | None:
    """Why `verb` cannot be done now, or None if it can. A verb that only adds a note names no
    version; every other is refused when a newer version than the one looked at exists. An order
    that is `stopped` by what stands against it is cleared only with a reason in words."""
    move = MOVES.get(verb)
    if move is None or stage not in move.source:
        return Refusal.NOT_FROM_THIS_STAGE
    if move.target is not None and looked_at is not None and looked_at != newest:
        return Refusal.NEWER_VERSION
    if move.needs_note and not note.strip():
        return Refusal.NEEDS_A_NOTE
    if verb is DeskVerb.CLEAR and stopped and len(note.strip()) < REASON:
        return Refusal.NEEDS_A_REASON
    return None
