"""Moments as text: ISO 8601, UTC, milliseconds; so written they sort as text."""

from __future__ import annotations

from datetime import UTC, datetime

__all__ = ["moment", "stamp"]


def stamp(when: datetime) -> str:
    """`when` as it stands in the tables."""
    text = when.astimezone(UTC).isoformat(timespec="milliseconds")
    return text.replace("+00:00", "Z")


def moment(text: str) -> datetime:
    """The moment that `stamp` wrote."""
    return datetime.fromisoformat(text)
