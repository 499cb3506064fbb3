"""From a cage that was ordered to what is kept of it: the request and the design as JSON."""

from __future__ import annotations

from bot.contract import design_to_json, request_to_json
from bot.storage.orders import DesignedCage
from conversations.effects import Cage
from sizing.cage import design_cage
from sizing.workshop import Figures

__all__ = ["designed"]


def designed(cage: Cage, figures: Figures) -> DesignedCage:
    """The cage, sized with the workshop's figures."""
    return DesignedCage(
        item=cage.item,
        label=cage.label,
        pieces=cage.pieces,
        request=request_to_json(cage.request),
        design=design_to_json(design_cage(cage.request, figures)),
    )
