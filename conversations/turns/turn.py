"""One turn being built: the session as it changes, and the effects that gather."""

from __future__ import annotations

from collections.abc import Iterable
from typing import Any

from conversations.context import Context
from conversations.effects import (
    Answered,
    Choice,
    Document,
    Effect,
    Free,
    Journal,
    LengthValue,
    Line,
    NumberValue,
    OrderVersion,
    Picture,
    Say,
    StageMoved,
    TextKey,
    Value,
    Wipe,
)  # fmt: skip
from conversations.events import Edit, Event
from conversations.follow_up import LONGER, MARKS, WAYS
from conversations.locale import catalogue, languages
from conversations.review import Stage
from conversations.script import QUESTIONS, Kind
from conversations.session import LEDGER, Answer, Asking, Heard, Notebook, Said, Session
from conversations.steps import Asker, Step
from sizing.units import Mm

__all__ = ["Turn", "button", "language_choices", "length", "line", "shortened", "shown", "title"]

_LONGEST_NOTE = 1500


def line(key: str, **values: Value) -> Line:
    """A text with its values."""
    return Line(key=key, values=values)


def title(step: Step) -> TextKey:
    """The short name of a question, the same in questions, read-back, desk and drawings."""
    return TextKey(key=f"{step.value}.title")


def length(value: Mm, unit: str | None) -> LengthValue:
    """A length in mm and in the unit the person thinks in; centimetres beside plain mm, so
    that a slip by ten shows."""
    return LengthValue(mm=value, also="in" if unit == "in" else "cm")


def button(identity: str, key: str | None = None, **values: Value) -> Choice:
    """Something to tap; without a key its label is the text of its id."""
    return Choice(id=identity, label=line(key or f"choice.{identity}", **values))


def language_choices() -> tuple[Choice, ...]:
    """Every language, each in its own words."""
    return tuple(
        button(code, "free", text=Free(text=catalogue(code).text("language.self")))
        for code in languages()
    )


def shortened(text: str) -> str:
    """What staff wrote, as much of it as goes into a message beside a question."""
    return text if len(text) <= _LONGEST_NOTE else f"{text[:_LONGEST_NOTE].rstrip()} …"


def shown(step: Step, answer: Answer) -> Value:
    """An answer as it is shown to the person: a length, a count, a choice's name, or words."""
    if answer.value is None:
        return TextKey(key="not-known")
    kind = QUESTIONS[step].kind
    if kind is Kind.LENGTH:
        return length(Mm(answer.value), answer.unit)
    if kind is Kind.CHOICE:
        return TextKey(key=f"{step.value}.choice.{answer.value}")
    return Free(text=answer.value)


class Turn:
    """Collects what one event does. Only `advance` makes one; only it ends it."""

    def __init__(self, session: Session, event: Event, context: Context) -> None:
        self.session = session
        self.event = event
        self.context = context
        self.effects: list[Effect] = []

    # --- the session ------------------------------------------------------------------

    @property
    def asking(self) -> Asking:
        """What is asked now."""
        return self.session.asking

    def update(self, **fields: Any) -> None:
        """Change fields of the session."""
        self.session = self.session.model_copy(update=fields)

    def notebook(self, number: str | None) -> Notebook:
        """The notebook of the handed-in order `number`, or for None the one being filled."""
        if number is None:
            return self.session.notebook
        return self.session.handed.get(number, Notebook(number=number))

    def write(self, number: str | None, **fields: Any) -> None:
        """Change fields of that notebook."""
        changed = self.notebook(number).model_copy(update=fields)
        if number is None:
            self.update(notebook=changed)
        else:
            self.update(handed={**self.session.handed, number: changed})

    def stage(self, number: str | None) -> Stage:
        """Where the order of that notebook stands, with what this turn has done to it."""
        for effect in reversed(self.effects):
            if isinstance(effect, OrderVersion | StageMoved) and effect.number == number:
                return Stage(effect.stage)
        if number is not None and (order := self.context.order(number)) is not None:
            return Stage(order.stage)
        at_read_back = self.asking.step is Step.READ_BACK and self.asking.number is None
        return Stage.READ_BACK if at_read_back else Stage.NOTEBOOK

    # --- answers ----------------------------------------------------------------------

    def record(
        self, step: Step, answer: Answer, number: str | None, *, reading: str | None = None
    ) -> None:
        """Write an answer into the notebook, the record and the journal.

        `reading` is what was read now, where the answer is the mean of several.
        """
        if number is None and self.session.thrown is not None:
            self.update(thrown=None)
            self.do(Wipe())
        if number is not None:
            self.end_errand(step, number)
        notebook = self.notebook(number)
        before = notebook.answers.get(step)
        self.write(
            number,
            answers={**notebook.answers, step: answer},
            parked=tuple(parked for parked in notebook.parked if parked is not step),
        )
        words = QUESTIONS[step].kind is Kind.WORDS
        if step is not Step.CONTACT:
            self.do(
                Answered(
                    question=step.value, raw="" if words else answer.raw,
                    reading=answer.value if reading is None else reading,
                    step=answer.step, how=answer.how, number=number,
                )
            )  # fmt: skip
        self.do(
            Journal(
                what="answered", by="beekeeper", number=number, question=step.value,
                before=None if words or before is None else before.value,
                after=None if words else answer.value,
            )
        )  # fmt: skip

    def drop(self, step: Step, number: str | None) -> None:
        """An answer does not hold any more, since another one changed."""
        notebook = self.notebook(number)
        if step not in notebook.answers:
            return
        left = {other: answer for other, answer in notebook.answers.items() if other is not step}
        self.write(number, answers=left)
        before = notebook.answers[step].value
        self.do(
            Answered(question=step.value, raw="", reading=None, how="default", number=number),
            Journal(
                what="dropped", by="beekeeper", number=number, question=step.value, before=before
            ),
        )

    def park(self, step: Step, number: str | None) -> None:
        """Leave a question for a person at the workshop."""
        notebook = self.notebook(number)
        if step not in notebook.parked:
            self.write(number, parked=(*notebook.parked, step))
        self.do(Journal(what="left-open", by="beekeeper", number=number, question=step.value))

    def end_errand(self, step: Step, number: str) -> None:
        """The desk's question about this order waits no longer."""
        left = (one for one in self.session.errands if (one.step, one.number) != (step, number))
        self.update(errands=tuple(left))

    def remember_said(self, steps: Iterable[Step], number: str | None) -> None:
        """The message the person just sent belongs to these questions."""
        k = self.event.message if isinstance(self.event, Edit) else self.session.said_count
        entry = Said(k=k, steps=tuple(steps), number=number)
        others = tuple(said for said in self.session.said if said.k != entry.k)
        self.update(said=(*others, entry)[-LEDGER:])

    # --- messages ---------------------------------------------------------------------

    def do(self, *effects: Effect) -> None:
        """Add effects."""
        self.effects.extend(effects)

    def say(
        self,
        *lines: Line,
        choices: tuple[Choice, ...] = (),
        picture: Picture | None = None,
        document: Document | None = None,
        question: str | None = None,
        again: bool = False,
        number: str | None = None,
        echo: tuple[Step, ...] = (),
    ) -> None:
        """Send the person one message, about the order `number` where it is about one.

        `echo` names the questions whose answers the message repeats.
        """
        k = self.session.heard_count + 1
        about = number or self.asking.number
        heard = Heard(
            k=k, step=self.asking.step, choices=tuple(choice.id for choice in choices),
            number=about, echo=echo,
        )  # fmt: skip
        self.update(heard_count=k, heard=(*self.session.heard, heard)[-LEDGER:])
        self.do(
            Say(
                lines=lines, choices=choices, picture=picture, document=document,
                question=question, again=again, stage=self.stage(about).value, number=about,
                language=self.session.language,
            )
        )  # fmt: skip

    def tell_desk(self, key: str, number: str | None = None, **values: Value) -> None:
        """Send all staff one message."""
        if number is not None:
            values["number"] = NumberValue(number=number)
        self.do(Say(to="desk", lines=(line(key, **values),), number=number))

    def put_question(
        self,
        asking: Asking,
        lead: tuple[Line, ...] = (),
        *,
        echo: tuple[Step, ...] = (),
        extra: tuple[Choice, ...] = (),
    ) -> None:
        """Ask: the lead lines (an echo, a reason), then the question with its picture.

        `echo` names the questions whose answers the lead repeats; `extra` is tapped beside.
        """
        k = self.session.heard_count + 1
        self.update(asking=asking.model_copy(update={"k": k}))
        if asking.separate is not None:
            self._separate(asking, asking.separate, lead, echo=echo)
            return
        question = QUESTIONS[asking.step]
        name = asking.step.value
        lines: list[Line] = [*lead]
        if lead:
            lines.append(line("blank"))
        if asking.asker is Asker.SECOND:
            lines += self._second_lines(asking)
        lines.append(line("ask.title", title=title(asking.step)))
        if asking.asker is Asker.CHANGE:
            old = self.notebook(asking.number).answers.get(asking.step)
            extra = (*extra, button("no", "choice.leave_it"))
            if old is not None and asking.step is not Step.CONTACT:
                lines.append(line("ask.was", value=shown(asking.step, old)))
        lines.append(line(f"{name}.from_to"))
        if question.kind is not Kind.CHOICE:
            lines.append(line(f"{name}.example"))
        pictured = question.kind is Kind.LENGTH or asking.step in _PICTURED
        self.say(
            *lines,
            choices=(*self._question_choices(asking, echoed=bool(echo)), *extra),
            picture=Picture(name=name) if pictured else None,
            question=name,
            again=asking.again,
            echo=echo,
        )

    def _separate(
        self, asking: Asking, name: str, lead: tuple[Line, ...], *, echo: tuple[Step, ...]
    ) -> None:
        """Ask what tells one mistake in the answer to `asking.step` from another."""
        choices = [button(way, f"doubt.way.{way}") for way in WAYS[name]]
        choices += [button("insist"), button("dont-know")]
        if echo:
            choices.append(button("other-value"))
        about = title(asking.step)
        self.say(
            *lead,
            *((line("blank"),) if lead else ()),
            line("doubt.why"),
            line(f"doubt.ask.{name}" if name in (LONGER, MARKS) else "doubt.ask.way", title=about),
            choices=tuple(choices),
            picture=Picture(name=asking.step.value) if name == asking.step else None,
            question=f"separate:{name}",
            echo=echo,
        )

    def _second_lines(self, asking: Asking) -> list[Line]:
        """Why it is asked a second time, and how to hold the tape otherwise."""
        before = self.notebook(asking.number).answers[asking.step]
        apart = len(before.readings) > 1
        lines = [line("ask.second_apart" if apart else "ask.second")]
        if asking.step in _OUTER:
            lines.append(line("ask.second_mark"))
        return lines

    def _question_choices(self, asking: Asking, *, echoed: bool) -> tuple[Choice, ...]:
        question = QUESTIONS[asking.step]
        choices = [
            Choice(id=identity, label=line(f"{asking.step.value}.choice.{identity}"))
            for identity in question.choices
        ]
        if asking.step is Step.LANGUAGE:
            choices += language_choices()
        if question.skippable:
            choices.append(button("dont-know"))
        if question.kind is Kind.LENGTH:
            choices.append(button("show-me"))
        if echoed:
            choices.append(button("other-value"))
        return tuple(choices)


_OUTER = frozenset({Step.SIDE_TO_SIDE, Step.TOP_TO_BOTTOM, Step.LUG_TO_LUG})
"""From one outer edge to the other: the tape can start at its 10 cm mark."""
_PICTURED = frozenset(
    {
        Step.PURPOSE, Step.BELOW, Step.ABOVE, Step.SPACER, Step.LID,
        Step.FRAMES_HELD, Step.FRAMES_OUT,
    }
)  # fmt: skip
