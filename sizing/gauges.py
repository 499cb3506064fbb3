"""Wire by gauge number: what a number means in one series. A bare number means nothing.

14 is 1.63, 2.03 or 2.11 mm, so a number is only taken together with its series.
"""

from __future__ import annotations

from fractions import Fraction
from typing import TYPE_CHECKING

from sizing.data import table

if TYPE_CHECKING:
    from sizing.units import Mm

__all__ = ["gauge"]

_FILE = "gauges.toml"
_PLACES = 10_000


def gauge(name: str) -> Mm | None:
    """Diameter [mm], to a ten-thousandth, of wire called `name`, like `AWG 12` or `SWG 14`.

    None for a name that is not a known series and a number in it.
    Source: AWG by its formula, SWG by its table; constants in `data/gauges.toml`.
    """
    series, _, number = name.partition(" ")
    if not number.isdecimal() or not number.isascii():
        return None
    if series == "AWG":
        return _american(int(number))
    known = table(_FILE)["wire"]["swg"]["diameter"].get(number) if series == "SWG" else None
    return None if known is None else Fraction(known)


def _american(number: int) -> Mm | None:
    row = table(_FILE)["wire"]["awg"]
    if number > row["last"]:
        return None
    steps = Fraction(row["of"] - number, row["steps"])
    exact = float(row["at"]) * float(row["ratio"]) ** float(steps)
    return Fraction(round(exact * _PLACES), _PLACES)
