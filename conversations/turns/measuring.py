"""A typed number: read it, and take it, ask how exact it is, propose it, or ask."""

from __future__ import annotations

from datetime import timedelta
from fractions import Fraction

from conversations.answers import Outcome, Reading, Reason, Unit, read
from conversations.effects import (
    Count,
    Free,
    InUnit,
    LengthValue,
    Line,
    NoMoreReminders,
    TextKey,
    Value,
)
from conversations.events import Text
from conversations.locale import catalogue
from conversations.script import QUESTIONS, Kind, following
from conversations.second_look import joined
from conversations.session import Answer, Asking
from conversations.steps import Asker, Mode, Step
from conversations.turns import onward, wishes
from conversations.turns.turn import Turn, button, length, line, title
from sizing.measures import Measure

__all__ = ["answer", "confirm", "dont_know", "insist", "pick", "precise"]

TRIES = 3
"""After so many answers that cannot be read the question is left for a person."""
_HOW = {
    Asker.SCRIPT: "typed",
    Asker.DESK: "asked-again",
    Asker.DOUBT: "asked-again",
    Asker.CHANGE: "changed",
    Asker.SECOND: "second",
}
_WISHED = {Reason.LATER: "later", Reason.PERSON: "person", Reason.HELP: "repeat"}
_VALUED = frozenset({Reason.TOO_BIG, Reason.TOO_SMALL})
_BEFORE = 2
"""What the person sent last is written down already; before it stands the message before."""
_MOMENT = timedelta(minutes=2)
"""So soon after each other the same words may be one answer that was sent twice."""


def answer(turn: Turn, text: str, asking: Asking, *, how: str = "typed") -> None:
    """The person answered the measure question `asking` with `text`."""
    reading = _read(turn, text, asking)
    if _sent_twice(turn, text, asking):
        _doubt_second(turn, text, reading, asking)
    elif reading.outcome is Outcome.TAKE:
        _take(turn, text, reading, asking, how)
    elif reading.outcome is Outcome.PROPOSE:
        _propose(turn, text, reading, asking)
    elif reading.reason is Reason.DONT_KNOW:
        dont_know(turn, asking)
    elif reading.reason in _WISHED:
        wishes.grant(turn, _WISHED[reading.reason])
    else:
        _ask(turn, text, reading, asking)


def _read(turn: Turn, text: str, asking: Asking) -> Reading:
    """The text as an answer to what is asked, in this person's language and unit."""
    measure = asking.step.measure
    assert measure is not None
    return read(
        text,
        measure,
        language=turn.session.language,
        usual_unit=Unit(turn.session.usual_unit) if turn.session.usual_unit else None,
        following=_later(turn, asking),
    )


def _later(turn: Turn, asking: Asking) -> tuple[Measure, ...]:
    """The lengths that may stand in one message with the answer: those of a message that is
    edited, and in a notebook those still to be asked."""
    steps = [] if asking.mode is Mode.PROPOSE else [*asking.steps]
    if asking.number is None:
        steps += following(turn.session.notebook, asking.step)
    others = dict.fromkeys(step for step in steps if step is not asking.step)
    return tuple(step.measure for step in others if step.measure is not None)


def _sent_twice(turn: Turn, text: str, asking: Asking) -> bool:
    """The same words came a moment ago for the question before: perhaps they are one answer."""
    event = turn.event
    plain = asking.asker is Asker.SCRIPT and asking.mode is Mode.PLAIN and not asking.tries
    if not plain or not isinstance(event, Text) or event.reply_to is not None:
        return False
    if len(turn.session.said) < _BEFORE:
        return False
    said = turn.session.said[-_BEFORE]
    if said.number != asking.number or asking.step in said.steps:
        return False
    answers = turn.notebook(asking.number).answers
    before = [answers[step] for step in said.steps if step in answers]
    return any(
        one.raw.strip() == text.strip() and turn.context.now - one.at <= _MOMENT for one in before
    )


def _doubt_second(turn: Turn, text: str, reading: Reading, asking: Asking) -> None:
    """Where the number could be this answer too, say both and ask; else it counts once."""
    if reading.outcome is Outcome.TAKE:
        _propose(turn, text, reading, asking, head="propose.twice")
    else:
        onward.ask_again(turn, (line("twice.counted", raw=Free(text=text.strip()[:60])),))


def _take(turn: Turn, text: str, reading: Reading, asking: Asking, how: str) -> None:
    if how == "typed":
        how = _HOW[asking.asker]
    taken = Answer(
        value=str(reading.values[0]), raw=text, step=reading.step, plus_minus=reading.plus_minus,
        unit=reading.unit.value if reading.unit else None, how=how, at=turn.context.now,
    )  # fmt: skip
    if not reading.exact:
        unit = reading.unit.value if reading.unit else "cm"
        _stand(
            turn,
            asking,
            Mode.PRECISION,
            values=reading.values[:1],
            raw=text,
            unit=unit,
            read_step=reading.step,
        )
        value = length(reading.values[0], unit)
        turn.say(
            line(f"precision.{unit}", value=value),
            choices=(button("exactly", "choice.exactly", value=value), button("dont-know")),
            question="precision",
        )
        return
    _record_and_go_on(turn, asking, {asking.step: taken})


def _record_and_go_on(turn: Turn, asking: Asking, taken: dict[Step, Answer]) -> None:
    echo: list[Line] = []
    for step, one in taken.items():
        before = turn.notebook(asking.number).answers.get(step)
        if asking.asker is Asker.SECOND and step is asking.step and before is not None:
            second = one.model_copy(update={"how": "second"})
            turn.record(step, joined(before, second), None, reading=one.value)
            echo.append(
                line(
                    "echo.second",
                    title=title(step),
                    value=_value(step, Fraction(one.value or 0), one.unit),
                )
            )
            continue
        turn.record(step, one, asking.number)
        if one.unit and QUESTIONS[step].kind is Kind.LENGTH:
            turn.update(usual_unit=one.unit)
        echo.append(_echo(step, one, before))
    turn.update(asking=Asking(step=asking.step, number=asking.number))
    onward.go_on(turn, tuple(echo), echo=tuple(taken))


def _echo(step: Step, taken: Answer, before: Answer | None) -> Line:
    value = _value(step, Fraction(taken.value or 0), taken.unit)
    if before is not None and before.value is not None and before.value != taken.value:
        old = _value(step, Fraction(before.value), None)
        return line("echo.changed", title=title(step), before=old, value=value)
    return line("echo.taken", title=title(step), value=value)


def _value(step: Step, value: Fraction, unit: str | None) -> Value:
    return Count(n=int(value)) if QUESTIONS[step].kind is Kind.COUNT else length(value, unit)


def _stand(turn: Turn, asking: Asking, mode: Mode, **fields: object) -> None:
    """The same question, standing otherwise; its message is the next one sent."""
    update = {"mode": mode, "k": turn.session.heard_count + 1, **fields}
    turn.update(asking=asking.model_copy(update=update))


def _propose(
    turn: Turn, text: str, reading: Reading, asking: Asking, *, head: str | None = None
) -> None:
    measures = reading.measures or (asking.step.measure,)
    steps = tuple(Step(measure.value) for measure in measures[: len(reading.values)] if measure)
    unit = reading.unit.value if reading.unit else None
    _stand(
        turn, asking, Mode.PROPOSE, steps=steps, values=reading.values, raw=text, unit=unit,
        read_step=reading.step, plus_minus=reading.plus_minus,
    )  # fmt: skip
    turn.remember_said(steps, asking.number)
    pairs = tuple(zip(steps, reading.values, strict=True))
    lines = [
        line("propose.part", title=title(step), value=_value(step, value, unit))
        for step, value in pairs
    ]
    turn.say(
        line(
            head or ("propose.one" if len(pairs) == 1 else "propose.several"),
            raw=Free(text=text.strip()[:60]),
        ),
        *lines,
        choices=(button("yes"), button("no")),
        question="propose",
    )


def confirm(turn: Turn, *, agreed: bool) -> None:
    """Yes or no to what was proposed."""
    asking = turn.asking
    if not agreed:
        onward.ask_again(turn, (line("propose.again"),))
        return
    how = "bundled" if len(asking.steps) > 1 else "proposed"
    taken = {
        step: Answer(
            value=str(value), raw=asking.raw, step=asking.read_step, unit=asking.unit, how=how,
            plus_minus=asking.plus_minus, at=turn.context.now,
        )
        for step, value in zip(asking.steps, asking.values, strict=True)
    }  # fmt: skip
    _record_and_go_on(turn, asking, taken)


def precise(turn: Turn) -> None:
    """ "Exactly so": the whole centimetres or half inches are meant to the millimetre."""
    asking = turn.asking
    exact = Answer(
        value=str(asking.values[0]), raw=asking.raw, step=Fraction(1), unit=asking.unit,
        how="typed", at=turn.context.now,
    )  # fmt: skip
    _record_and_go_on(turn, asking, {asking.step: exact})


def pick(turn: Turn, index: int) -> None:
    """One of the readings that were offered: as if it had been typed like that.

    What would be asked about once more is taken as chosen: the person has said what is meant.
    """
    asking = turn.asking
    text, plain = asking.options[index], asking.plain()
    reading = _read(turn, text, plain)
    if reading.outcome is Outcome.TAKE:
        _take(turn, text, reading, plain, "chosen")
        return
    chosen = Answer(
        value=str(asking.values[index]), raw=text, step=reading.step, how="chosen",
        at=turn.context.now,
    )  # fmt: skip
    _record_and_go_on(turn, plain, {asking.step: chosen})


def insist(turn: Turn) -> None:
    """ "Measured again, it is so": taken, and the desk sees it."""
    asking = turn.asking
    sure = Answer(
        value=str(asking.values[0]), raw=asking.raw, step=asking.read_step, unit=asking.unit,
        how="typed", at=turn.context.now, insisted=True,
    )  # fmt: skip
    _record_and_go_on(turn, asking, {asking.step: sure})


def _ask(turn: Turn, text: str, reading: Reading, asking: Asking) -> None:
    reason = reading.reason
    assert reason is not None
    tries = asking.tries + 1
    if tries >= TRIES:
        _leave_open(turn, asking, "left_open.tries")
        return
    _stand(
        turn, asking, Mode.OPTIONS, tries=tries, raw=text,
        options=tuple(option.written for option in reading.options),
        values=tuple(option.value for option in reading.options),
        unit=reading.options[0].unit.value if reading.options else None,
    )  # fmt: skip
    choices = []
    if reason in _VALUED:
        choices += [button("insist")] if reading.options else []
    else:
        choices += [
            button(
                f"option-{n}",
                "choice.option",
                written=InUnit(mm=option.value, unit=option.unit.value),
                value=LengthValue(mm=option.value),
            )
            for n, option in enumerate(reading.options, 1)
        ]
        choices += [button("other-value", "choice.measure_again")] if choices else []
    leave = [button("no", "choice.leave_it")] if asking.asker is Asker.CHANGE else []
    lead = _clarification(reason, text, reading, asking.step)
    name = asking.step.value
    turn.say(
        *lead,
        *(_in_other_words(turn, lead, name) if tries > 1 else ()),
        choices=(*choices, button("dont-know"), button("show-me"), *leave),
        question=name,
        again=asking.again,
    )


def _in_other_words(turn: Turn, lead: tuple[Line, ...], name: str) -> tuple[Line, ...]:
    """From where to where, and an example, as far as the reason did not say it already."""
    texts = catalogue(turn.session.language)
    said = " ".join(texts.text(one.key) for one in lead)
    parts = (part for part in ("from_to", "example") if f"{{{part}}}" not in said)
    return tuple(line(f"{name}.{part}") for part in parts)


def _clarification(reason: Reason, text: str, reading: Reading, step: Step) -> tuple[Line, ...]:
    values: dict[str, Value] = {
        "raw": Free(text=text.strip()[:60]),
        "title": title(step),
        "from_to": TextKey(key=f"{step.value}.from_to"),
        "example": TextKey(key=f"{step.value}.example"),
    }
    if reading.options:
        values["value"] = LengthValue(mm=reading.options[0].value)
        return (
            Line(
                key=f"clarify.{reason.value}.value"
                if reason in _VALUED
                else f"clarify.{reason.value}",
                values=values,
            ),
        )
    return (Line(key=f"clarify.{reason.value}", values=values),)


def dont_know(turn: Turn, asking: Asking) -> None:
    """ "I don't know": first another way to find out, then the question is left open."""
    question = QUESTIONS[asking.step]
    if question.helped and not asking.helped and asking.asker is not Asker.SECOND:
        helped = asking.plain().model_copy(update={"helped": True})
        turn.put_question(helped, (line(f"{asking.step.value}.help"),))
        return
    _leave_open(turn, asking, f"{asking.step.value}.parked")


def _leave_open(turn: Turn, asking: Asking, key: str) -> None:
    """Nobody knows: the question is parked, unless an answer or what is usual stands."""
    step, number = asking.step, asking.number
    stands = step in turn.notebook(number).answers or not QUESTIONS[step].skippable
    if not stands:
        turn.park(step, number)
    lead = line("kept.old" if stands else key, title=title(step))
    if number is not None and (asking.asker is Asker.DESK or not stands):
        turn.end_errand(step, number)
        turn.tell_desk("desk.not_known", number, title=title(step))
        if all(errand.number != number for errand in turn.session.errands):
            turn.do(NoMoreReminders(beginning=f"question-{number}"))
    onward.leave(turn, (lead,))
