"""The talk of one beekeeper with the machine, from the first word to handing in."""

from __future__ import annotations

from collections import Counter
from collections.abc import Callable
from dataclasses import dataclass, field
from datetime import UTC, datetime, timedelta
from fractions import Fraction
from functools import cache

from beekeepers import separating
from beekeepers.faults import BODY
from beekeepers.person import Person

from conversations.context import Context
from conversations.effects import InUnit, LengthValue, OrderVersion, Say
from conversations.events import Choose, Text
from conversations.follow_up import stories_of
from conversations.machine import advance
from conversations.session import Session
from conversations.steps import Asker, Mode, Step
from sizing.measures import Measure, Request
from sizing.plausibility.findings import Weight
from sizing.workshop import Figures, default_figures

__all__ = ["Asked", "Talk", "held"]

START = datetime(2026, 3, 2, 9, tzinfo=UTC)
MOST = 80
"""A talk that is longer has gone astray."""
NEAR = 0.015
"""Somebody who reads a proposed length sees a difference of more than this share of it …"""
SEES = 1.5
"""… or of more than this [mm]."""
_OF_HIVE = frozenset({*BODY, "below_space", "above_space", "frames_held", "inside_across"})


@dataclass(frozen=True)
class Asked:
    """One message that wanted an answer: its question, why it was put, about which measure.

    `why`: `plain`, `help` (another way to find out), `reading`, `precision`, `suspicion`
    (a separating question), `again` (a length that was given already), `surer` (the tape, or a
    second reading that the fit's uncertainty asks for).
    """

    question: str
    why: str
    measure: str | None


@dataclass
class Talk:
    """What came of it."""

    person: Person
    session: Session
    asked: list[Asked] = field(default_factory=list)
    request: Request | None = None
    messages: int = 0
    unknown: list[str] = field(default_factory=list)
    """Separating questions the simulation has no truth for."""
    newest: Say | None = None
    first: Weight | None = None
    """What was suspected most when the first question of suspicion was put."""
    attempts: Counter[str] = field(default_factory=Counter)

    def extra(self, *whys: str) -> int:
        """So many questions were put for one of these reasons."""
        return sum(asked.why in whys for asked in self.asked)

    # --- to and fro -------------------------------------------------------------------

    def send(self, kind: str, what: str) -> None:
        """One message or tap."""
        self.messages += 1
        at = START + timedelta(seconds=20 * self.messages)
        name, who = f"{self.messages}", self.person.seed
        event: Text | Choose
        if kind == "text":
            event = Text(id=name, person=who, at=at, text=what, language_hint="en")
        else:
            event = Choose(id=name, person=who, at=at, choice=what)
        context = Context(now=at, figures=_figures(), next_number="48291742")
        self.session, effects = advance(self.session, event, context)
        for effect in effects:
            if isinstance(effect, Say) and effect.to == "person":
                self.newest = effect
            elif isinstance(effect, OrderVersion):
                self.request = effect.cages[0].request

    def run(self) -> None:
        """Until the order is handed in, or the talk has gone astray."""
        self.send("text", "hello")
        while self.request is None and self.messages < MOST:
            assert self.newest is not None
            self.send(*self._reply(self.newest))

    # --- what to say ------------------------------------------------------------------

    def _why(self, question: str, measure: str | None) -> str:
        asking = self.session.asking
        if question.startswith("separate:"):
            return "suspicion"
        if question == "precision":
            return "precision"
        if asking.asker is Asker.SECOND or question == "tape":
            return "surer"
        if question == "propose" and asking.asker is Asker.DOUBT:
            return "suspicion"
        if question == "propose" or asking.mode is Mode.OPTIONS:
            return "reading"
        if measure is not None and Step(measure) in self.session.notebook.answers:
            return "again"
        before = any(asked.question == question for asked in self.asked)
        return "help" if before and asking.helped else "reading" if before else "plain"

    def _reply(self, say: Say) -> tuple[str, str]:
        question = say.question or ""
        ids = tuple(choice.id for choice in say.choices)
        measure = question if question in set(Measure) else None
        if question in ("propose", "precision") or question.startswith("separate:"):
            measure = self.session.asking.step.value
        why = self._why(question, measure)
        if why in ("suspicion", "again") and self.first is None:
            self.first = next(iter(stories_of(self.session.notebook).suspects), None)
        self.asked.append(Asked(question, why, measure))
        if question.startswith("separate:"):
            return self._separate(question.removeprefix("separate:"), ids)
        if question == "propose":
            return "choose", "yes" if self._agrees() else "no"
        if question == "precision":
            return self._precision(self.session.asking.step.value)
        if question in _OF_HIVE and not self.person.hive:
            return "choose", "dont-know"
        if measure in _COUNTS:
            return "text", str(_COUNTS[measure](self.person))
        if measure is not None:
            return self._length(measure, say, ids)
        return self._choice(question, ids)

    def _choice(self, question: str, ids: tuple[str, ...]) -> tuple[str, str]:
        person, truth = self.person, self.person.truth
        if question == "below" and not person.hive:
            return "choose", "dont-know"
        if question == "frame_name":
            if "insist" in ids:
                return "choose", "insist"
            return ("text", truth.name) if truth.name else ("choose", "dont-know")
        if question == "contact":
            return "text", "+48 601 234 567"
        chosen = {
            "language": person.style.language, "purpose": truth.purpose, "below": truth.below,
            "above": truth.above, "spacer": truth.spacer, "read_back": "hand-in", "tape": "unknown",
        }  # fmt: skip
        if question in chosen:
            return "choose", chosen[question]
        return "choose", "carry-on"

    def _length(self, measure: str, say: Say, ids: tuple[str, ...]) -> tuple[str, str]:
        options = [choice for choice in say.choices if choice.id.startswith("option-")]
        for choice in options:
            value = choice.label.values.get("value") or choice.label.values.get("written")
            if isinstance(value, LengthValue | InUnit) and self._is_so(measure, value.mm):
                return "choose", choice.id
        attempt = self.attempts[measure]
        if attempt >= 2 and "insist" in ids:
            return "choose", "insist"
        self.attempts[measure] += 1
        return "text", self.person.text(measure, attempt)

    def _is_so(self, measure: str, value: Fraction) -> bool:
        """Whether a length is what this person believes to have measured."""
        if measure in _COUNTS:
            return value == _COUNTS[measure](self.person)
        meant = float(self.person.number(measure, 0).mm)
        return abs(float(value) - meant) <= max(SEES, NEAR * meant)

    def _agrees(self) -> bool:
        asking = self.session.asking
        shown = zip(asking.steps, asking.values, strict=True)
        if all(self._is_so(step.value, value) for step, value in shown):
            return True
        return self.person.agrees("propose", asking.step.value)

    def _precision(self, measure: str) -> tuple[str, str]:
        exact = self.person.exact(measure)
        (value,) = self.session.asking.values[:1]
        if abs(exact.mm - value) < 1 or self.person.agrees("exactly", measure):
            return "choose", "exactly"
        return "text", self.person.style.text(exact, self.person.chance("exact", measure), with_unit=True)  # fmt: skip  # noqa: E501

    def _separate(self, name: str, ids: tuple[str, ...]) -> tuple[str, str]:
        measure = self.session.asking.step.value
        said = separating.answer(name, measure, self.person, ids)
        if said is None:
            self.unknown.append(name)
            return "choose", "dont-know"
        return ("choose", said) if said in ids else ("text", said)


_COUNTS: dict[str | None, Callable[[Person], int]] = {
    "frames_held": lambda person: person.truth.frames_held,
    "frames_out": lambda _: 2,
    "pieces": lambda _: 1,
}


@cache
def _figures() -> Figures:
    return default_figures()


def held(person: Person) -> Talk:
    """The whole talk of this person, who forgets afterwards what it cleared up."""
    talk = Talk(person, Session(person=person.seed))
    talk.run()
    person.told.clear()
    return talk
