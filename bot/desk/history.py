"""What a person's earlier orders say about this one: the same frame but for one length."""

from __future__ import annotations

import json
from collections.abc import Mapping
from fractions import Fraction
from sqlite3 import Connection
from typing import Any

from bot.contract import finding_to_json
from sizing.measures import Measure
from sizing.plausibility.customs import differs_from_before

__all__ = ["remarks_on"]


def remarks_on(connection: Connection, order: Mapping[str, Any]) -> tuple[dict[str, Any], ...]:
    """Remarks on `order` (as the contract shows it), in the form of findings: that of the newest
    earlier order, handed in before this one, that gives any."""
    rows = connection.execute(
        "SELECT cages.request_json FROM orders JOIN cages"
        " ON cages.number = orders.number AND cages.version = orders.version"
        " WHERE orders.person = ? AND orders.handed_in_at < ?"
        " ORDER BY orders.handed_in_at DESC, cages.item",
        [order["person"], order["handed_in_at"]],
    ).fetchall()
    now = [_lengths(cage["request"]) for cage in order["cages"]]
    for row in rows:
        earlier = _lengths(json.loads(row["request_json"]))
        found = [one for lengths in now for one in differs_from_before(lengths, earlier)]
        if found:
            return tuple(finding_to_json(one) for one in found)
    return ()


def _lengths(request: Mapping[str, Any]) -> dict[Measure, Fraction]:
    """The lengths of a stored request [mm]; several readings count as their mean."""
    found = {}
    for part in ("frame", "hive"):
        for name, value in request.get(part, {}).items():
            readings = value["readings"] if isinstance(value, dict) else [value]
            if name in set(Measure) and None not in readings:
                exact = [Fraction(str(reading)) for reading in readings]
                found[Measure(name)] = sum(exact, Fraction(0)) / len(exact)
    return found
