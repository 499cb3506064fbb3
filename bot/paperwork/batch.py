"""Several orders cut from stock together: which bars, strips and sheets, and what comes of them."""

from __future__ import annotations

from collections import Counter, defaultdict
from collections.abc import Callable, Iterator, Sequence
from dataclasses import dataclass
from fractions import Fraction
from typing import TypeAlias

from bot.paperwork.order import PaperOrder
from bot.paperwork.solving import Deadline, HighsSolver
from sizing.errors import NotSizedError, StockTooSmallError
from sizing.fabrication.cuts import Cut, Stock, cuts_of
from sizing.fabrication.nesting.bars import Bar, BarPlan, plan_bars
from sizing.fabrication.nesting.sheets import Sheet, SheetPlan, Wanted, plan_sheets
from sizing.measures import Material
from sizing.units import Mm
from sizing.workshop import Figures

__all__ = ["Batch", "Blank", "FromBars", "FromSheets", "Kind", "plan_batch"]

Tell: TypeAlias = Callable[[int, int, Fraction, Fraction], None]
"""Is told which of how many lots is planned, the best so far and the bound."""


@dataclass(frozen=True, slots=True)
class Kind:
    """What is cut together: one stock of one material, thickness and, for strips, width [mm]."""

    stock: Stock
    material: Material | None
    thickness: Mm
    width: Mm | None = None


@dataclass(frozen=True, slots=True)
class Blank:
    """A blank of an order, by the order's number, the part and its sides [mm]."""

    number: str
    part: str
    width: Mm
    length: Mm
    count: int


@dataclass(frozen=True, slots=True)
class FromBars:
    """Wires or strips of one kind and the bars they come from."""

    kind: Kind
    plan: BarPlan


@dataclass(frozen=True, slots=True)
class FromSheets:
    """Blanks of one kind, numbered as the plan numbers them, and the sheets they come from."""

    kind: Kind
    blanks: tuple[Blank, ...]
    plan: SheetPlan


@dataclass(frozen=True, slots=True)
class Batch:
    """How these orders are cut. `left_out`: cages with an open size, as (number, item).

    `too_big`: kinds of which a piece is larger than the stock, with its sides [mm].
    """

    numbers: tuple[str, ...]
    bars: tuple[FromBars, ...]
    sheets: tuple[FromSheets, ...]
    left_out: tuple[tuple[str, int], ...]
    too_big: tuple[tuple[Kind, tuple[Mm, ...]], ...]


def plan_batch(
    orders: Sequence[PaperOrder], figures: Figures, *, seconds: float, tell: Tell | None = None
) -> Batch:
    """Plan what `orders` are cut from; each lot of stock has its share of `seconds`."""
    cut, left_out = _cuts(orders, figures)
    lots = _lots(cut)
    bars: list[FromBars] = []
    sheets: list[FromSheets] = []
    too_big: list[tuple[Kind, tuple[Mm, ...]]] = []
    for n, (kind, pieces) in enumerate(lots, 1):
        watch = Deadline(seconds / len(lots), _teller(tell, n, len(lots)))
        try:
            if kind.stock is Stock.SHEET:
                sheets.append(_from_sheets(kind, pieces, figures, watch))
            else:
                bars.append(_from_bars(kind, pieces, figures, watch))
        except StockTooSmallError as error:
            too_big.append((kind, error.piece))
    numbers = tuple(order.number for order in orders)
    return Batch(numbers, tuple(bars), tuple(sheets), left_out, tuple(too_big))


def _teller(tell: Tell | None, n: int, of: int) -> Callable[[Fraction, Fraction], None] | None:
    if tell is None:
        return None
    return lambda best, bound: tell(n, of, best, bound)


def _cuts(
    orders: Sequence[PaperOrder], figures: Figures
) -> tuple[list[tuple[str, Cut]], tuple[tuple[str, int], ...]]:
    found: list[tuple[str, Cut]] = []
    open_: list[tuple[str, int]] = []
    for order in orders:
        for cage in order.cages:
            try:
                cuts = cuts_of(cage.design, cage.request.material, cage.pieces, figures)
            except NotSizedError:
                open_.append((order.number, cage.item))
            else:
                found += [(order.number, cut) for cut in cuts]
    return found, tuple(open_)


def _lots(cuts: Sequence[tuple[str, Cut]]) -> list[tuple[Kind, list[tuple[str, Cut]]]]:
    """The pieces by what they are cut from, in an order that does not depend on the orders'."""
    found: dict[Kind, list[tuple[str, Cut]]] = defaultdict(list)
    for number, cut in cuts:
        width = cut.width if cut.stock is Stock.STRIP else None
        found[Kind(cut.stock, cut.material, cut.thickness, width)].append((number, cut))
    return sorted(
        found.items(),
        key=lambda lot: (lot[0].stock, lot[0].material or "", lot[0].thickness, lot[0].width or 0),
    )


def _from_bars(
    kind: Kind, pieces: Sequence[tuple[str, Cut]], figures: Figures, watch: Deadline
) -> FromBars:
    demand: Counter[Mm] = Counter()
    for _, cut in pieces:
        demand[cut.length] += cut.count
    return FromBars(kind, plan_bars(demand, _bar(kind, figures), HighsSolver(watch), watch))


def _bar(kind: Kind, figures: Figures) -> Bar:
    if kind.stock is Stock.STRIP:
        return Bar(figures.edge_bar, figures.edge_kerf)
    coil = figures.wire_from == "coil"
    return Bar(figures.wire_coil if coil else figures.wire_bar, figures.wire_kerf)


def _from_sheets(
    kind: Kind, pieces: Sequence[tuple[str, Cut]], figures: Figures, watch: Deadline
) -> FromSheets:
    blanks = tuple(_blanks(pieces))
    wanted = [Wanted(one.width, one.length, one.count) for one in blanks]
    sheet = Sheet(
        figures.sheet_width, figures.sheet_length, figures.sheet_kerf, figures.sheet_margin
    )
    return FromSheets(kind, blanks, plan_sheets(wanted, sheet, watch))


def _blanks(pieces: Sequence[tuple[str, Cut]]) -> Iterator[Blank]:
    for number, cut in pieces:
        assert cut.width is not None, "a blank has two sides"
        yield Blank(number, str(cut.part), cut.width, cut.length, cut.count)
