"""The versions of an order."""

from __future__ import annotations

import json
from typing import Any

from bot.desk.versions import Change, Version, versions_of


def versions(shop: Any, *requests: dict[str, Any]) -> tuple[Version, ...]:
    """An order whose versions were these."""
    shop.send("order")
    ((number,),) = shop.rows("SELECT number FROM orders")
    for version in range(2, len(requests) + 1):
        shop.send(f"version {number} {version}")
    with shop.database.transaction() as connection:
        connection.execute("DROP TRIGGER cages_never_update")
        for version, request in enumerate(requests, 1):
            connection.execute(
                "UPDATE cages SET request_json = ? WHERE version = ?",
                [json.dumps(request), version],
            )
    with shop.database.reading() as connection:
        return versions_of(connection, number)


def test_the_first_version_changes_nothing(shop: Any) -> None:
    """It says when it was made, by whom and why."""
    (first,) = versions(shop, {"purpose": "isolate", "frame": {"side_to_side": 360}})
    assert (first.version, first.by, first.reason) == (1, "beekeeper", "handed-in")
    assert first.at == shop.clock.now()
    assert first.changes == ()


def test_a_later_version_says_what_changed(shop: Any) -> None:
    """Lengths, choices and what was left out; the newest version comes first."""
    newest, _ = versions(
        shop,
        {
            "purpose": "isolate",
            "frame": {"side_to_side": 360, "lug_to_lug": 391},
            "hive": {"below": "box", "ledge_up": None},
            "measured_with": {"tape": "I"},
        },
        {
            "purpose": "isolate",
            "frame": {"side_to_side": 361.5},
            "hive": {"below": "floor", "ledge_up": 17},
            "measured_with": {"tape": "II"},
        },
    )
    assert newest.version == 2
    assert set(newest.changes) == {
        Change(1, "side_to_side", "360", "361.5"),
        Change(1, "lug_to_lug", "391", None),
        Change(1, "below", "box", "floor"),
        Change(1, "ledge_up", None, "17"),
    }


def test_several_readings_count_as_their_mean(shop: Any) -> None:
    """A second reading beside the first is a change by half of their difference."""
    newest, _ = versions(
        shop,
        {"frame": {"side_to_side": {"readings": [360], "step": 1.0}}},
        {"frame": {"side_to_side": {"readings": [360, 361], "step": 1.0}}},
    )
    assert newest.changes == (Change(1, "side_to_side", "360", "721/2"),)
