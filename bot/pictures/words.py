"""Words in a picture: from key to lines, and the box they fill."""

from __future__ import annotations

from dataclasses import dataclass
from decimal import ROUND_HALF_UP, Decimal
from fractions import Fraction

from babel.numbers import format_decimal

from bot.pictures.style import BLACK, FONT
from conversations.locale import catalogue

__all__ = ["Block", "Placed", "number", "say", "wrapped"]


@dataclass(frozen=True, slots=True)
class Block:
    """Lines of one size, one under the other."""

    lines: tuple[str, ...]
    size: float

    @property
    def width(self) -> float:
        """Width [px] of the longest line."""
        return max(FONT.width(line, self.size) for line in self.lines)

    @property
    def height(self) -> float:
        """Height [px] of all lines."""
        return FONT.height(self.size) * len(self.lines)


@dataclass(frozen=True, slots=True)
class Placed:
    """A block on the sheet; `x` and `y` [px] are its upper left corner."""

    block: Block
    x: float
    y: float
    colour: str = BLACK
    plate: str | None = None
    centred: bool = True

    @property
    def box(self) -> tuple[float, float, float, float]:
        """Left, top, right, bottom [px]."""
        return self.x, self.y, self.x + self.block.width, self.y + self.block.height


def number(value: Fraction, language: str) -> str:
    """`value` [mm] to a tenth, as the language writes it, without a needless decimal."""
    exact = Decimal(value.numerator) / Decimal(value.denominator)
    tenth = exact.quantize(Decimal("0.1"), rounding=ROUND_HALF_UP)
    return format_decimal(tenth, format="0.#", locale=language)


def say(language: str, key: str | None, length: Fraction | None = None) -> str:
    """The words under `key`, with the length in its place or behind them."""
    size = None if length is None else number(length, language)
    if key is None:
        return "" if size is None else size
    text = catalogue(language).text(key)
    if size is None:
        return text
    return text.format(length=size) if "{length}" in text else f"{text} {size}"


def wrapped(text: str, size: float, room: float) -> Block:
    """`text` broken between words so that no line is wider than `room` [px]."""
    lines: list[str] = []
    for word in text.split():
        if lines and FONT.width(f"{lines[-1]} {word}", size) <= room:
            lines[-1] = f"{lines[-1]} {word}"
        else:
            lines.append(word)
    return Block(tuple(lines), size)
