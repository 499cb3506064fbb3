"""From what a phone sends to a plain line of text.

Afterwards there are only digits 0-9, single spaces, `"` for inches, `'` for feet, `-` for
every dash, small letters without accents. Fractions and inch marks are expanded before
Unicode compatibility folding: that would turn 14⅛ into 141/8 and ″ into two foot marks.
"""

from __future__ import annotations

import re
import unicodedata
from functools import lru_cache

__all__ = ["normalise", "repair_digits"]

_SIGNS = str.maketrans(
    {
        **dict.fromkeys("″”“„‟〃＂", '"'),
        **dict.fromkeys("′’‘‛´`ʼʹ＇", "'"),
        **dict.fromkeys("‐‑‒–—―−﹣－\u00ad", "-"),
        **dict.fromkeys("×✕✖⨯", "x"),
        **dict.fromkeys("⁄∕／", "/"),
        **dict.fromkeys("≈≃∼～", "~"),
        **dict.fromkeys("≤＜", "<"),
        **dict.fromkeys("≥＞", ">"),
        **dict.fromkeys("٫،、，", ","),
        **dict.fromkeys("٬", "'"),
        **dict.fromkeys("·。", "."),
        **dict.fromkeys("؟？", "?"),
    }
)
_UNACCENTED = str.maketrans({"ł": "l", "ø": "o", "đ": "d", "ı": "i", "æ": "ae", "œ": "oe"})
_LATIN_TWINS = str.maketrans("асеорхумткнві", "aceopxymtkhbi")

_SUPERSCRIPT = re.compile("[⁰¹²³⁴⁵⁶⁷⁸⁹]+")
_SUBSCRIPT = re.compile("[₀₁₂₃₄₅₆₇₈₉]+")
_FOREIGN = re.compile(r"[^\x00-\x7f]")
_SPACES = re.compile(r"[\s\x00-\x1f\x7f]+")
_PLUS_MINUS = re.compile(r"\+ ?/? ?-|- ?/ ?\+")
_WORD = re.compile(r"[^\W\d_]+")
_MISTYPED = re.compile(r"(?<![^\W\d_])[0-9ol]*(?:[0-9][ol]|[ol][0-9])[0-9ol]*(?![^\W\d_])")
_DIGIT_TWINS = str.maketrans("ol", "01")


def normalise(raw: str) -> str:
    """`raw` as one plain line."""
    text = raw
    if not text.isascii():
        text = _spaced_fractions(text).translate(_SIGNS)
        text = _FOREIGN.sub(_plain, text)
        text = unicodedata.normalize("NFKC", text)
    text = text.casefold()
    if not text.isascii():
        decomposed = unicodedata.normalize("NFKD", text)
        text = "".join(mark for mark in decomposed if not unicodedata.combining(mark))
        text = _WORD.sub(_one_script, text.translate(_UNACCENTED))
    text = text.replace("`", "'").replace("''", '"')
    return _PLUS_MINUS.sub("±", _SPACES.sub(" ", text)).strip()


def repair_digits(text: str) -> str:
    """`text` with the letters o and l that stand among digits read as 0 and 1."""
    return _MISTYPED.sub(lambda found: found[0].translate(_DIGIT_TWINS), text)


def _spaced_fractions(text: str) -> str:
    text = _SUPERSCRIPT.sub(_spaced_digits, text)
    return _SUBSCRIPT.sub(_spaced_digits, text)


def _spaced_digits(found: re.Match[str]) -> str:
    return f" {''.join(str(unicodedata.digit(sign)) for sign in found[0])} "


def _plain(found: re.Match[str]) -> str:
    return _plain_sign(found[0])


@lru_cache(maxsize=1024)
def _plain_sign(sign: str) -> str:
    value = unicodedata.decimal(sign, None)
    if value is not None:
        return str(value)
    category = unicodedata.category(sign)
    if category in {"Cf", "Mn", "Me"} and not unicodedata.decomposition(sign):
        # zero-width signs, directions, keycaps; accents that stand alone
        return "" if category != "Mn" or 0xFE00 <= ord(sign) <= 0xFE0F else sign
    if category.startswith("Z"):
        return " "
    if unicodedata.decomposition(sign).startswith("<fraction>"):
        return f" {unicodedata.normalize('NFKC', sign).replace('⁄', '/')} "
    return sign


def _one_script(found: re.Match[str]) -> str:
    """A word in which Latin and Cyrillic letters are mixed, in Latin letters."""
    word = found[0]
    latin = any("a" <= letter <= "z" for letter in word)
    cyrillic = any("а" <= letter <= "ӿ" for letter in word)
    return word.translate(_LATIN_TWINS) if latin and cyrillic else word
