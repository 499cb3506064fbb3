"""The orders as the desk sees them from afar: where each stands and what is to be looked at."""

from __future__ import annotations

import json
from dataclasses import dataclass
from datetime import datetime
from typing import Any

from bot.storage import orders
from bot.storage.database import Database
from bot.storage.times import moment
from conversations.review import Stage

__all__ = ["CLOSED", "Row", "closed", "is_open", "queue", "turn_of"]

CLOSED = frozenset({Stage.SETTLED, Stage.TURNED_DOWN, Stage.WITHDRAWN, Stage.WIPED})

_TURNS = {
    Stage.HANDED_IN: "desk", Stage.ON_THE_DESK: "desk", Stage.FIT_TROUBLE: "desk",
    Stage.QUESTION_OUT: "beekeeper", Stage.POSTED: "beekeeper",
    Stage.CLEARED: "bench", Stage.ON_THE_BENCH: "bench", Stage.MADE: "bench",
}  # fmt: skip
_RANKS = {"desk": 0, "bench": 1, "beekeeper": 2, "nobody": 3}
_WORST = {"stop": 0, "check": 1, "note": 2}
_SHOWN = 50


@dataclass(frozen=True, slots=True)
class Row:
    """One order in the queue.

    `turn` is who is to act: `desk`, `bench`, `beekeeper` or `nobody`. `verdict` is that of the
    cage that stands worst, `worst` the code of the gravest finding, `severity` how grave.
    """

    number: str
    version: int
    stage: str
    turn: str
    since: datetime
    pieces: int
    verdict: str
    worst: str | None
    severity: str | None


def turn_of(stage: str) -> str:
    """Who is to act at this stage."""
    return _TURNS.get(Stage(stage), "nobody")


def is_open(stage: str) -> bool:
    """Whether something is still to be done at this stage."""
    return Stage(stage) not in CLOSED


def queue(database: Database) -> list[Row]:
    """The open orders: what waits for the desk first, and what waits longest before the rest."""
    rows = [row for row in _rows(database) if is_open(row.stage)]
    return sorted(rows, key=lambda row: (_RANKS[row.turn], row.since, row.number))


def closed(database: Database) -> list[Row]:
    """The orders that are done with, the newest first, the last fifty."""
    rows = [row for row in _rows(database) if not is_open(row.stage)]
    return sorted(rows, key=lambda row: (row.since, row.number), reverse=True)[:_SHOWN]


def _rows(database: Database) -> list[Row]:
    with database.reading() as connection:
        cages: dict[str, list[dict[str, Any]]] = {}
        for cage in connection.execute(
            "SELECT cages.number, cages.pieces, cages.design_json FROM cages"
            " JOIN orders USING (number, version) ORDER BY cages.number, cages.item"
        ):
            one = {"pieces": cage["pieces"], **json.loads(cage["design_json"])}
            cages.setdefault(cage["number"], []).append(one)
        since = {
            row["number"]: moment(row["stage_since"])
            for row in connection.execute("SELECT number, stage_since FROM orders")
        }
        return [
            _row(order, since[order["number"]], cages[order["number"]])
            for order in orders.listed(connection)
        ]


def _row(order: dict[str, Any], since: datetime, cages: list[dict[str, Any]]) -> Row:
    verdicts = {cage["verdict"] for cage in cages}
    findings = sorted(
        (finding for cage in cages for finding in cage["findings"]),
        key=lambda finding: _WORST[finding["severity"]],
    )
    worst = findings[0] if findings else None
    return Row(
        number=order["number"],
        version=order["version"],
        stage=order["stage"],
        turn=turn_of(order["stage"]),
        since=since,
        pieces=sum(cage["pieces"] for cage in cages),
        verdict=next(one for one in ("cannot", "ask", "make") if one in verdicts),
        worst=worst["code"] if worst else None,
        severity=worst["severity"] if worst else None,
    )
