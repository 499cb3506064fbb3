"""The versions of an order: when each was made, by whom and why, and what changed with it."""

from __future__ import annotations

import json
from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from datetime import datetime
from fractions import Fraction
from sqlite3 import Connection
from typing import Any

from bot.storage.times import moment

__all__ = ["Change", "Version", "versions_of"]

_NOT_ANSWERS = frozenset({"measured_with"})
"""Said with the answers and not one of them."""


@dataclass(frozen=True, slots=True)
class Change:
    """An answer that is another one than in the version before; None: there was none."""

    item: int
    question: str
    before: str | None
    after: str | None


@dataclass(frozen=True, slots=True)
class Version:
    """One version of an order. `reason`: `handed-in`, `changed` or `asked-again`."""

    version: int
    at: datetime
    by: str
    reason: str
    changes: tuple[Change, ...]


def versions_of(connection: Connection, number: str) -> tuple[Version, ...]:
    """All versions of the order, the newest first."""
    cages: dict[int, dict[tuple[int, str], str]] = {}
    for row in connection.execute(
        "SELECT version, item, request_json FROM cages WHERE number = ? ORDER BY version, item",
        [number],
    ):
        answers = cages.setdefault(row["version"], {})
        for question, value in _answers(json.loads(row["request_json"], parse_float=str)):
            answers[row["item"], question] = value
    rows = connection.execute(
        "SELECT version, made_at, by, reason FROM versions WHERE number = ? ORDER BY version DESC",
        [number],
    ).fetchall()
    return tuple(
        Version(
            version=row["version"],
            at=moment(row["made_at"]),
            by=row["by"],
            reason=row["reason"],
            changes=_changes(cages.get(row["version"] - 1), cages.get(row["version"], {})),
        )
        for row in rows
    )


def _answers(request: Mapping[str, Any]) -> Iterator[tuple[str, str]]:
    """Each answer of a request under its own name, lengths [mm] as the mean of their readings."""
    for name, value in request.items():
        if name in _NOT_ANSWERS or value is None:
            continue
        if isinstance(value, dict) and "readings" in value:
            readings = [Fraction(str(one)) for one in value["readings"]]
            yield name, str(sum(readings, Fraction(0)) / len(readings))
        elif isinstance(value, dict):
            yield from _answers(value)
        else:
            yield name, str(value)


def _changes(
    before: Mapping[tuple[int, str], str] | None, after: Mapping[tuple[int, str], str]
) -> tuple[Change, ...]:
    if before is None:
        return ()
    names = [*after, *(name for name in before if name not in after)]
    return tuple(
        Change(item, question, before.get((item, question)), after.get((item, question)))
        for item, question in names
        if before.get((item, question)) != after.get((item, question))
    )
