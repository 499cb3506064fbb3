"""`cagewright orders`: what the workshop has, as a table for people or JSON for programs."""

from __future__ import annotations

import json
import sys
from pathlib import Path
from typing import Any

from bot.commands.trouble import trouble
from bot.settings import SettingsError, load_settings
from bot.storage import orders
from bot.storage.database import Database, open_read_only
from bot.storage.errors import StorageError
from conversations import reference
from conversations.review import Stage

__all__ = ["list_orders", "show_order"]

DONE, NO, UNUSABLE = 0, 1, 2


def list_orders(*, stage: str | None, as_json: bool, database: Path | None = None) -> int:
    """Print today's state of all orders, or of those at one stage; the exit code."""
    if stage is not None and stage not in frozenset(Stage):
        return _unusable("stage", f"one of {', '.join(Stage)}")
    opened = _open(database)
    if opened is None:
        return UNUSABLE
    try:
        with opened.reading() as connection:
            rows = orders.listed(connection, stage)
    finally:
        opened.close()
    if as_json:
        _print_json(rows)
    else:
        _print_table(rows)
    return DONE


def show_order(number: str, *, as_json: bool, database: Path | None = None) -> int:
    """Print all of one order; the exit code."""
    if not reference.is_valid(number):
        return _unusable("number", "the 8 digits of an order, like 482 917 42")
    opened = _open(database)
    if opened is None:
        return UNUSABLE
    try:
        with opened.reading() as connection:
            order = orders.shown(connection, opened.sealer, reference.compact(number))
    finally:
        opened.close()
    if order is None and as_json:
        _print_json({"refused": "no-such-order", "number": reference.compact(number)})
        return NO
    if order is None:
        print(f"There is no order {reference.format(number)}.")
        return NO
    if as_json:
        _print_json(order)
    else:
        _print_order(order)
    return DONE


def _open(path: Path | None) -> Database | None:
    """The database, or None after a line on stderr that says what would do."""
    try:
        settings = load_settings(database=path)
        return open_read_only(settings.database, settings.key_file)
    except (SettingsError, StorageError) as error:
        print(trouble(error), file=sys.stderr)
        return None


def _unusable(field: str, would_do: str) -> int:
    print(f"{field}: {would_do}", file=sys.stderr)
    return UNUSABLE


def _print_json(value: Any) -> None:
    print(json.dumps(value, ensure_ascii=False, indent=2))


def _print_table(rows: list[dict[str, Any]]) -> None:
    from rich.console import Console
    from rich.table import Table

    table = Table("number", "version", "stage", "person", "handed in")
    for row in rows:
        table.add_row(
            reference.format(row["number"]),
            str(row["version"]),
            row["stage"],
            row["person"],
            _minute(row["handed_in_at"]),
        )
    Console().print(table)


def _print_order(order: dict[str, Any]) -> None:
    from rich.console import Console
    from rich.table import Table

    console = Console(highlight=False, markup=False)
    number = reference.format(order["number"])
    console.print(f"{number}, version {order['version']}: {order['stage']}")
    console.print(f"person: {order['person']}, contact: {order['contact'] or 'not given'}")
    for cage in order["cages"]:
        console.print(_cage_line(cage))
    for finding in order["findings"]:
        measures = ", ".join(finding["measures"])
        console.print(f"{finding['severity']}: {finding['code']} ({measures})")
    stages = Table("stage", "since", "by", "version")
    for stage in order["stages"]:
        stages.add_row(stage["stage"], _minute(stage["at"]), stage["by"], str(stage["version"]))
    console.print(stages)


def _cage_line(cage: dict[str, Any]) -> str:
    design, sizes = cage["design"], cage["design"]["cage"]
    named = f" {cage['label']}" if cage["label"] else ""
    size = " × ".join(
        "open" if sizes[name] is None else f"{sizes[name]:g}"
        for name in ("length_outside", "height_overall", "depth_outside")
    )
    return (
        f"cage {cage['item']}{named}: {cage['pieces']} to {cage['request']['purpose']}, "
        f"outside {size} mm, lid {design['lid']['kind']}, verdict {design['verdict']}"
    )


def _minute(at: str) -> str:
    return at[:16].replace("T", " ")
