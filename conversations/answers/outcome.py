"""What reading one answer can come to: plain values."""

from __future__ import annotations

from dataclasses import dataclass
from enum import StrEnum
from fractions import Fraction

from conversations.answers.units import Unit
from sizing.measures import Measure
from sizing.units import Mm

__all__ = ["Option", "Outcome", "Reading", "Reason", "ask", "other"]


class Outcome(StrEnum):
    """What happens next."""

    TAKE = "take"
    """Record it and echo it."""
    PROPOSE = "propose"
    """Show it and wait for a yes."""
    ASK = "ask"
    """Ask again, for the reason given."""
    OTHER = "other"
    """Not a measurement; the reason says what it is."""


class Reason(StrEnum):
    """Why nothing was taken. Names of the JSON contract."""

    HEDGED = "hedged"
    TWO_READINGS = "two-readings"
    WHICH_UNIT = "which-unit"
    WHICH_FRACTION = "which-fraction"
    WHICH_NUMBER = "which-number"
    ODD_FRACTION = "odd-fraction"
    TOO_BIG = "too-big"
    TOO_SMALL = "too-small"
    INSIDE = "inside"
    """The other side of the wood is named: inside where outside is asked, or the reverse."""
    WITHOUT_LUGS = "without-lugs"
    """Lugs left out where they count, or counted where they do not."""
    NAMED_SIZE = "named-size"
    DIGITS_PLEASE = "digits-please"
    WRONG_QUESTION = "wrong-question"
    """A length where a count is asked, or the reverse."""
    NOT_POSSIBLE = "not-possible"

    DONT_KNOW = "dont-know"
    HELP = "help"
    REUSE = "reuse"
    PHONE_NUMBER = "phone-number"
    LATER = "later"
    PERSON = "person"
    ORDER_NUMBER = "order-number"


@dataclass(frozen=True, slots=True)
class Option:
    """One way to understand the text: the length [mm] and the same as a person writes it."""

    value: Mm
    written: str
    unit: Unit


@dataclass(frozen=True, slots=True)
class Reading:
    """What one typed answer means."""

    outcome: Outcome
    values: tuple[Fraction, ...] = ()
    """Lengths [mm], exact; counts where a count was asked. Empty unless taken or proposed."""
    exact: bool | None = None
    """False: typed to 10 mm or coarser, the precision question follows. None unless taken."""
    reason: Reason | None = None
    options: tuple[Option, ...] = ()
    """What is offered to choose from, or the one that is proposed."""
    unit: Unit | None = None
    """The unit the person used."""
    step: Mm | None = None
    """Resolution of what was typed [mm]."""
    plus_minus: Mm | None = None
    """Tolerance typed beside it [mm]."""
    measures: tuple[Measure, ...] = ()
    """The questions the values belong to, parallel to `values`."""


def ask(reason: Reason, options: tuple[Option, ...] = ()) -> Reading:
    return Reading(Outcome.ASK, reason=reason, options=options)


def other(reason: Reason) -> Reading:
    return Reading(Outcome.OTHER, reason=reason)
