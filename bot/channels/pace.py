"""How fast one visitor may write: so many messages in any minute, no more."""

from __future__ import annotations

from collections import OrderedDict, deque
from datetime import datetime, timedelta

__all__ = ["Pace"]

REMEMBERED = 10_000
"""So many visitors are counted at once; the one silent for longest is forgotten first."""


class Pace:
    """Counts the messages of each visitor over the last minute."""

    def __init__(self, most: int = 20, within: timedelta = timedelta(minutes=1)) -> None:
        self.most = most
        self.within = within
        self._taken: OrderedDict[str, deque[datetime]] = OrderedDict()

    def wait(self, visitor: str, now: datetime) -> int:
        """Count one message of `visitor`: 0 if it may pass, else the seconds to wait [s]."""
        taken = self._taken.setdefault(visitor, deque())
        self._taken.move_to_end(visitor)
        while taken and not now - self.within < taken[0] <= now:
            taken.popleft()
        if len(taken) >= self.most:
            return max(1, round((taken[0] + self.within - now).total_seconds()))
        taken.append(now)
        if len(self._taken) > REMEMBERED:
            self._taken.popitem(last=False)
        return 0
