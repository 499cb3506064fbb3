"""The design as lines a maker can check by hand: every size and every gap with its terms."""

from __future__ import annotations

from fractions import Fraction
from typing import TYPE_CHECKING

from sizing.fit import GapVerdict, Role
from sizing.measures import Ears
from sizing.units import rounded
from sizing.workshop import default_figures

if TYPE_CHECKING:
    from collections.abc import Iterator

    from sizing.cage import Design, Panel
    from sizing.fit import Gap, Term
    from sizing.measures import Length, Request
    from sizing.workshop import Figures

__all__ = ["chain", "explain"]

_CERTAIN = 0.9999


def _mm(value: Fraction | None) -> str:
    if value is None:
        return "?"
    number = rounded(value)
    return f"{number:g}" if number == int(number) else f"{number:.3f}".rstrip("0")


def _joined(terms: list[tuple[Fraction, str]]) -> str:
    """Signed terms as one sum: a leading minus, then ` + ` and ` − ` between them."""
    text = ""
    for factor, name in terms:
        sign = "−" if factor < 0 else "+"
        lead = sign.strip("+") if not text else f" {sign} "
        times = "" if abs(factor) == 1 else f"{_mm(abs(factor))} × "
        text += f"{lead}{times}{name}"
    return text


def _named(term: Term) -> str:
    star = "*" if term.role is Role.CUT else ""
    return f"{term.name}{star} {_mm(term.value)}"


def chain(gap: Gap) -> str:
    """The chain of `gap`, all lengths in mm, like `(inside_along 375 − length_outside* 370) / 2`.

    A star marks a number to which the cage is cut; without it the true length of frame or hive.
    """
    halves = [term for term in gap.terms if term.factor.denominator == 2]
    wholes = [(term.factor, _named(term)) for term in gap.terms if term.factor.denominator == 1]
    if not halves:
        return _joined(wholes)
    sign = Fraction(1 if halves[0].factor > 0 else -1)
    inner = _joined([(2 * sign * term.factor, _named(term)) for term in halves])
    half = (sign, f"({inner}) / 2")
    return _joined([half, *wholes] if gap.terms[0] is halves[0] else [*wholes, half])


def _bounds(bounds: tuple[Fraction | None, Fraction | None], *, beyond: bool) -> str:
    low, high = bounds
    parts = []
    if low is not None:
        parts.append(f"{'>' if beyond else '≥'} {_mm(low)}")
    if high is not None:
        parts.append(f"{'<' if beyond else '≤'} {_mm(high)}")
    return " ".join(parts) or "–"


def _gap(gap: Gap) -> str:
    result = "no limit" if gap.unlimited else _mm(gap.nominal)
    line = (
        f"{gap.gap:<13} {gap.verdict:<6} {chain(gap)} = {result}"
        f"   must {_bounds(gap.must, beyond=gap.beyond)}"
        f"   aim {_bounds(gap.aim, beyond=False)}{_how_sure(gap)}"
    )
    if gap.verdict is GapVerdict.OPEN:
        line += "   missing " + ", ".join(gap.missing)
    return line


def _share(value: float) -> str:
    """A probability without ever rounding it up to certainty."""
    return "> 0.9999" if value > _CERTAIN else f"{value:.4f}"


def _how_sure(gap: Gap) -> str:
    if gap.probability is None:
        return ""
    return f"   95 % {_mm(gap.low)} … {_mm(gap.high)}   must holds {_share(gap.probability)}"


def _fit(design: Design, figures: Figures) -> Iterator[str]:
    fit = design.fit
    if fit.probability is None:
        return
    line = f"all musts     hold with {_share(fit.probability)}"
    line += f", make from {float(figures.make_at):g}, weakest {fit.weakest}"
    if fit.measure_again is not None:
        line += f", measure again {fit.measure_again}"
    yield line


def _value(length: Length | None) -> Fraction | None:
    return None if length is None else length.value


def _sizes(request: Request, design: Design, figures: Figures) -> Iterator[tuple[str, str, str]]:
    """Each size of the cage, how it comes about, and what it is, in mm."""
    cage, frame = design.cage, request.frame
    side, height = frame.side_to_side.value, _mm(frame.top_to_bottom.value)
    wood, comb = _value(frame.widest_wood), _value(frame.comb_thickness)
    under = f"gap_under {_mm(cage.gap_under)} + floor_thickness {_mm(cage.floor_thickness)}"
    over = f"lid_clear {_mm(cage.lid_clear)} + lid_sheet {_mm(figures.lid_sheet)}"
    along = _mm(cage.length_outside - side)
    outside = _mm(cage.length_outside)
    yield "length_outside", f"side_to_side {_mm(side)} + allowance {along}", outside
    sheets = f"2 × end_sheet {_mm(figures.end_sheet)}"
    yield "length_inside", f"length_outside {outside} − {sheets}", _mm(cage.length_inside)
    yield "height_overall", f"top_to_bottom {height} + {under} + {over}", _mm(cage.height_overall)
    hung = f"lug_thickness {_mm(_value(frame.lug_thickness))} − lift {_mm(cage.lift)}"
    drop = _mm(cage.drop_below_ledge)
    yield "drop_below_ledge", f"top_to_bottom {height} − {hung} + {under}", drop
    by_wood = f"widest_wood {_mm(wood)} + 2 × {_mm(figures.wood_clear)}"
    by_comb = f"comb_thickness {_mm(comb)} + 2 × {_mm(figures.comb_clear)}"
    inside = _mm(cage.depth_inside)
    yield "depth_inside", f"the larger of {by_wood} and {by_comb}", inside
    faces = f"2 × face {_mm(figures.face_thickness)}"
    yield "depth_outside", f"depth_inside {inside} + {faces}", _mm(cage.depth_outside)
    guide = f"(depth_inside {inside} − widest_wood {_mm(wood)}) / 2 − {_mm(figures.wood_clear)}"
    yield "guide_each", guide, _mm(cage.guide_each)


def _hanging(design: Design) -> Iterator[str]:
    lid = design.lid
    yield f"{'ear_span':<17} {_mm(design.cage.ear_span)}, {_ears(design)}"
    parts = [f"{lid.kind} ({lid.why})", f"length {_mm(lid.length)}"]
    if lid.end_gap_each is not None:
        parts.append(f"open at each end {_mm(lid.end_gap_each)}, worst {_mm(lid.end_gap_worst)}")
    if lid.notch_over_lug is not None:
        parts.append(f"notch {_mm(lid.notch_width)} wide, {_mm(lid.notch_over_lug)} over the lug")
    yield f"{'lid':<17} {', '.join(parts)}"


def _ears(design: Design) -> str:
    cage = design.cage
    if cage.ears is Ears.UNDER_LUG:
        return f"{cage.ears}, lift {_mm(cage.lift)}"
    return f"{cage.ears}, two tabs of {_mm(cage.ear_width)}"


def _wires(design: Design) -> Iterator[str]:
    wire = design.wire
    limit, diameter = _mm(wire.gap_limit), _mm(wire.diameter)
    for panel in wire.panels:
        row = panel.row
        yield (
            f"{panel.panel:<13} {panel.count} ×    {row.wires} wires: (opening {_mm(row.opening)}"
            f" − {row.wires} × {diameter}) / {row.wires + 1} = {_mm(row.gap)} ≤ {limit}"
            f"   least {row.least_wires} wires, gap {_mm(row.least_gap)}"
        )
        low, high = panel.made
        yield f"{'':<13} gaps made {_mm(low)} … {_mm(high)}{_stays(panel)}"


def _stays(panel: Panel) -> str:
    if panel.stays is None:
        return ""
    word = "stay" if panel.stays.count == 1 else "stays"
    return (
        f"; {panel.stays.count} {word}: {_mm(panel.free_length)} / {panel.stays.count + 1}"
        f" = {_mm(panel.stays.span)} free"
    )


def _told(design: Design) -> Iterator[str]:
    for one in design.assumed:
        value = one.value if isinstance(one.value, str) else _mm(one.value)
        yield f"assumed       {one.measure} {value} ({one.source})"
    if design.body_swing is not None:
        yield f"wood          the hive body is up to {_mm(design.body_swing)} higher damp than dry"
    yield from (f"open          {name}" for name in design.open)
    yield from (f"caution       {caution}" for caution in design.cautions)
    for finding in design.findings:
        usual = _bounds(finding.expected, beyond=False)
        yield f"{finding.severity:<13} {finding.code}: {_mm(finding.seen)}, usual {usual}"
    for way in design.would_work:
        about = [str(way.id)]
        if way.measure is not None:
            about.append(way.measure)
        if way.value is not None:
            about.append(way.value if isinstance(way.value, str) else _mm(way.value))
        if way.probability is not None:
            about.append(f"({_share(way.probability)})")
        yield f"would work    {' '.join(about)}"


def explain(request: Request, design: Design, figures: Figures | None = None) -> str:
    """`design` line by line, all lengths in mm: sizes, gaps, wires, what was assumed.

    `figures` are those it was sized with (default: those in the data).
    """
    table = default_figures() if figures is None else figures
    lines = [f"{design.verdict}: {design.frame_kind.kind.name} is the nearest known frame,"]
    lines[0] += f" {_mm(design.frame_kind.distance)} away; lengths in mm, * = cut to this"
    lines += [f"{name:<17} {how} = {what}" for name, how, what in _sizes(request, design, table)]
    lines += _hanging(design)
    lines += [_gap(gap) for gap in design.gaps]
    lines += _fit(design, table)
    lines += _wires(design)
    lines += _told(design)
    return "\n".join(lines)
