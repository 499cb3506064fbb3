"""What a cage comes to by the workshop's own rules. Off unless the workshop turns it on.

The rules are figures: so much a cage, a metre of wire, a square metre of blanks, a lid of each
kind; less by a share from a number of pieces on; the post once.
"""

from __future__ import annotations

from dataclasses import dataclass
from decimal import ROUND_HALF_UP, Decimal
from fractions import Fraction
from typing import TYPE_CHECKING

from sizing.errors import NotSizedError
from sizing.fabrication.sheet import blanks, wire_length
from sizing.measures import LidKind
from sizing.units import METRE

if TYPE_CHECKING:
    from sizing.fabrication.sized import WiredCage
    from sizing.workshop import Figures

__all__ = ["Price", "price_of"]

_SMALLEST = Decimal("0.01")
_WHOLE = 100


@dataclass(frozen=True, slots=True)
class Price:
    """Amounts of money in `currency` (ISO 4217), to a hundredth.

    `each` is one cage of so many, `cages` all of them, `post` the post for one parcel.
    """

    currency: str
    each: Decimal
    pieces: int
    cages: Decimal
    post: Decimal

    @property
    def total(self) -> Decimal:
        """Cages and post."""
        return self.cages + self.post


def price_of(sized: WiredCage, pieces: int, figures: Figures) -> Price | None:
    """What `pieces` (1 or more) cages come to by the figures `price_…` of the workshop.

    None where the workshop shows no price, has set none, or a size is open.
    Source: own rules of the workshop.
    """
    if not figures.price_shown:
        return None
    try:
        one = _one(sized, figures)
    except NotSizedError:
        return None
    if one <= 0:
        return None
    each = _money(one * (1 - Fraction(_less(pieces, figures), _WHOLE)))
    return Price(
        currency=figures.price_currency,
        each=each,
        pieces=pieces,
        cages=each * pieces,
        post=_money(figures.price_post),
    )


def _one(sized: WiredCage, figures: Figures) -> Fraction:
    wire = wire_length(sized, figures)
    sheet = sum(
        (blank.count * blank.width * blank.height for blank in blanks(sized, figures)), Fraction(0)
    )
    lids = {
        LidKind.END_OPEN: figures.price_lid_end_open,
        LidKind.CLOSED: figures.price_lid_closed,
        LidKind.CLOSED_BETWEEN_WALLS: figures.price_lid_closed_between_walls,
    }
    return (
        figures.price_cage
        + lids[sized.lid.kind]
        + figures.price_wire * wire / METRE
        + figures.price_sheet * sheet / METRE**2
    )


def _less(pieces: int, figures: Figures) -> Fraction:
    """The largest share, in percent, of those whose number of pieces is reached."""
    breaks = (
        (figures.price_some_pieces, figures.price_some_less),
        (figures.price_many_pieces, figures.price_many_less),
    )
    return max((less for least, less in breaks if pieces >= least), default=Fraction(0))


def _money(amount: Fraction) -> Decimal:
    exact = Decimal(amount.numerator) / Decimal(amount.denominator)
    return exact.quantize(_SMALLEST, rounding=ROUND_HALF_UP)
