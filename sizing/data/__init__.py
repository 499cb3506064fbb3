"""The figures of the workshop as data: one TOML file a subject, read once when first used."""

from __future__ import annotations

import tomllib
from decimal import Decimal
from functools import cache
from importlib.resources import files
from typing import Any

__all__ = ["FILES", "table"]

FILES: tuple[str, ...] = (
    "bees.toml", "frames.toml", "gauges.toml", "known.toml", "materials.toml", "mixups.toml",
    "ranges.toml", "sources.toml", "tolerances.toml", "uncertainty.toml", "wood.toml",
    "workshop.toml",
)  # fmt: skip


@cache
def table(file: str) -> dict[str, Any]:
    """The content of one data file, its decimal numbers exact (`Decimal`).

    Not to be changed by the caller: every caller gets the same object.
    Raises `FileNotFoundError` for a file that is not part of the package.
    """
    text = files(__name__).joinpath(file).read_text(encoding="utf-8")
    return tomllib.loads(text, parse_float=Decimal)
