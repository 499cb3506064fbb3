"""From tokens to what was stated: the amounts, how they are joined, what is said beside them."""

from __future__ import annotations

import re
from collections.abc import Sequence
from dataclasses import dataclass, replace
from enum import IntEnum

from conversations.answers.numbers import Amount, Form, fraction, halved, mixed, number
from conversations.answers.tokens import Sign, Token
from conversations.answers.units import Symbol
from conversations.answers.words import Kind

__all__ = ["Joint", "Statement", "statement"]


class Joint(IntEnum):
    """How two amounts are joined; of several signs between them the greatest counts."""

    SPACE = 0
    COMMA = 1
    SEMICOLON = 2
    BY = 3
    EITHER = 4
    """One or the other, or a sum: never several answers."""
    TOLERANCE = 5


@dataclass(frozen=True, slots=True)
class Statement:
    amounts: tuple[Amount, ...]
    joints: tuple[Joint, ...]
    """Between the amounts: one fewer."""
    said: frozenset[Kind]
    unknown: bool
    """Words or signs nobody can place stand beside the amounts."""
    counted: bool
    """Frames or pieces follow a number directly."""


_JOINTS: dict[Sign | Kind, Joint] = {
    Sign.COMMA: Joint.COMMA,
    Sign.SEMICOLON: Joint.SEMICOLON,
    Kind.BY: Joint.BY,
    Kind.OR: Joint.EITHER,
    Sign.DASH: Joint.EITHER,
    Sign.SLASH: Joint.EITHER,
    Sign.PLUS: Joint.EITHER,
    Sign.PLUS_MINUS: Joint.TOLERANCE,
}
_NUMBERS = frozenset({Sign.NUMBER, Sign.FRACTION})
_BEFORE_FRACTION = frozenset({Sign.DASH, Kind.AND})
_PART_OF = {
    Symbol.M: (Symbol.CM, Symbol.DM, Symbol.MM),
    Symbol.DM: (Symbol.CM, Symbol.MM),
    Symbol.CM: (Symbol.MM,),
    Symbol.FT: (Symbol.IN,),
}
"""What may follow a unit within one length; the first where no unit is typed."""
_LONGEST_FRACTION = 99
_MARKS = re.compile("[.,']")


def statement(tokens: Sequence[Token]) -> Statement:
    """What the tokens state."""
    return _Reader(tokens).read()


class _Reader:
    def __init__(self, tokens: Sequence[Token]) -> None:
        self._tokens = tokens
        self._at = 0
        self._amounts: list[Amount] = []
        self._joints: list[Joint] = []
        self._between: list[Token] = []
        self._said: set[Kind] = set()
        self._unknown = False
        self._counted = False

    def read(self) -> Statement:
        while self._at < len(self._tokens):
            if self._kind() in _NUMBERS:
                self._add(self._amounts_here())
            else:
                self._beside(self._tokens[self._at])
                self._at += 1
        self._left_over()
        return Statement(
            tuple(self._amounts), tuple(self._joints), frozenset(self._said),
            self._unknown, self._counted,
        )  # fmt: skip

    def _kind(self, ahead: int = 0) -> Sign | Kind | None:
        at = self._at + ahead
        return self._tokens[at].kind if at < len(self._tokens) else None

    def _add(self, amounts: Sequence[Amount]) -> None:
        for amount in amounts:
            if self._amounts:
                signs = [_JOINTS[each.kind] for each in self._between if each.kind in _JOINTS]
                # a list within one number ("435,300,25") has no tokens between
                first = amount is amounts[0]
                self._joints.append(max(signs, default=Joint.SPACE) if first else Joint.COMMA)
            else:
                self._unknown |= any(
                    _JOINTS.get(each.kind, Joint.SPACE) >= Joint.BY for each in self._between
                )
                self._hedge_if(Sign.PLUS_MINUS)
            self._amounts.append(amount)
            self._between = []

    def _beside(self, token: Token) -> None:
        if token.kind is Kind.COUNTED and self._amounts and not self._between:
            self._counted = True
        if token.kind is Sign.UNKNOWN or token.kind is Kind.HALF:
            self._unknown = True
        elif isinstance(token.kind, Kind):
            self._said.add(token.kind)
        self._between.append(token)

    def _left_over(self) -> None:
        """Signs after the last amount: "36+" is more than 36, "363-" is anything."""
        if not self._amounts:
            return
        self._hedge_if(Sign.PLUS)
        self._hedge_if(Sign.PLUS_MINUS)
        self._unknown |= any(
            _JOINTS.get(each.kind, Joint.SPACE) >= Joint.BY for each in self._between
        )

    def _hedge_if(self, sign: Sign) -> None:
        if any(each.kind is sign for each in self._between):
            self._said.add(Kind.HEDGE)

    def _amounts_here(self) -> list[Amount]:
        """The amount that begins here, or the amounts of a list without spaces."""
        text = self._tokens[self._at].text
        if self._kind() is Sign.NUMBER and number(text) is None:
            parts = (number(part) for part in _MARKS.split(text))
            found = [part for part in parts if part is not None]
            self._at += 1
            found[-1] = self._with_unit(found[-1])
            return found
        return [self._amount()]

    def _amount(self, within: Symbol | None = None) -> Amount:
        """The amount that begins here; `within`: the larger unit it may be a part of."""
        token = self._tokens[self._at]
        self._at += 1
        if token.kind is Sign.FRACTION:
            return self._with_unit(fraction(token.text), within)
        amount = number(token.text)
        assert amount is not None
        if amount.form is Form.WHOLE:
            amount = self._with_part(amount)
        return self._with_unit(amount, within)

    def _with_part(self, whole: Amount) -> Amount:
        """The whole number with the fraction or the words for a half that follow."""
        if self._kind() is Kind.HALF:
            self._at += 1
            return halved(whole)
        joined = self._kind() in _BEFORE_FRACTION
        if self._kind(int(joined)) is Sign.FRACTION:
            part = fraction(self._tokens[self._at + joined].text)
            assert part.ends is not None
            if max(part.ends) <= _LONGEST_FRACTION:
                self._at += 1 + joined
                return mixed(whole, part)
        return whole

    def _with_unit(self, amount: Amount, within: Symbol | None = None) -> Amount:
        if self._kind() is not Sign.UNIT:
            return amount
        unit = self._tokens[self._at].unit
        assert unit is not None
        self._at += 1
        doubtful = amount.doubtful or unit.unsure
        amount = replace(amount, symbol=unit.symbol, doubtful=doubtful, torn=unit.torn)
        apart = within is not None and unit.symbol not in _PART_OF[within]
        if amount.form is not Form.WHOLE or apart:
            return amount
        return self._with_smaller_unit(amount)

    def _with_smaller_unit(self, upper: Amount) -> Amount:
        """`14 in 1/8`, `14 inches and a half`, `36 cm 3 mm`, `36 cm 3`, `1 ft 5 5/8 in`."""
        start = self._at
        with_part = self._with_part(upper)
        if with_part is not upper and self._kind() is not Sign.UNIT:
            return with_part
        self._at = start + (self._kind_at(start) is Kind.AND)
        if self._kind() in _NUMBERS and upper.symbol in _PART_OF:
            text = self._tokens[self._at].text
            if self._kind() is Sign.FRACTION or number(text) is not None:
                merged = _merged(upper, self._amount(upper.symbol))
                if merged is not None:
                    return merged
        self._at = start
        return upper

    def _kind_at(self, at: int) -> Sign | Kind | None:
        return self._tokens[at].kind if at < len(self._tokens) else None


def _merged(upper: Amount, lower: Amount) -> Amount | None:
    """One length in two units, or None where the second is no part of the first."""
    assert upper.symbol is not None
    parts = _PART_OF[upper.symbol]
    symbol = lower.symbol or parts[0]
    if symbol not in parts or lower.value * symbol.size >= upper.symbol.size:
        return None
    if lower.symbol is None and upper.symbol is not Symbol.FT and lower.form is not Form.WHOLE:
        return None
    echoed = Symbol.CM if upper.symbol is Symbol.CM else symbol
    length = upper.value * upper.symbol.size + lower.value * symbol.size
    return replace(
        lower,
        value=length / echoed.size,
        step=lower.step * symbol.size / echoed.size,
        form=lower.form if upper.symbol is Symbol.FT else Form.DECIMAL,
        text=f"{upper.text} {lower.text}", symbol=echoed, ends=None, splits=(), places=0,
        doubtful=upper.doubtful or lower.doubtful or lower.symbol is None,
        thousands=None,
    )  # fmt: skip
