"""An order as the papers need it."""

from __future__ import annotations

import json
from collections.abc import Mapping
from dataclasses import dataclass
from datetime import date
from typing import Any

from bot.contract import request_from_json
from bot.contract.kept import kept_design
from bot.storage import orders, people
from bot.storage.database import Database
from bot.storage.times import moment
from conversations.review import Stage
from sizing.cage import Design, design_cage
from sizing.measures import Request
from sizing.workshop import Figures

__all__ = ["PaperCage", "PaperOrder", "read"]


@dataclass(frozen=True, slots=True)
class PaperCage:
    """One kind of cage of an order, with the design that was kept for it."""

    item: int
    label: str
    pieces: int
    request: Request
    design: Design

    @staticmethod
    def sized(request: Request, figures: Figures, *, item: int = 1, label: str = "") -> PaperCage:
        """A cage that is sized with these figures now."""
        return PaperCage(item, label, request.pieces, request, design_cage(request, figures))


@dataclass(frozen=True, slots=True)
class PaperOrder:
    """What papers say of an order: its newest version and who did what when.

    `cleared_by` and `cleared` are empty until this version was cleared; `contact` is what the
    person typed.
    """

    number: str
    version: int
    stage: str
    cages: tuple[PaperCage, ...]
    handed_in: date | None = None
    cleared: date | None = None
    cleared_by: str = ""
    contact: str = ""
    language: str = "en"


def read(database: Database, number: str, figures: Figures) -> PaperOrder | None:
    """The order of that number in its newest version; None where there is none."""
    with database.reading() as connection:
        order = orders.shown(connection, database.sealer, number)
        if order is None:
            return None
        language = people.language_of(connection, order["person"])
    cleared = [
        one
        for one in order["stages"]
        if one["stage"] == Stage.CLEARED and one["version"] == order["version"]
    ]
    return PaperOrder(
        number=order["number"],
        version=order["version"],
        stage=order["stage"],
        handed_in=moment(order["handed_in_at"]).date(),
        cages=tuple(_cage(row, figures) for row in order["cages"]),
        contact=order["contact"] or "",
        cleared=moment(cleared[-1]["at"]).date() if cleared else None,
        cleared_by=cleared[-1]["by"] if cleared else "",
        language=language,
    )


def _cage(row: Mapping[str, Any], figures: Figures) -> PaperCage:
    request = request_from_json(json.dumps(row["request"]))
    return PaperCage(
        item=row["item"],
        label=row["label"],
        pieces=row["pieces"],
        request=request,
        design=kept_design(request, row["design"], figures),
    )
