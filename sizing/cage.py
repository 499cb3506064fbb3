"""The one function that joins everything: from a request to the design of one cage."""

from __future__ import annotations

from dataclasses import dataclass, replace
from enum import StrEnum
from fractions import Fraction
from math import sqrt
from typing import TYPE_CHECKING

from sizing.accepted import WORKSHOP_DEFAULT, Assumed
from sizing.alternatives import would_work
from sizing.bees import Wired, risks
from sizing.chances import second_readings
from sizing.draft import Verdict, draft
from sizing.fabrication.price import price_of
from sizing.fabrication.stays import Press, stays
from sizing.fabrication.weight import cage_mass
from sizing.fabrication.wires import filler_strip, made_gap, wire_row
from sizing.known_frames import is_one_of_them, twins
from sizing.materials import sheet, steel
from sizing.measures import FRAME_LENGTHS, Floor, GapName, LidKind, Measure
from sizing.moisture import body_swing
from sizing.notes import notes
from sizing.plausibility.judging import all_doubts
from sizing.standards import nearest_kinds
from sizing.workshop import default_figures

if TYPE_CHECKING:
    from collections.abc import Iterator

    from sizing.alternatives import WouldWork
    from sizing.bees import Risk
    from sizing.draft import Draft
    from sizing.fabrication.price import Price
    from sizing.fabrication.stays import Stays
    from sizing.fabrication.wires import WireRow
    from sizing.fit import Cage, Gap
    from sizing.known_frames import Likeness
    from sizing.lids import Lid
    from sizing.materials import Sheet
    from sizing.measures import Request
    from sizing.plausibility.findings import Finding
    from sizing.standards import Nearest
    from sizing.units import Mm
    from sizing.workshop import Figures

__all__ = ["Caution", "Design", "Fit", "Panel", "Verdict", "Wire", "design_cage"]


class Caution(StrEnum):
    """Ids of what people must be told with the cage."""

    CUT_EDGES = "cut-edges"
    """Cut edges and wire ends are sharp."""
    ZINC_AND_ACID = "zinc-and-acid"
    """Take the cage out before acid vapour: acids attack the coating."""
    LIFT_OUT = "lift-out"
    """Lift the cage out before this box is set on anything flat: it reaches below its edge."""
    LOOSEN_BEFORE_LIFTING = "loosen-before-lifting"
    """Cage and wall stand so close that bees glue them together."""
    MAKE_ONE_FIRST = "make-one-first"
    """No cage of this kind has been tried: make one before the rest."""


@dataclass(frozen=True, slots=True)
class Panel:
    """`count` equal panels `panel` (`face` or `floor`), each wired as `row` says [mm].

    `made`: least and most a gap can be once wire and jig had their say [mm]. `free_length`: what
    a wire bridges in all [mm], the strips along the edges not taken off; None where a length is
    missing. `stays`: those across the wires; None likewise, or where no stay holds the gap.
    `filler`: strip to be closed so that the gaps come into the band [mm]; usually 0.
    """

    panel: str
    count: int
    row: WireRow
    made: tuple[Mm, Mm]
    free_length: Mm | None
    stays: Stays | None
    filler: Mm


@dataclass(frozen=True, slots=True)
class Wire:
    """The wire of the cage: the most a gap may be and the coated diameter [mm], the panels."""

    gap_limit: Mm
    diameter: Mm
    panels: tuple[Panel, ...]


@dataclass(frozen=True, slots=True)
class Fit:
    """How sure it is that all musts hold; None where a gap that is needed is open.

    `measure_again`: the measure whose second reading gains the most; None where none gains
    enough.
    """

    probability: float | None = None
    weakest: GapName | None = None
    measure_again: Measure | None = None


@dataclass(frozen=True, slots=True)
class Design:
    """The cage for one request, field by field as in the JSON contract; lengths in exact mm."""

    verdict: Verdict
    workshop_version: str
    cage: Cage
    wire: Wire
    sheet: Sheet
    lid: Lid
    gaps: tuple[Gap, ...]
    fit: Fit
    frame_kind: Nearest
    frame_kinds: tuple[Likeness, ...]
    risks: tuple[Risk, ...]
    body_swing: Mm | None
    findings: tuple[Finding, ...]
    open: tuple[str, ...]
    assumed: tuple[Assumed, ...]
    cautions: tuple[Caution, ...]
    would_work: tuple[WouldWork, ...]
    weight_g: Fraction | None = None
    price: Price | None = None


def design_cage(request: Request, figures: Figures | None = None) -> Design:
    """Size one cage for `request` with the workshop's figures (default: those in the data).

    All lengths are exact mm. A length that is missing leaves open what depends on it; the
    verdict is then `ask`, and so it is where the probability that all musts hold is under
    `make_at`. It is `cannot` where a must fails, and `make` otherwise.
    Raises nothing for what can be measured; values are checked where they come in.
    Source: the rules of the workshop; their figures in `data/workshop.toml`.
    """
    table = default_figures() if figures is None else figures
    found = draft(request, table)
    frame = request.frame
    nearest = nearest_kinds(
        frame.side_to_side.value, frame.top_to_bottom.value, frame.lug_to_lug.value
    )[0]
    known = nearest.kind if is_one_of_them(nearest) else None
    wire = _wire(found, table)
    design = Design(
        verdict=found.verdict,
        workshop_version=table.version,
        cage=found.cage,
        wire=wire,
        sheet=sheet(request.material),
        lid=found.lid,
        gaps=found.gaps,
        fit=_fit(found, table),
        frame_kind=nearest,
        frame_kinds=twins(_of_the_frame(found), nearest.kind),
        risks=_risks(request, wire, table),
        body_swing=_body_swing(found),
        findings=(*all_doubts(request), *notes(found, known)),
        open=found.open,
        assumed=(*_left_to_us(request), *found.assumed),
        cautions=tuple(_cautions(request, found, table)),
        would_work=would_work(request, found, table),
    )
    return replace(
        design,
        weight_g=cage_mass(design, design.sheet, table),
        price=price_of(design, request.pieces, table),
    )


def _of_the_frame(found: Draft) -> dict[Measure, Mm]:
    """The lengths of the frame that were given."""
    values = {name: getattr(found.lengths, name, None) for name in FRAME_LENGTHS}
    return {name: value for name, value in values.items() if value is not None}


def _fit(found: Draft, figures: Figures) -> Fit:
    sure = found.chances
    if sure.probability is None:
        return Fit()
    best = next(iter(second_readings(sure).items()), None)
    again = None
    if best is not None and best[1] - sure.probability >= figures.measure_again_gain:
        again = best[0]
    return Fit(sure.probability, sure.weakest, again)


def _wire(found: Draft, figures: Figures) -> Wire:
    cage, diameter, limit = found.cage, figures.wire_diameter, found.band.limit
    row = wire_row(cage.length_inside, diameter, found.band)
    made = made_gap(row.gap, figures.wire_diameter_off, figures.wire_place_off)
    filler = filler_strip(cage.length_inside, diameter, found.band)
    press = Press(figures.thumb_load, steel().elasticity)

    def panel(name: str, count: int, length: Mm | None) -> Panel:
        held = None
        if length is not None:
            held = stays(length, row.gap, diameter, limit, press, figures.wire_free_span)
        return Panel(name, count, row, made, length, held, filler)

    panels = [panel("face", 2, found.lengths.top_to_bottom + cage.gap_under)]
    if cage.floor is Floor.WIRED:
        panels.append(panel("floor", 1, cage.depth_inside))
    return Wire(limit, diameter, tuple(panels))


def _risks(request: Request, wire: Wire, figures: Figures) -> tuple[Risk, ...]:
    gaps = sum(panel.count * (panel.row.wires + 1) for panel in wire.panels)
    # Wire and place vary within their bounds, every value as likely; a gap has two wires.
    spread = sqrt((figures.wire_diameter_off**2 + 2 * figures.wire_place_off**2) / 3)
    return risks(request.purpose, Wired(float(wire.panels[0].row.gap), spread, gaps))


def _body_swing(found: Draft) -> Mm | None:
    """How much higher the hive body is when it is damp [mm]."""
    down, up = found.lengths.ledge_down, found.lengths.ledge_up
    return None if down is None or up is None else body_swing(down + up)


def _left_to_us(request: Request) -> Iterator[Assumed]:
    for name in request.left_to_us:
        value = getattr(request, name)
        as_value = Fraction(value) if isinstance(value, int) else str(value)
        yield Assumed(name, as_value, WORKSHOP_DEFAULT)


def _cautions(request: Request, found: Draft, figures: Figures) -> Iterator[Caution]:
    yield Caution.CUT_EDGES
    if sheet(request.material).hurt_by_acid:
        yield Caution.ZINC_AND_ACID
    down, drop = found.lengths.ledge_down, found.cage.drop_below_ledge
    if down is not None and drop is not None and down < drop:
        yield Caution.LIFT_OUT
    end = found.gap(GapName.HIVE_END)
    if end is not None and end.nominal is not None and end.nominal <= figures.propolis:
        yield Caution.LOOSEN_BEFORE_LIFTING
    if found.hanging.closing is LidKind.CLOSED_BETWEEN_WALLS:
        yield Caution.MAKE_ONE_FIRST
