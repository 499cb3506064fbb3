"""How fast we may send: one message a second to a person, about 25 a second in all.

Figures of the Bot API's questions and answers ("Broadcasting to users"); kept a little below.
"""

from __future__ import annotations

from collections import deque
from collections.abc import Callable

__all__ = ["Limiter"]

PER_CHAT = 1.0
"""[s] between two messages to one chat."""
IN_ALL = 25
WINDOW = 1.0
"""[s] in which at most `IN_ALL` go out."""


class Limiter:
    """Says how long to wait before the next message; `clock` [s] only ever goes forward.

    `per_chat` [s] lies between two messages to one chat.
    """

    def __init__(self, clock: Callable[[], float], *, per_chat: float = PER_CHAT) -> None:
        self._clock = clock
        self._per_chat = per_chat
        self._last: dict[int, float] = {}
        self._recent: deque[float] = deque()
        self._paused: dict[int, float] = {}

    def wait(self, chat: int) -> float:
        """[s] until a message may go to this chat; 0 for at once."""
        now = self._clock()
        while self._recent and self._recent[0] <= now - WINDOW:
            self._recent.popleft()
        own = self._last.get(chat, now - self._per_chat) + self._per_chat
        paused = self._paused.get(chat, now)
        full = self._recent[0] + WINDOW if len(self._recent) >= IN_ALL else now
        return max(0.0, own - now, paused - now, full - now)

    def sent(self, chat: int) -> None:
        """A message went to this chat."""
        now = self._clock()
        self._recent.append(now)
        self._last[chat] = now
        if len(self._last) > 10 * IN_ALL:
            self._last = {one: at for one, at in self._last.items() if at > now - self._per_chat}

    def pause(self, chat: int, seconds: float) -> None:
        """The other side asked for a pause in this chat; others go on."""
        self._paused[chat] = self._clock() + seconds
