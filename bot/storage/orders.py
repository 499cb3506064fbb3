"""Orders with their versions, cages and findings: `orders`, `versions`, `cages`, `findings`."""

from __future__ import annotations

import json
import sqlite3
from collections.abc import Sequence
from dataclasses import dataclass
from datetime import datetime
from typing import Any

from bot.storage.audit import stages_of
from bot.storage.errors import InconsistentError
from bot.storage.people import contact_of
from bot.storage.sealing import Sealer
from bot.storage.times import moment, stamp
from conversations.context import OrderView
from conversations.effects import OrderVersion, StageMoved

__all__ = [
    "DesignedCage", "add_version", "listed", "move", "orders_of", "owner_of", "shown", "stage_of",
]  # fmt: skip

STOPPED = (
    "(EXISTS (SELECT 1 FROM findings AS f WHERE f.severity = 'stop'"
    " AND f.number = orders.number AND f.version = orders.version)"
    " OR EXISTS (SELECT 1 FROM cages AS c WHERE c.design_json ->> '$.verdict' = 'cannot'"
    " AND c.number = orders.number AND c.version = orders.version))"
)
"""Whether something stands against the newest version of an order."""


@dataclass(frozen=True, slots=True)
class DesignedCage:
    """A cage with the request it answers, both in the form of the contract."""

    item: int
    label: str
    pieces: int
    request: dict[str, Any]
    design: dict[str, Any]


def orders_of(connection: sqlite3.Connection, person: str) -> tuple[OrderView, ...]:
    """The person's orders, oldest first."""
    rows = connection.execute(
        f"SELECT number, version, stage, stage_since, {STOPPED} AS stopped"  # noqa: S608 - ours
        " FROM orders WHERE person = ? ORDER BY handed_in_at, rowid",
        [person],
    )
    return tuple(
        OrderView(
            number=row["number"],
            version=row["version"],
            stage=row["stage"],
            since=moment(row["stage_since"]),
            stopped=bool(row["stopped"]),
        )
        for row in rows
    )


def owner_of(connection: sqlite3.Connection, number: str) -> str | None:
    """Whose order it is; None where there is no such order."""
    row = connection.execute("SELECT person FROM orders WHERE number = ?", [number]).fetchone()
    return None if row is None else str(row["person"])


def stage_of(connection: sqlite3.Connection, number: str) -> str:
    """Where the order stands; raises `InconsistentError` where there is no such order."""
    row = connection.execute("SELECT stage FROM orders WHERE number = ?", [number]).fetchone()
    if row is None:
        raise InconsistentError("no-such-order", number)
    return str(row["stage"])


def add_version(
    connection: sqlite3.Connection,
    person: str,
    made: OrderVersion,
    cages: Sequence[DesignedCage],
    at: datetime,
) -> None:
    """Keep a new version of an order, the first one with the order itself.

    Raises `InconsistentError` where the versions would not follow one another.
    """
    _to_version(connection, person, made, at)
    connection.execute(
        "INSERT INTO versions (number, version, made_at, by, reason) VALUES (?, ?, ?, ?, ?)",
        [made.number, made.version, stamp(at), made.by, made.reason],
    )
    for cage in cages:
        connection.execute(
            "INSERT INTO cages (number, version, item, label, pieces, request_json, design_json,"
            " workshop_version) VALUES (?, ?, ?, ?, ?, ?, ?, ?)",
            [
                made.number, made.version, cage.item, cage.label, cage.pieces,
                _compact(cage.request), _compact(cage.design), cage.design["workshop_version"],
            ],
        )  # fmt: skip
        _keep_findings(connection, made, cage)


def _to_version(
    connection: sqlite3.Connection, person: str, made: OrderVersion, at: datetime
) -> None:
    today = connection.execute(
        "SELECT version, person FROM orders WHERE number = ?", [made.number]
    ).fetchone()
    if (0 if today is None else today["version"]) != made.version - 1:
        raise InconsistentError("version-does-not-follow", made.number)
    if today is None:
        connection.execute(
            "INSERT INTO orders (number, version, stage, person, handed_in_at, stage_since)"
            " VALUES (?, ?, ?, ?, ?, ?)",
            [made.number, made.version, made.stage, person, stamp(at), stamp(at)],
        )
        return
    if today["person"] != person:
        raise InconsistentError("order-of-another", made.number)
    connection.execute(
        "UPDATE orders SET version = :version, stage = :stage,"
        " stage_since = iif(stage = :stage, stage_since, :at) WHERE number = :number",
        {"version": made.version, "stage": made.stage, "at": stamp(at), "number": made.number},
    )


def _keep_findings(connection: sqlite3.Connection, made: OrderVersion, cage: DesignedCage) -> None:
    for finding in cage.design["findings"]:
        low, high = finding["expected"]
        connection.execute(
            "INSERT INTO findings (number, version, item, code, severity, measures, seen,"
            " expected_low, expected_high, source, weights)"
            " VALUES (?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?)",
            [
                made.number, made.version, cage.item, finding["code"], finding["severity"],
                _compact(finding["measures"]), finding["seen"], low, high, finding["source"],
                _compact(finding["weights"]) if "weights" in finding else None,
            ],
        )  # fmt: skip


def move(connection: sqlite3.Connection, moved: StageMoved, at: datetime) -> None:
    """The order came to another stage; `InconsistentError` for an older version."""
    changed = connection.execute(
        "UPDATE orders SET stage = ?, stage_since = ? WHERE number = ? AND version = ?",
        [moved.stage, stamp(at), moved.number, moved.version],
    ).rowcount
    if changed == 0:
        raise InconsistentError("not-the-newest-version", moved.number)


def listed(connection: sqlite3.Connection, stage: str | None = None) -> list[dict[str, Any]]:
    """Today's state of all orders, or of those at one stage, newest first."""
    rows = connection.execute(
        "SELECT number, version, stage, person, handed_in_at FROM orders"
        " WHERE :stage IS NULL OR stage = :stage ORDER BY handed_in_at DESC, rowid DESC",
        {"stage": stage},
    )
    return [dict(row) for row in rows]


def shown(connection: sqlite3.Connection, sealer: Sealer, number: str) -> dict[str, Any] | None:
    """All of one order in its newest version, in the form of the contract; None: no such order."""
    order = connection.execute(
        "SELECT number, version, stage, person, handed_in_at FROM orders WHERE number = ?",
        [number],
    ).fetchone()
    if order is None:
        return None
    newest = [number, order["version"]]
    cages = connection.execute(
        "SELECT item, label, pieces, request_json, design_json FROM cages"
        " WHERE number = ? AND version = ? ORDER BY item",
        newest,
    )
    return {
        "number": order["number"],
        "version": order["version"],
        "stage": order["stage"],
        "person": order["person"],
        "contact": contact_of(connection, sealer, order["person"]),
        "handed_in_at": order["handed_in_at"],
        "cages": [
            {
                "item": row["item"],
                "label": row["label"],
                "pieces": row["pieces"],
                "request": json.loads(row["request_json"]),
                "design": json.loads(row["design_json"]),
            }
            for row in cages
        ],
        "findings": _findings(connection, newest),
        "stages": stages_of(connection, number),
    }


def _findings(connection: sqlite3.Connection, newest: list[Any]) -> list[dict[str, Any]]:
    rows = connection.execute(
        "SELECT item, code, severity, measures, seen, expected_low, expected_high, source,"
        " weights FROM findings WHERE number = ? AND version = ? ORDER BY id",
        newest,
    )
    return [
        {
            "item": row["item"],
            "code": row["code"],
            "severity": row["severity"],
            "measures": json.loads(row["measures"]),
            "seen": row["seen"],
            "expected": [row["expected_low"], row["expected_high"]],
            "source": row["source"],
            **({} if row["weights"] is None else {"weights": json.loads(row["weights"])}),
        }
        for row in rows
    ]


def _compact(value: Any) -> str:
    return json.dumps(value, ensure_ascii=False, separators=(",", ":"))
