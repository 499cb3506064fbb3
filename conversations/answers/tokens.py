"""A plain line cut into tokens: numbers, fractions, units, and what words and signs say."""

from __future__ import annotations

import re
from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from enum import StrEnum

from conversations.answers.units import Symbol
from conversations.answers.words import Kind, UnitWord, Vocabulary

__all__ = ["Sign", "Token", "tokens"]


class Sign(StrEnum):
    """What a sign, or a word no list has, says about the answer."""

    NUMBER = "number"
    FRACTION = "fraction"
    UNIT = "unit"
    DASH = "dash"
    SLASH = "slash"
    PLUS = "plus"
    PLUS_MINUS = "plus-minus"
    COMMA = "comma"
    SEMICOLON = "semicolon"
    UNKNOWN = "unknown"


@dataclass(frozen=True, slots=True)
class Token:
    kind: Sign | Kind
    text: str
    unit: UnitWord | None = None


_SHAPE = re.compile(
    r"""
    (?P<fraction>(?<!/)(?<!/[ ])[0-9]+[ ]?/[ ]?[0-9]+(?![.,]?[0-9])(?![ ]?/))
  | (?P<number>[0-9]+(?:[.,][0-9]+|'[0-9]{3}(?![0-9]))*|(?<![0-9])(?<![0-9][ ])[.,][0-9]+)
  | (?P<word>[^\W\d_]+(?:'[^\W\d_]+)*)
  | (?P<sign>[^ ])
    """,
    re.VERBOSE,
)
_SIGNS: dict[str, Sign | Kind] = {
    "-": Sign.DASH,
    "/": Sign.SLASH,
    "+": Sign.PLUS,
    "±": Sign.PLUS_MINUS,
    ",": Sign.COMMA,
    ".": Sign.COMMA,
    ";": Sign.SEMICOLON,
    "~": Kind.HEDGE,
    "<": Kind.HEDGE,
    ">": Kind.HEDGE,
    "*": Kind.BY,
    "&": Kind.AND,
}
_MARKS = {'"': UnitWord(Symbol.IN), "'": UnitWord(Symbol.FT)}
_MEANT = frozenset("\"'%$€£^\\@?{}|°")
"""Signs that say something nobody asked for; other stray ones (brackets, emoji) are ignored."""
_AFTER_NUMBER = frozenset({Sign.NUMBER, Sign.FRACTION, Kind.HALF})


def tokens(text: str, words: Vocabulary) -> tuple[Token, ...]:
    """The tokens of `text`, which is one plain line. Stray signs are left out."""
    pieces = list(_SHAPE.finditer(text))
    found: list[Token] = []
    at = 0
    while at < len(pieces):
        piece = pieces[at]
        after_number = bool(found) and found[-1].kind in _AFTER_NUMBER
        at += 1
        match piece.lastgroup:
            case "word":
                taken, token = _phrase(pieces, at - 1, words)
                if token is not None and (taken > 1 or not after_number):
                    found.append(token)
                    at += taken - 1
                else:
                    found.extend(_word(piece, text, after_number, words, token))
            case "sign":
                found.extend(_sign(piece[0], after_number))
            case kind:
                found.append(Token(Sign(kind or ""), piece[0]))
    return tuple(found)


def _phrase(
    pieces: Sequence[re.Match[str]], at: int, words: Vocabulary
) -> tuple[int, Token | None]:
    """The longest phrase that begins at piece `at`, and how many pieces it takes."""
    for phrase in words.phrases.get(pieces[at][0], ()):
        taken, matched = at, 0
        while taken < len(pieces) and matched < len(phrase.words):
            if pieces[taken][0] == phrase.words[matched]:
                matched += 1
            elif pieces[taken][0] != "-" or not matched:
                break
            taken += 1
        if matched == len(phrase.words):
            return taken - at, Token(phrase.kind, " ".join(phrase.words))
    return 1, None


def _word(
    piece: re.Match[str], text: str, after_number: bool, words: Vocabulary, phrase: Token | None
) -> Iterator[Token]:
    """One word: a unit where it follows a number, else what its list says."""
    word = piece[0]
    if after_number and word in words.units:
        yield Token(Sign.UNIT, word, words.units[word])
        return
    if phrase is not None:
        yield phrase
        return
    # "435mmx300mm": the x sticks to the unit
    glued = piece.end() < len(text) and text[piece.end()].isdigit()
    if after_number and glued and word[-1] in "xх" and word[:-1] in words.units:
        yield Token(Sign.UNIT, word[:-1], words.units[word[:-1]])
        yield Token(Kind.BY, word[-1])
        return
    yield Token(Sign.UNKNOWN, word)


def _sign(sign: str, after_number: bool) -> Iterator[Token]:
    if after_number and sign in _MARKS:
        yield Token(Sign.UNIT, sign, _MARKS[sign])
    elif sign in _SIGNS:
        yield Token(_SIGNS[sign], sign)
    elif sign in _MEANT:
        yield Token(Sign.UNKNOWN, sign)
