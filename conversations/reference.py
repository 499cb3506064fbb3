"""Order numbers: six digits and two check digits (ISO/IEC 7064, MOD 97-10), shown 3-3-2.

The check catches every single wrong digit and every swap of neighbours. Eight ASCII digits
first, then the check: the general check also takes letters and other lengths.
"""

from __future__ import annotations

import re

from stdnum.iso7064 import mod_97_10

__all__ = ["compact", "complete", "format", "is_valid"]

_SHAPE = re.compile(r"[1-9][0-9]{7}")
_BETWEEN = re.compile(r"[\s.\-\u00a0\u2009\u202f\u2010-\u2013]+")


def compact(text: str) -> str:
    """`text` without the spaces, dots and hyphens people put between the digits."""
    return _BETWEEN.sub("", text.strip())


def is_valid(text: str) -> bool:
    """Whether `text` is an order number: eight digits of which the last two check the rest."""
    number = compact(text)
    return bool(_SHAPE.fullmatch(number)) and bool(mod_97_10.is_valid(number))


def complete(payload: int) -> str | None:
    """The order number for six digits, 100000 to 999999; None where a digit stands three
    times running, which is hard to read out."""
    if not 100_000 <= payload <= 999_999:
        raise ValueError(f"an order number starts from six digits, not {payload}")
    number = f"{payload}{mod_97_10.calc_check_digits(str(payload))}"
    return None if re.search(r"(\d)\1\1", number) else number


def format(number: str) -> str:  # noqa: A001 - the verb its siblings use
    """`number` as people read it: 482 917 42, with spaces that do not break."""
    digits = compact(number)
    return f"{digits[:3]}\u00a0{digits[3:6]}\u00a0{digits[6:]}"
