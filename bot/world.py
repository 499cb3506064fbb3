"""The clock and the chance of the real world, and those that a script sets."""

from __future__ import annotations

import random
import secrets
from datetime import UTC, datetime, timedelta

__all__ = ["SeededChance", "SetClock", "SystemChance", "SystemClock"]


class SystemClock:
    """The machine's own clock."""

    def now(self) -> datetime:
        """This moment, UTC."""
        return datetime.now(UTC)


class SetClock:
    """Stands still until it is moved."""

    def __init__(self, start: datetime) -> None:
        self._now = start.astimezone(UTC)

    def now(self) -> datetime:
        """The moment it was set to, UTC."""
        return self._now

    def advance(self, by: timedelta) -> None:
        """Go on by this much."""
        self._now += by

    def set(self, moment: datetime) -> None:
        """Go to this moment, back too."""
        self._now = moment.astimezone(UTC)


class SystemChance:
    """What nobody can foresee."""

    def payload(self) -> int:
        """Six digits for an order number."""
        return 100_000 + secrets.randbelow(900_000)


class SeededChance:
    """The same for the same seed, so that a script gives the same output twice."""

    def __init__(self, seed: int) -> None:
        self._random = random.Random(seed)  # noqa: S311 - foreseeable on purpose; order numbers are no secret

    def payload(self) -> int:
        """Six digits for an order number."""
        return self._random.randrange(100_000, 1_000_000)
