"""What the machine may know beside the session and the event: the moment, the workshop's
figures, this person's orders, and the next free order number."""

from __future__ import annotations

from dataclasses import dataclass, field
from datetime import datetime

from sizing.workshop import Figures

__all__ = ["Context", "OrderView"]


@dataclass(frozen=True, slots=True)
class OrderView:
    """Today's state of one order of this person."""

    number: str
    version: int
    stage: str
    since: datetime
    """When it came to this stage."""
    stopped: bool = False
    """The cage cannot be made as it stands, or a doubt says stop."""


@dataclass(frozen=True, slots=True)
class Context:
    """What a turn may look at; nothing in it changes during the turn."""

    now: datetime
    figures: Figures
    next_number: str
    orders: tuple[OrderView, ...] = field(default=())
    contact: str | None = None
    """How this person wants to be reached, if that was said before."""

    def order(self, number: str) -> OrderView | None:
        """This person's order of that number, or None."""
        return next((order for order in self.orders if order.number == number), None)
