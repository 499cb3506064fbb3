"""One beekeeper: reads a tape, rounds, types, and answers what is asked.

Every reading is drawn from a stream of its own, so that the same person without the fault has
the same noise in every answer.
"""

from __future__ import annotations

import random
from dataclasses import dataclass, field
from fractions import Fraction

from beekeepers.faults import LONG, Fault, drawn
from beekeepers.truth import Truth, draw, spreads, weighted
from beekeepers.writing import Number, Style, inches, metric

from conversations.locale import languages

__all__ = ["Person", "make"]

NOTICEABLE = 1.0
"""A fault that changes an answer by less is none [mm]."""
TRIES = 200


@dataclass
class Person:
    """Somebody with a frame, a hive, a tape and habits; `told` names the misunderstandings
    that a question has cleared up."""

    seed: str
    truth: Truth
    style: Style
    unit: str
    step: int
    parts: int
    shows_zero: bool
    hive: bool
    faults: tuple[Fault, ...] = ()
    told: set[str] = field(default_factory=set)

    def chance(self, *what: object) -> random.Random:
        """The stream of chance for one thing this person does."""
        return random.Random("-".join((self.seed, *map(str, what))))

    def agrees(self, *what: object) -> bool:
        """Whether this person says yes to something that is not so."""
        return self.chance("agrees", *what).random() < float(spreads()["person"]["agrees"])

    # --- the tape ---------------------------------------------------------------------

    def length(self, measure: str) -> float:
        """What the tape is laid over [mm], with the misunderstandings that are left."""
        for fault in self.faults:
            if fault.name not in self.told:
                seen = fault.seen(measure, self.truth)
                if seen is not None:
                    return seen
        return self.truth.lengths[measure]

    def number(self, measure: str, attempt: int) -> Number:
        """What this person reads and would type, without a slip of the fingers."""
        table = spreads()["reading"]
        laid_over = self.length(measure)
        short = laid_over < table["short_below"]
        sd = table["short_sd"] if short else table["long_sd"]
        read = max(0.6, laid_over + self.chance("reads", measure, attempt).gauss(0, sd))
        if self.unit == "in":
            return inches(read, 16 if short else self.parts)
        if short:
            return metric(read, 1, self.unit, shows_zero=True)
        return metric(read, self.step, self.unit, shows_zero=self.shows_zero)

    def exact(self, measure: str) -> Number:
        """The same spot to the millimetre, for who is asked for it."""
        read = self.length(measure) + self.chance("reads", measure, 0).gauss(0, 0.5)
        return metric(read, 1, "mm", shows_zero=True)

    def typed(self, measure: str, attempt: int) -> Number:
        """What this person types the `attempt`-th time (0 first): slips happen the first time."""
        number = self.number(measure, attempt)
        if attempt:
            return number
        for fault in self.faults:
            if not fault.slip or measure not in fault.measures:
                continue
            if fault.name == "exchanged":
                (other,) = set(fault.measures) - {measure}
                number = self.number(other, 0)
            else:
                number = fault.typed(number, self.chance("slips", measure)) or number
        return number

    def text(self, measure: str, attempt: int) -> str:
        """The answer as it is typed."""
        number = self.typed(measure, attempt)
        with_unit = None
        if any(f.name == "ten-times" and measure in f.measures for f in self.faults):
            with_unit = True
        return self.style.text(number, self.chance("types", measure, attempt), with_unit=with_unit)

    # --- against the same person without the fault ------------------------------------

    def honest(self) -> Person:
        """The same person, frame, hive and noise without the fault."""
        return Person(
            self.seed, self.truth, self.style, self.unit, self.step, self.parts,
            self.shows_zero, self.hive,
        )  # fmt: skip

    def off(self, measure: str) -> Fraction:
        """By how much the fault changes the first answer [mm]."""
        return self.typed(measure, 0).mm - self.honest().typed(measure, 0).mm

    def error(self) -> float:
        """The largest change the fault makes [mm]."""
        spoilt = {measure for fault in self.faults for measure in fault.measures}
        return max((abs(float(self.off(measure))) for measure in spoilt), default=0.0)


def _somebody(seed: str, kind: str | None, hive: bool, metric_only: bool) -> Person:
    chance = random.Random(f"{seed}-person")
    truth = draw(chance, kind)
    language = chance.choice(languages())
    table = spreads()
    habit = table["units"].get(language, table["units"]["other"])
    if metric_only:
        habit = [pair for pair in habit if pair[0] != "in"]
    mark = "." if language == "en" or chance.random() < 0.3 else ","
    style = Style(language, mark, table["person"]["bare"], chance.random() < 0.5)
    return Person(
        seed, truth, style, unit=weighted(chance, habit),
        step=weighted(chance, table["reading"]["steps"]),
        parts=weighted(chance, table["reading"]["inch_steps"]),
        shows_zero=chance.random() < 0.5, hive=hive,
    )  # fmt: skip


_METRIC = frozenset({"ten-times", "inch-as-cm"})


def make(seed: str, faults: tuple[str, ...] = (), *, hive: bool = True, kind: str | None = None) -> Person:  # fmt: skip  # noqa: E501
    """One beekeeper, with these faults if any; two faults lie in different answers."""
    for attempt in range(TRIES):
        person = _somebody(f"{seed}.{attempt}", kind, hive, bool(_METRIC & set(faults)))
        chance = person.chance("faults")
        person.faults = tuple(
            drawn(name, chance, person.truth, hive=hive, unit=person.unit) for name in faults
        )
        spoilt = [measure for fault in person.faults for measure in fault.measures]
        apart = len(set(spoilt)) == len(spoilt)
        in_reach = all(_matters(person, fault) for fault in person.faults)
        if apart and in_reach:
            return person
    raise ValueError(f"no beekeeper with {faults} in {TRIES} draws")


def _matters(person: Person, fault: Fault) -> bool:
    if not set(fault.measures) <= set(LONG) and not person.hive and "ledge_up" in fault.measures:
        return False
    return any(abs(person.off(measure)) >= NOTICEABLE for measure in fault.measures)
