"""Days to count in the beekeeper's calendar. Dates of cage and comb only; no treatment."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import date, timedelta
from typing import TYPE_CHECKING

from sizing.data import table

__all__ = ["Introduction", "brood_break_ends", "comb_changes", "hatches", "introduction"]

if TYPE_CHECKING:
    from typing import Any

_FILE = "bees.toml"


@dataclass(frozen=True, slots=True)
class Introduction:
    """When a queen is let out, the latest day for it, and from when to when to look for eggs."""

    opened: date
    latest: date
    eggs_from: date
    eggs_to: date


def _days(row: dict[str, Any]) -> timedelta:
    return timedelta(days=row["days"])


def _after(start: date, name: str) -> date:
    return start + _days(table(_FILE)["day"][name])


def hatches(caste: str, laid: date) -> date:
    """The day on which an egg laid on `laid` becomes a `queen`, `worker` or `drone`.

    Counted in days [d] after laying; raises `KeyError` for another caste. Late or cool brood
    may take a day longer. Source: `data/bees.toml`, development.
    """
    return laid + _days(table(_FILE)["development"][caste])


def brood_break_ends(caged: date) -> date:
    """The day [d after `caged`] on which all brood outside the cage has hatched, drones too.

    Source: `data/bees.toml`, brood-break.
    """
    return _after(caged, "brood-break")


def comb_changes(caged: date) -> tuple[date, ...]:
    """The days [d after `caged`] on which a trapping comb leaves the cage, the last one included.

    On each but the last a new comb goes in. Source: `data/bees.toml`, comb-step and combs.
    """
    rows = table(_FILE)["day"]
    step = _days(rows["comb-step"])
    return tuple(caged + step * comb for comb in range(1, rows["combs"]["days"] + 1))


def introduction(caged: date) -> Introduction:
    """The days [d after `caged`] of a queen that is introduced.

    Source: `data/bees.toml`, introduction-open, introduction-latest, eggs-from and eggs-to.
    """
    return Introduction(
        opened=_after(caged, "introduction-open"),
        latest=_after(caged, "introduction-latest"),
        eggs_from=_after(caged, "eggs-from"),
        eggs_to=_after(caged, "eggs-to"),
    )
