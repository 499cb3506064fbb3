"""Where figures come from (`data/sources.toml`): title, author, year, how known."""

from __future__ import annotations

from dataclasses import dataclass
from enum import StrEnum
from functools import cache

from sizing.data import table
from sizing.errors import DataError

__all__ = ["HowKnown", "Source", "source", "sources"]

_FILE = "sources.toml"


class HowKnown(StrEnum):
    """How the figures of a source came to us."""

    READ = "read"
    """Seen in the source."""
    QUOTED = "quoted"
    """Seen in a quotation or report of it."""
    TRADE = "trade"
    """Common practice, no published source."""
    OURS = "ours"
    """The workshop's own choice."""


@dataclass(frozen=True, slots=True)
class Source:
    """One source; `year` is None where none is given."""

    id: str
    title: str
    author: str
    year: int | None
    known: HowKnown


@cache
def sources() -> dict[str, Source]:
    """All sources by id. Raises `DataError` for a source that is not whole."""
    found = {}
    for name, row in table(_FILE)["source"].items():
        try:
            found[name] = Source(
                name, row["title"], row["author"], row.get("year"), HowKnown(row["known"])
            )
        except (KeyError, ValueError) as error:
            raise DataError(_FILE, name, "not-whole") from error
    return found


def source(name: str) -> Source:
    """The source with the id `name`; raises `KeyError` where there is none."""
    return sources()[name]
