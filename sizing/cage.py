"""The one function that joins everything: from a request to the design of one cage."""

from __future__ import annotations

from dataclasses import dataclass
from enum import StrEnum
from fractions import Fraction
from typing import TYPE_CHECKING

from sizing.accepted import WORKSHOP_DEFAULT, Assumed
from sizing.alternatives import would_work
from sizing.chances import second_readings
from sizing.draft import Verdict, draft
from sizing.fabrication.wires import wire_row
from sizing.materials import sheet
from sizing.measures import Floor, GapName, LidKind, Measure
from sizing.plausibility.findings import Finding, Severity
from sizing.plausibility.relations import doubts
from sizing.standards import nearest_kinds
from sizing.workshop import default_figures

if TYPE_CHECKING:
    from collections.abc import Iterator

    from sizing.alternatives import WouldWork
    from sizing.draft import Draft
    from sizing.fabrication.wires import WireRow
    from sizing.fit import Cage, Gap
    from sizing.lids import Lid
    from sizing.measures import Request
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
    """`count` equal panels `panel` (`face` or `floor`), each wired as `row` says [mm]."""

    panel: str
    count: int
    row: WireRow


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
    lid: Lid
    gaps: tuple[Gap, ...]
    fit: Fit
    frame_kind: Nearest
    findings: tuple[Finding, ...]
    open: tuple[str, ...]
    assumed: tuple[Assumed, ...]
    cautions: tuple[Caution, ...]
    would_work: tuple[WouldWork, ...]
    weight_g: Fraction | None = None
    price: Fraction | None = None


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
    return Design(
        verdict=found.verdict,
        workshop_version=table.version,
        cage=found.cage,
        wire=_wire(found, table),
        lid=found.lid,
        gaps=found.gaps,
        fit=_fit(found, table),
        frame_kind=nearest_kinds(
            frame.side_to_side.value, frame.top_to_bottom.value, frame.lug_to_lug.value
        )[0],
        findings=(*doubts(request), *_too_few_out(found)),
        open=found.open,
        assumed=(*_left_to_us(request), *found.assumed),
        cautions=tuple(_cautions(request, found, table)),
        would_work=would_work(request, found, table),
    )


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
    row = wire_row(found.cage.length_inside, figures.wire_diameter, found.band)
    panels = [Panel("face", 2, row)]
    if found.cage.floor is Floor.WIRED:
        panels.append(Panel("floor", 1, row))
    return Wire(found.band.limit, figures.wire_diameter, tuple(panels))


def _left_to_us(request: Request) -> Iterator[Assumed]:
    for name in request.left_to_us:
        value = getattr(request, name)
        as_value = Fraction(value) if isinstance(value, int) else str(value)
        yield Assumed(name, as_value, WORKSHOP_DEFAULT)


def _too_few_out(found: Draft) -> Iterator[Finding]:
    given, least = found.lengths.frames_out, found.across.least
    if given is not None and least is not None and given < least:
        yield Finding(
            "frames-out-too-few",
            Severity.NOTE,
            (Measure.FRAMES_OUT,),
            Fraction(given),
            (Fraction(least), None),
            "workshop-judgement",
        )


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
