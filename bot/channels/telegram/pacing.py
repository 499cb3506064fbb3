"""Which messages are taken where somebody writes very fast; the same message is counted once."""

from __future__ import annotations

from collections import OrderedDict
from datetime import datetime

from bot.channels.pace import REMEMBERED, Pace
from conversations.events import Choose, Event

__all__ = ["Pacing"]


class Pacing:
    """Counts by the moment a message was sent: what piled up while we were away is not fast."""

    def __init__(self, pace: Pace) -> None:
        self.most = pace.most
        self._pace = pace
        self._counted: OrderedDict[str, bool] = OrderedDict()
        """Whether each of the latest messages was taken: after a full disk it comes again."""
        self._slowed: OrderedDict[str, None] = OrderedDict()
        """Who was told, and has not been taken from since."""

    def takes(self, event: Event, now: datetime) -> bool:
        """Whether this message is taken."""
        if event.id not in self._counted:
            # A tap carries the moment of the message it stands in.
            at = now if isinstance(event, Choose) else event.at
            self._counted[event.id] = self._pace.wait(event.person, at) == 0
            if len(self._counted) > REMEMBERED:
                self._counted.popitem(last=False)
        taken = self._counted[event.id]
        if taken:
            self._slowed.pop(event.person, None)
        return taken

    def to_be_told(self, person: str) -> bool:
        """Whether to say that it was too fast: once, until something is taken again."""
        if person in self._slowed:
            return False
        self._slowed[person] = None
        if len(self._slowed) > REMEMBERED:
            self._slowed.popitem(last=False)
        return True
