"""News for staff: written once for the desk's page, and once for each whom they concern elsewhere.

The desk and the operator hear of every order, the bench of those that are or were in its hands.
"""

from __future__ import annotations

import sqlite3
from collections.abc import Collection
from datetime import datetime

from bot.storage import orders, outbox, people, staff
from bot.storage.sealing import Sealer
from conversations.effects import Free, Line, NumberValue, Say, StageMoved, TextKey, Value
from conversations.review import Role, Stage

__all__ = ["BENCH_STAGES", "PERSONAL", "concerned", "tell", "tell_moved", "tell_unreachable"]

UNREACHABLE, UNREACHABLE_ORDER = "desk.unreachable", "desk.unreachable_order"
PERSONAL = frozenset({UNREACHABLE, UNREACHABLE_ORDER})
"""News that say how to reach somebody."""
BENCH_STAGES = frozenset({Stage.CLEARED, Stage.ON_THE_BENCH, Stage.MADE})
_CLOSED = (Stage.POSTED, Stage.SETTLED, Stage.TURNED_DOWN, Stage.WITHDRAWN, Stage.WIPED)


def concerned(connection: sqlite3.Connection, stages: Collection[str]) -> list[staff.Member]:
    """Who works here today and has to do with an order that came from, or to, these stages."""
    return [
        member for member in staff.members(connection)
        if member.active and (member.role != Role.BENCH or not BENCH_STAGES.isdisjoint(stages))
    ]  # fmt: skip


def tell(
    connection: sqlite3.Connection, sealer: Sealer, say: Say, *, at: datetime, event: int,
    stages: Collection[str] | None = None, but: str | None = None,
) -> set[str]:  # fmt: skip
    """Have the desk told, and everybody under the address they write from; the mailboxes.

    `event`: the inbox row it came of. `stages`: where the order is and was (None: as it stands).
    `but`: the address of who need not hear it.
    """
    outbox.put(
        connection, sealer, say, to=outbox.DESK, channel=outbox.DESK, k=None, at=at, event=event
    )
    if stages is None:
        stages = _stages_of(connection, say.number)
    return {outbox.DESK, *_tell_elsewhere(connection, sealer, say, at, event, stages, but)}


def _stages_of(connection: sqlite3.Connection, number: str | None) -> set[str]:
    if number is None or orders.owner_of(connection, number) is None:
        return set()
    return {orders.stage_of(connection, number)}


def _tell_elsewhere(
    connection: sqlite3.Connection, sealer: Sealer, say: Say, at: datetime, event: int,
    stages: Collection[str], but: str | None,
) -> set[str]:  # fmt: skip
    told = set()
    for member in concerned(connection, stages):
        if member.address is not None and member.address != but:
            channel = people.channel_of(connection, member.address) or outbox.DESK
            outbox.put(
                connection, sealer, say, to=member.address, channel=channel, k=None, at=at,
                event=event,
            )  # fmt: skip
            told.add(member.address)
    return told


def tell_moved(
    connection: sqlite3.Connection, sealer: Sealer, moved: StageMoved, before: str, *,
    at: datetime, event: int,
) -> set[str]:  # fmt: skip
    """Have the others told that one of staff moved an order. The desk's page shows it by itself."""
    by = staff.member(connection, moved.by)
    if by is None:
        return set()
    values: dict[str, Value] = {
        "number": NumberValue(number=moved.number),
        "stage": TextKey(key=f"stage.{moved.stage}"),
        "by": Free(text=by.name),
    }
    say = Say(to="desk", lines=(Line(key="desk.moved", values=values),), number=moved.number)
    stages = {before, moved.stage}
    return _tell_elsewhere(connection, sealer, say, at, event, stages, by.address)


def tell_unreachable(
    connection: sqlite3.Connection, sealer: Sealer, person: str, *, at: datetime, event: int,
    number: str | None = None,
) -> set[str]:  # fmt: skip
    """Nothing reaches the person any more: have the desk told, the first time, with how else."""
    if not people.lose(connection, person):
        return set()
    number = number or _open_order(connection, person)
    known = staff.of_address(connection, person)
    who = known.name if known else people.contact_of(connection, sealer, person) or person
    values: dict[str, Value] = {"person": Free(text=who)}
    key = UNREACHABLE
    if number is not None:
        values["number"] = NumberValue(number=number)
        key = UNREACHABLE_ORDER
    say = Say(to="desk", lines=(Line(key=key, values=values),), number=number)
    # How to reach somebody is not for the bench, whatever stage the order is at.
    return tell(connection, sealer, say, at=at, event=event, stages=(), but=person)


def _open_order(connection: sqlite3.Connection, person: str) -> str | None:
    """The newest order of the person that still goes on."""
    views = reversed(orders.orders_of(connection, person))
    return next((view.number for view in views if view.stage not in _CLOSED), None)
