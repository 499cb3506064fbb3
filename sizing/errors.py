"""The exceptions of the workshop's knowledge, by whose mistake it is.

    SizingError            never raised itself
    ├── RequestError       the caller's: a field of the request cannot be used
    ├── FiguresError       the workshop's: a figure of its own file cannot be used
    ├── NotSizedError      the caller's: parts are wanted of a cage that is not wholly sized
    ├── StockTooSmallError the workshop's: no bar or sheet is as big as a piece to be cut from it
    └── DataError          ours: a data file of this package is not as it must be

A doubt about a measurement is not an exception but a finding
(`sizing.plausibility.findings`); a cage that cannot be made is a verdict
(`sizing.cage`). Errors carry fields; sentences are made elsewhere.
"""

from __future__ import annotations

from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from fractions import Fraction

__all__ = [
    "DataError", "FiguresError", "NotSizedError", "RequestError", "SizingError",
    "StockTooSmallError",
]  # fmt: skip


class SizingError(Exception):
    """Base of all errors of this package; not raised itself."""


class RequestError(SizingError, ValueError):
    """A field of the request cannot be used.

    `field` is the dotted name as in the JSON contract, `seen` what stood there,
    `would_do` an id of what would be accepted (`a-length`, `a-whole-number` …).
    """

    def __init__(self, field: str, seen: object, would_do: str) -> None:
        super().__init__(field, seen, would_do)
        self.field = field
        self.seen = seen
        self.would_do = would_do


class FiguresError(SizingError, ValueError):
    """A figure in the workshop's own file cannot be used.

    `figure` is its dotted name in the file, `seen` what stood there, `would_do` an id of what
    would be accepted (`a-number`, `one-of f m c v`, `4 14 mm` …).
    """

    def __init__(self, figure: str, seen: object, would_do: str) -> None:
        super().__init__(figure, seen, would_do)
        self.figure = figure
        self.seen = seen
        self.would_do = would_do


class NotSizedError(SizingError, ValueError):
    """Parts of a cage are wanted whose `sizes` (names) are open or leave no sheet for a leg."""

    def __init__(self, *sizes: str) -> None:
        super().__init__(*sizes)
        self.sizes = sizes


class StockTooSmallError(SizingError, ValueError):
    """A `piece` is bigger than the `stock` it is to be cut from; both are their sides [mm]."""

    def __init__(self, piece: tuple[Fraction, ...], stock: tuple[Fraction, ...]) -> None:
        super().__init__(piece, stock)
        self.piece = piece
        self.stock = stock


class DataError(SizingError):
    """A data file of this package is not as it must be: `file`, `row`, `reason`."""

    def __init__(self, file: str, row: str, reason: str) -> None:
        super().__init__(file, row, reason)
        self.file = file
        self.row = row
        self.reason = reason
