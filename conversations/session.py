"""What is remembered of one person's conversation between two messages.

A session holds the notebook being filled, the notebooks already handed in, what is being
asked, and a short ledger of the messages that went to and fro, so that an edited message, a
reply to an older question and a button of an older message find their question.
"""

from __future__ import annotations

import json
from datetime import datetime
from fractions import Fraction
from typing import Any

from pydantic import BaseModel, ConfigDict

from conversations.steps import Asker, Mode, Step

__all__ = [
    "VERSION",
    "Answer",
    "Asking",
    "Errand",
    "Heard",
    "Notebook",
    "Said",
    "Session",
    "load",
    "upgrade",
]

VERSION = 1
LEDGER = 60
"""So many messages each way can still be edited, replied to or tapped."""


class _Plain(BaseModel):
    model_config = ConfigDict(frozen=True, extra="forbid")


class Answer(_Plain):
    """One answer. `value` is a length [mm] or count as an exact fraction, a choice id or words;
    None says "I don't know"."""

    value: str | None
    raw: str = ""
    step: Fraction | None = None
    plus_minus: Fraction | None = None
    unit: str | None = None
    how: str = "typed"
    at: datetime
    insisted: bool = False
    readings: tuple[Fraction, ...] = ()
    """Several readings of one length [mm], of which `value` is the mean; empty for one."""


class Notebook(_Plain):
    """The answers for one order; `number` and `version` from handing in on."""

    answers: dict[Step, Answer] = {}
    parked: tuple[Step, ...] = ()
    """Questions left for a person at the workshop after three tries."""
    doubted: tuple[str, ...] = ()
    """Questions of suspicion that were answered, by the names of `follow_up`."""
    looked: tuple[Step, ...] = ()
    """Asked once more, or about the tape, to make the cage surer."""
    number: str | None = None
    version: int = 0


class Asking(_Plain):
    """What is asked now: the question, how it stands, and what was proposed or offered."""

    step: Step = Step.LANGUAGE
    asker: Asker = Asker.SCRIPT
    mode: Mode = Mode.PLAIN
    steps: tuple[Step, ...] = ()
    """Proposed together: the questions, parallel to `values`."""
    values: tuple[Fraction, ...] = ()
    raw: str = ""
    unit: str | None = None
    read_step: Fraction | None = None
    options: tuple[str, ...] = ()
    """Offered one by one, written out: `option-1` and so on."""
    plus_minus: Fraction | None = None
    tries: int = 0
    helped: bool = False
    """Another way to find out was shown already."""
    k: int = 0
    """The message, counted as the person received them, in which this was asked last."""
    separate: str | None = None
    """Set: not the length of `step` is asked for, but this question of `follow_up` about it."""
    number: str | None = None
    """Set: the answer belongs to this handed-in order, not to the notebook being filled."""

    @property
    def again(self) -> bool:
        """Whether a length is asked for that was answered before, without showing the answer."""
        return self.asker in (Asker.DESK, Asker.DOUBT, Asker.SECOND)

    def plain(self) -> Asking:
        """The same question without what was made of the last answer."""
        return self.model_copy(
            update={"mode": Mode.PLAIN, "steps": (), "values": (), "options": (), "raw": ""}
        )


class Heard(_Plain):
    """A message the person received: which question, of which order, with which choices."""

    k: int
    step: Step
    choices: tuple[str, ...] = ()
    number: str | None = None
    echo: tuple[Step, ...] = ()
    """The questions whose answers it repeated; `other-value` says one of them is not right."""


class Said(_Plain):
    """A message the person sent: the questions it answered, of which order."""

    k: int
    steps: tuple[Step, ...]
    number: str | None = None


class Errand(_Plain):
    """A question of the desk that waits until the one before it is answered."""

    number: str
    step: Step
    note: str = ""


class Session(_Plain):
    """All that is remembered of one person."""

    schema_version: int = VERSION
    person: str
    language: str = "en"
    language_chosen: bool = False
    notebook: Notebook = Notebook()
    thrown: Notebook | None = None
    """The notebook thrown away by the last "start over", until the first new answer."""
    handed: dict[str, Notebook] = {}
    asking: Asking = Asking()
    errands: tuple[Errand, ...] = ()
    usual_unit: str | None = None
    contact_known: bool = False
    heard_count: int = 0
    said_count: int = 0
    heard: tuple[Heard, ...] = ()
    said: tuple[Said, ...] = ()
    resting: bool = False
    """The person said "later"; no reminder is sent until they come back."""
    greeted: bool = False
    passing: bool = False
    """The next words go to the workshop."""
    unheard: str = ""
    """Words that were no answer and no wish; one tap passes them on."""
    album: str | None = None
    """The pictures that came last, and were answered once, belong together under this name."""


def upgrade(data: dict[str, Any]) -> dict[str, Any]:
    """Bring a stored session of any released version to today's form."""
    version = data.get("schema_version", 1)
    if version != VERSION:
        raise ValueError(f"session of version {version}; this program knows up to {VERSION}")
    return data


class _Written(BaseModel):
    """By which version a session was written: all that is looked at before it is read."""

    model_config = ConfigDict(extra="ignore")

    schema_version: int = 1


def load(text: str | bytes) -> Session:
    """The session that was stored as JSON, upgraded if it was written by an older version.

    Every turn begins with this, so one of today's form goes straight to the models.
    """
    if _Written.model_validate_json(text).schema_version != VERSION:
        text = json.dumps(upgrade(json.loads(text)))
    return Session.model_validate_json(text)
