"""What a button carries: a version, the message it stands in, its place there.

Nothing else is believed of what comes back: the message is looked up among those of the person
who tapped, and the place among its choices. At most 64 bytes (Bot API, InlineKeyboardButton).
"""

from __future__ import annotations

import re
from collections.abc import Sequence

from telegram import InlineKeyboardButton, InlineKeyboardMarkup

from bot.ports import Button

__all__ = ["keyboard", "pack", "unpack"]

VERSION = "1"
SHORT = 18
"""Two labels of so many letters stand side by side on a phone."""
_SHAPE = re.compile(rf"{VERSION}:([0-9]{{1,9}}):([0-9]{{1,3}})")


def pack(k: int, place: int) -> str:
    """What the button at `place` of the `k`-th message carries."""
    return f"{VERSION}:{k}:{place}"


def unpack(data: str) -> tuple[int, int] | None:
    """The message and the place, or None for what no button of ours carries."""
    match = _SHAPE.fullmatch(data)
    return (int(match[1]), int(match[2])) if match else None


def keyboard(k: int, buttons: Sequence[Button]) -> InlineKeyboardMarkup | None:
    """The buttons of a message, wide, at most two in a row; None where it has none."""
    rows: list[list[InlineKeyboardButton]] = []
    room = False
    for place, shown in enumerate(buttons):
        made = InlineKeyboardButton(shown.label, callback_data=pack(k, place))
        short = len(shown.label) <= SHORT
        if room and short:
            rows[-1].append(made)
            room = False
        else:
            rows.append([made])
            room = short
    return InlineKeyboardMarkup(rows) if rows else None
