"""The orders as the desk sees them from afar: what comes first, why, and for how long it waits.

Who had trouble or asked for a person comes first, then answers that came back, then what can be
cleared at a glance, then what has a doubt, then what lacks a measure. No order waits for ever:
from the third working day on it moves up one group a day.
"""

from __future__ import annotations

import json
from dataclasses import dataclass
from datetime import datetime, timedelta
from sqlite3 import Connection
from typing import Any

from bot.storage.audit import STAGE
from bot.storage.database import Database
from bot.storage.people import CONTACT
from bot.storage.times import moment
from conversations.events import DeskVerb
from conversations.review import Role, Stage
from conversations.turns.reviewing import FIRST_NUDGE

__all__ = ["CLOSED", "WHY", "Row", "closed", "is_open", "queue", "turn_of", "working_days"]

CLOSED = frozenset({Stage.SETTLED, Stage.TURNED_DOWN, Stage.WITHDRAWN, Stage.WIPED})

_TURNS = {
    Stage.HANDED_IN: "desk", Stage.ON_THE_DESK: "desk", Stage.FIT_TROUBLE: "desk",
    Stage.QUESTION_OUT: "beekeeper", Stage.POSTED: "beekeeper",
    Stage.CLEARED: "bench", Stage.ON_THE_BENCH: "bench", Stage.MADE: "bench",
}  # fmt: skip
WHY = {
    "fit-trouble": 1, "person-wanted": 1, "answered": 2, "clean": 3, "doubt": 4, "missing": 5,
    "bench": 6, "waiting": 7, "done": 8,
}  # fmt: skip
"""Why an order stands where it stands in the queue, with the rank of each reason."""
_TAKEN = (Stage.ON_THE_DESK, Stage.QUESTION_OUT)
_DESK_RANKS = range(1, 6)
_PATIENCE = 2
"""[working days] from then on an order moves up one rank a day."""
_WORST = {"stop": 0, "check": 1, "note": 2}
_SHOWN = 50
_WEEKEND = 5
_VERBS = ", ".join(f"'{verb.value}'" for verb in DeskVerb)

_ORDERS = f"""
SELECT orders.number, orders.version, stage, stage_since, handed_in_at, promised_for,
  versions.reason,
  (SELECT max(seq) FROM audit WHERE audit.number = orders.number AND what = 'wants-a-person')
    > ifnull((SELECT max(seq) FROM audit
              WHERE audit.number = orders.number AND what IN ({_VERBS})), 0) AS person_wanted,
  (SELECT by FROM audit WHERE audit.number = orders.number AND what = '{STAGE}'
    AND after = '{Stage.ON_THE_DESK}' ORDER BY seq DESC LIMIT 1) AS taken_by,
  people.contact_sealed, people.reachable
FROM orders JOIN versions USING (number, version) JOIN people USING (person)
"""  # noqa: S608 - the names of the verbs are constants of ours


@dataclass(frozen=True, slots=True)
class Row:
    """One order in the queue.

    `turn` is who is to act: `desk`, `bench`, `beekeeper` or `nobody`. `verdict` is that of the
    cage that stands worst, `worst` the code of the gravest finding, `severity` how grave. `why`
    is one of `WHY`, `rank` its place in the queue, after waiting has moved it up. `resting`: the
    beekeeper has been asked, and it is too early to look after it. `taken_by`: who has it on the
    desk. `contact` is None for the bench.
    """

    number: str
    version: int
    stage: str
    turn: str
    since: datetime
    handed_in_at: datetime
    promised_for: str | None
    pieces: int
    verdict: str
    worst: str | None
    severity: str | None
    why: str
    rank: int
    resting: bool
    taken_by: str | None = None
    contact: str | None = None
    reachable: bool = True

    @property
    def moved_up(self) -> bool:
        """Whether it stands higher than its reason alone would put it."""
        return self.rank < WHY[self.why]


def turn_of(stage: str) -> str:
    """Who is to act at this stage."""
    return _TURNS.get(Stage(stage), "nobody")


def is_open(stage: str) -> bool:
    """Whether something is still to be done at this stage."""
    return Stage(stage) not in CLOSED


def working_days(start: datetime, end: datetime) -> int:
    """How many working days began after `start` and not after `end`, Monday to Friday."""
    days = (end.date() - start.date()).days
    ahead = (start.date() + timedelta(days=count) for count in range(1, days + 1))
    return sum(day.weekday() < _WEEKEND for day in ahead)


def queue(database: Database, now: datetime, role: Role = Role.DESK) -> list[Row]:
    """The open orders in the order in which somebody of that role looks at them."""
    first = "bench" if role is Role.BENCH else "desk"
    rows = [row for row in _rows(database, now, role) if is_open(row.stage)]
    return sorted(
        rows,
        key=lambda row: (
            row.turn != first, row.rank, row.promised_for or "9", row.since, row.number,
        ),
    )  # fmt: skip


def closed(database: Database, now: datetime, role: Role = Role.DESK) -> list[Row]:
    """The orders that are done with, the newest first, the last fifty."""
    rows = [row for row in _rows(database, now, role) if not is_open(row.stage)]
    return sorted(rows, key=lambda row: (row.since, row.number), reverse=True)[:_SHOWN]


def _rows(database: Database, now: datetime, role: Role) -> list[Row]:
    with database.reading() as connection:
        cages = _cages(connection)
        orders = connection.execute(_ORDERS).fetchall()
    rows = []
    for order in orders:
        sealed = None if role is Role.BENCH else order["contact_sealed"]
        contact = None if sealed is None else database.sealer.open(sealed, CONTACT)
        rows.append(_row({**order, "contact": contact}, cages[order["number"]], now))
    return rows


def _cages(connection: Connection) -> dict[str, list[dict[str, Any]]]:
    """The cages of each order in its newest version, with their designs."""
    found: dict[str, list[dict[str, Any]]] = {}
    for cage in connection.execute(
        "SELECT cages.number, cages.pieces, cages.design_json FROM cages"
        " JOIN orders USING (number, version) ORDER BY cages.number, cages.item"
    ):
        one = {"pieces": cage["pieces"], **json.loads(cage["design_json"])}
        found.setdefault(cage["number"], []).append(one)
    return found


def _row(order: dict[str, Any], cages: list[dict[str, Any]], now: datetime) -> Row:
    verdicts = {cage["verdict"] for cage in cages}
    verdict = next(one for one in ("cannot", "ask", "make") if one in verdicts)
    findings = sorted(
        (finding for cage in cages for finding in cage["findings"]),
        key=lambda finding: _WORST[finding["severity"]],
    )
    worst = findings[0] if findings else None
    severity = worst["severity"] if worst else None
    lacking = verdict == "ask" and any(cage.get("open") for cage in cages)
    why = _why(order, verdict, severity, lacking=lacking)
    handed_in_at, since = moment(order["handed_in_at"]), moment(order["stage_since"])
    return Row(
        number=order["number"],
        version=order["version"],
        stage=order["stage"],
        turn="desk" if WHY[why] in _DESK_RANKS else turn_of(order["stage"]),
        since=since,
        handed_in_at=handed_in_at,
        promised_for=order["promised_for"],
        pieces=sum(cage["pieces"] for cage in cages),
        verdict=verdict,
        worst=worst["code"] if worst else None,
        severity=severity,
        why=why,
        rank=_rank(why, working_days(handed_in_at, now)),
        taken_by=order["taken_by"] if order["stage"] in _TAKEN else None,
        contact=order["contact"],
        reachable=bool(order["reachable"]),
        resting=why == "waiting" and (order["stage"] == Stage.POSTED or now - since < FIRST_NUDGE),
    )


def _why(order: dict[str, Any], verdict: str, severity: str | None, *, lacking: bool) -> str:
    stage = Stage(order["stage"])
    turn = turn_of(stage)
    if turn == "nobody":
        return "done"
    if stage is Stage.FIT_TROUBLE:
        return "fit-trouble"
    if order["person_wanted"]:
        return "person-wanted"
    if turn != "desk":
        return "bench" if turn == "bench" else "waiting"
    if order["reason"] == "asked-again":
        return "answered"
    if severity in ("stop", "check") or verdict == "cannot":
        return "doubt"
    if lacking:
        return "missing"
    return "clean" if verdict == "make" else "doubt"


def _rank(why: str, days: int) -> int:
    """The rank of the reason, moved up for each working day past our patience."""
    rank = WHY[why]
    if rank not in _DESK_RANKS:
        return rank
    return max(_DESK_RANKS.start, rank - max(0, days - _PATIENCE))
