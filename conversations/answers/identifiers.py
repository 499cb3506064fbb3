"""Digits that are no measurement: telephone and card numbers, order numbers."""

from __future__ import annotations

import re

from conversations.reference import is_valid

__all__ = ["is_order_number", "is_phone_number"]

_RUN = re.compile(r"\+? ?\(?[0-9](?:[ ().-]{0,3}[0-9])*")
_ORDER = re.compile(r"(?<![0-9])(?<![0-9][ -])[0-9]{3}[ .-]?[0-9]{3}[ .-]?[0-9]{2}(?![ -]?[0-9])")
_DIALLED = 8
"""Digits from which on a number with a leading + or 00 was meant to be dialled."""
_UNBROKEN = 7
"""Digits in one piece that no length has."""
_GROUPED = 9
"""Digits in groups that are more than two sizes."""


def is_order_number(line: str) -> bool:
    """Whether eight digits with the right check digits stand in `line`."""
    return any(is_valid(found[0]) for found in _ORDER.finditer(line))


def is_phone_number(line: str) -> bool:
    """Whether `line` holds digits like those of a telephone or a card."""
    return any(_dialled(found[0]) for found in _RUN.finditer(line))


def _dialled(run: str) -> bool:
    digits = re.sub("[^0-9]", "", run)
    if run.startswith("+") or digits.startswith("00"):
        return len(digits) >= _DIALLED
    groups = re.findall("[0-9]+", run)
    if len(groups) == 2 and "." in run and " " not in run:
        return len(groups[0]) >= _UNBROKEN
    return len(digits) >= _GROUPED or max(map(len, groups)) >= _UNBROKEN
