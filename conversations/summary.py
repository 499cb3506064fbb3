"""What the notebook comes to: the request for the workshop, the cage, and the read-back."""

from __future__ import annotations

from fractions import Fraction

from conversations.answers import Unit, written
from conversations.effects import Count, Free, LengthValue, Line, Money, TextKey, Value
from conversations.script import DEFAULTS, QUESTIONS, Kind
from conversations.session import Answer, Notebook
from conversations.steps import Step
from sizing.accepted import Assumed
from sizing.alternatives import Remedy
from sizing.cage import Design, Verdict, design_cage
from sizing.measures import (
    COUNTS,
    Above,
    Below,
    Frame,
    Hive,
    Length,
    LidChoice,
    LidKind,
    Material,
    MeasuredWith,
    Purpose,
    Request,
    Spacer,
    Tape,
)  # fmt: skip
from sizing.workshop import Figures

__all__ = ["design_of", "lid_between_walls", "read_back", "request_of"]

_SHOWN: tuple[Step, ...] = (
    Step.FRAME_NAME, Step.SIDE_TO_SIDE, Step.TOP_TO_BOTTOM, Step.LUG_TO_LUG,
    Step.LUG_THICKNESS, Step.WIDEST_WOOD, Step.COMB_THICKNESS, Step.INSIDE_ALONG,
    Step.LUG_ROOM, Step.LEDGE_DOWN, Step.LEDGE_UP, Step.BELOW, Step.BELOW_SPACE,
    Step.FRAMES_HELD, Step.LUG_WIDTH, Step.ABOVE, Step.ABOVE_SPACE, Step.INSIDE_ACROSS,
    Step.SPACING, Step.FRAMES_OUT, Step.TAPE,
)  # fmt: skip
_TAKEN: tuple[Step, ...] = (Step.SPACER, Step.LID, Step.MATERIAL, Step.PIECES)

_TYPED = 60
"""So much of what was typed is shown beside what was understood."""


def _text(notebook: Notebook, step: Step) -> str | None:
    answer = notebook.answers.get(step)
    return answer.value if answer else None


def _length(notebook: Notebook, step: Step) -> Length | None:
    answer = notebook.answers.get(step)
    if answer is None or answer.value is None:
        return None
    readings = answer.readings or (Fraction(answer.value),)
    return Length(readings, step=answer.step, plus_minus=answer.plus_minus)


def _count(notebook: Notebook, step: Step) -> int | None:
    value = _text(notebook, step)
    return None if value is None else int(Fraction(value))


def request_of(notebook: Notebook) -> Request | None:
    """The request these answers make, or None while purpose, S, H or L is missing."""
    purpose = _text(notebook, Step.PURPOSE)
    side_to_side = _length(notebook, Step.SIDE_TO_SIDE)
    top_to_bottom = _length(notebook, Step.TOP_TO_BOTTOM)
    lug_to_lug = _length(notebook, Step.LUG_TO_LUG)
    if not (purpose and side_to_side and top_to_bottom and lug_to_lug):
        return None
    below, above = _text(notebook, Step.BELOW), _text(notebook, Step.ABOVE)
    spacer = _text(notebook, Step.SPACER)
    return Request(
        purpose=Purpose(purpose),
        frame=Frame(
            side_to_side=side_to_side,
            top_to_bottom=top_to_bottom,
            lug_to_lug=lug_to_lug,
            lug_thickness=_length(notebook, Step.LUG_THICKNESS),
            lug_width=_length(notebook, Step.LUG_WIDTH),
            widest_wood=_length(notebook, Step.WIDEST_WOOD),
            comb_thickness=_length(notebook, Step.COMB_THICKNESS),
        ),
        hive=Hive(
            inside_along=_length(notebook, Step.INSIDE_ALONG),
            lug_room=_length(notebook, Step.LUG_ROOM),
            ledge_down=_length(notebook, Step.LEDGE_DOWN),
            ledge_up=_length(notebook, Step.LEDGE_UP),
            below=Below(below) if below else None,
            below_space=_length(notebook, Step.BELOW_SPACE),
            above=Above(above) if above else None,
            above_space=_length(notebook, Step.ABOVE_SPACE),
            inside_across=_length(notebook, Step.INSIDE_ACROSS),
            spacing=_length(notebook, Step.SPACING),
            spacer=Spacer(spacer) if spacer else None,
            frames_held=_count(notebook, Step.FRAMES_HELD),
            frames_out=_count(notebook, Step.FRAMES_OUT),
        ),
        lid=LidChoice(_text(notebook, Step.LID) or DEFAULTS[Step.LID]),
        material=Material(_text(notebook, Step.MATERIAL) or DEFAULTS[Step.MATERIAL]),
        pieces=_count(notebook, Step.PIECES) or int(DEFAULTS[Step.PIECES]),
        measured_with=MeasuredWith(Tape(_text(notebook, Step.TAPE) or Tape.UNKNOWN)),
    )


def design_of(notebook: Notebook, figures: Figures) -> Design | None:
    """The cage these answers give, or None while it cannot be sized."""
    request = request_of(notebook)
    return None if request is None else design_cage(request, figures)


def lid_between_walls(notebook: Notebook, figures: Figures) -> bool:
    """Whether the lid of this cage goes between the walls, so that more must be known."""
    design = design_of(notebook, figures)
    return design is not None and design.lid.kind is LidKind.CLOSED_BETWEEN_WALLS


# --- the read-back --------------------------------------------------------------------


def read_back(notebook: Notebook, figures: Figures, *, contact: str | None) -> tuple[Line, ...]:
    """The whole notebook as the person checks it: answers, what was taken, what comes of it."""
    design = design_of(notebook, figures)
    purpose = _text(notebook, Step.PURPOSE)
    lines = [Line(key="read_back.head"), Line(key="blank")]
    if purpose:
        lines.append(
            Line(
                key="read_back.purpose",
                values={"purpose": TextKey(key=f"purpose.choice.{purpose}")},
            )
        )
    lines += [
        _answer_line(step, notebook.answers[step]) for step in _SHOWN if step in notebook.answers
    ]
    lines += [
        Line(key="read_back.left_open", values={"title": TextKey(key=f"{step.value}.title")})
        for step in notebook.parked
        if step not in notebook.answers and step is not Step.FRAME_NAME
    ]
    contact = _text(notebook, Step.CONTACT) or contact
    if contact:
        lines.append(Line(key="read_back.contact", values={"contact": Free(text=contact)}))
    lines += [Line(key="blank"), Line(key="read_back.taken")]
    lines += [_taken_line(step, notebook) for step in _TAKEN]
    if design is not None:
        shown_already = {step.value for step in _TAKEN}
        lines += [_assumed_line(one) for one in design.assumed if one.measure not in shown_already]
        lines += [Line(key="blank"), *_cage_lines(design)]
    return tuple(lines)


def _answer_line(step: Step, answer: Answer) -> Line:
    values: dict[str, Value] = {"title": TextKey(key=f"{step.value}.title")}
    kind = QUESTIONS[step].kind
    if answer.value is None:
        return Line(key="read_back.not_known", values=values)
    if kind is Kind.CHOICE:
        values["value"] = TextKey(key=f"{step.value}.choice.{answer.value}")
        return Line(key="read_back.chosen", values=values)
    if kind is Kind.LENGTH:
        values["value"] = LengthValue(mm=Fraction(answer.value))
        plain = written(Fraction(answer.value), Unit.MM)
        if answer.readings:
            return Line(key="read_back.twice", values=values)
        alone = answer.raw and answer.how != "bundled"
        if alone and answer.raw.strip() not in (plain, plain.removesuffix(" mm")):
            values["raw"] = Free(text=" ".join(answer.raw.split())[:_TYPED])
            return Line(key="read_back.typed", values=values)
        return Line(key="read_back.answer", values=values)
    values["value"] = Free(text=answer.value)
    return Line(key="read_back.answer", values=values)


def _taken_line(step: Step, notebook: Notebook) -> Line:
    values: dict[str, Value] = {"title": TextKey(key=f"{step.value}.title")}
    value = _text(notebook, step) or DEFAULTS[step]
    if QUESTIONS[step].kind is Kind.COUNT:
        values["value"] = Count(n=int(Fraction(value)))
        return Line(key="read_back.pieces", values=values)
    values["value"] = TextKey(key=f"{step.value}.choice.{value}")
    return Line(key="read_back.chosen", values=values)


def _assumed_line(assumed: Assumed) -> Line:
    value: Value
    if not isinstance(assumed.value, Fraction):
        value = Free(text=assumed.value)
    elif assumed.measure in COUNTS:
        value = Count(n=int(assumed.value))
    else:
        value = LengthValue(mm=assumed.value)
    return Line(
        key="read_back.assumed",
        values={
            "title": TextKey(key=f"{assumed.measure}.title"),
            "value": value,
            "source": TextKey(key=f"assumed.{assumed.source}"),
        },
    )


def _verdict_line(design: Design) -> Line:
    """What comes of it; a cage that is only not sure enough lacks no answer."""
    lacking = any(way.id is Remedy.MEASURE for way in design.would_work)
    if design.verdict is Verdict.ASK and not lacking:
        return Line(key="read_back.verdict.unsure")
    return Line(key=f"read_back.verdict.{design.verdict}")


def _cage_lines(design: Design) -> list[Line]:
    cage = design.cage
    lines = [
        Line(
            key="read_back.cage" if cage.depth_outside is not None else "read_back.cage_no_depth",
            values={
                "along": LengthValue(mm=cage.length_outside),
                "down": LengthValue(mm=cage.height_overall),
                **(
                    {"across": LengthValue(mm=cage.depth_outside)}
                    if cage.depth_outside is not None
                    else {}
                ),
            },
        ),
        Line(key="read_back.lid", values={"lid": TextKey(key=f"lid.kind.{design.lid.kind}")}),
    ]
    lines += _price_lines(design)
    lines.append(_verdict_line(design))
    for gap in design.gaps:
        if gap.verdict in ("fails", "tight"):
            assert gap.nominal is not None
            lines.append(
                Line(
                    key=f"read_back.gap.{gap.verdict}",
                    values={
                        "gap": TextKey(key=f"gap.{gap.gap}"),
                        "value": LengthValue(mm=gap.nominal),
                    },
                )
            )
    if design.verdict == "ask":
        lines += [
            Line(key="read_back.open", values={"title": TextKey(key=f"{measure}.title")})
            for measure in design.open
        ]
    return lines


def _price_lines(design: Design) -> list[Line]:
    """What it comes to, where the workshop says so and makes the cage."""
    price = design.price
    if price is None or design.verdict == "cannot":
        return []
    values: dict[str, Value] = {
        "total": Money(amount=price.total, currency=price.currency),
        "post": Money(amount=price.post, currency=price.currency),
    }
    return [
        Line(key="read_back.price_with_post" if price.post else "read_back.price", values=values)
    ]
