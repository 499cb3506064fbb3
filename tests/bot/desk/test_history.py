"""Earlier orders of the same person beside this one."""

from __future__ import annotations

import json
from sqlite3 import Row, connect
from typing import Any

import pytest

from bot.desk.history import remarks_on

TABLES = """
CREATE TABLE orders (number TEXT, version INTEGER, person TEXT, handed_in_at TEXT);
CREATE TABLE cages (number TEXT, version INTEGER, item INTEGER, request_json TEXT);
"""


def a_request(height: float, side: Any = 352) -> dict[str, Any]:
    """A frame of no known kind."""
    frame = {"side_to_side": side, "top_to_bottom": height, "lug_to_lug": 383}
    return {"purpose": "isolate", "frame": frame, "hive": {"inside_along": None, "below": "box"}}


def remarks(height: float, *, person: str = "anna", side: Any = 352) -> list[str]:
    """The remarks on an order of today where Anna ordered a frame of 247 twice before."""
    connection = connect(":memory:")
    connection.row_factory = Row
    connection.executescript(TABLES)
    for number, version, at in (("1", 2, "2025-03"), ("2", 1, "2025-05")):
        connection.execute("INSERT INTO orders VALUES (?, ?, 'anna', ?)", [number, version, at])
        connection.execute(
            "INSERT INTO cages VALUES (?, ?, 1, ?)", [number, version, json.dumps(a_request(247))]
        )
    order = {
        "person": person,
        "handed_in_at": "2026-03",
        "cages": [{"request": a_request(height, side)}],
    }
    return [one["code"] for one in remarks_on(connection, order)]


def test_one_other_length_than_before_is_remarked_on_once() -> None:
    """However many orders say the same."""
    assert remarks(274) == ["differs-from-before"]


@pytest.mark.parametrize("height", [247, 249])
def test_the_same_frame_is_not(height: float) -> None:
    """Nor what is as near as two readings are."""
    assert remarks(height) == []


def test_orders_of_others_say_nothing() -> None:
    """Each person has a history of their own."""
    assert remarks(274, person="ben") == []


def test_several_readings_count_as_their_mean() -> None:
    """The form with readings is read like a plain number."""
    assert remarks(247, side={"readings": [350, 380]}) == ["differs-from-before"]
    assert remarks(247, side={"readings": [351, 353]}) == []
