"""What the desk may ask back about a doubt: which length, and in which words.

Proposed only; a person sends it, as it is or changed.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from fractions import Fraction
from typing import Any

from conversations.follow_up import LONGER, MARKS, WAYS, FollowUp, best
from conversations.locale import catalogue
from conversations.script import QUESTIONS, Kind
from conversations.steps import Step
from sizing.measures import Measure
from sizing.plausibility.findings import Severity, Weight
from sizing.plausibility.mistakes import Mistake

__all__ = ["Proposal", "proposed"]


@dataclass(frozen=True, slots=True)
class Proposal:
    """A length to ask for once more, and the words that go with the question."""

    measure: str
    note: str


def proposed(finding: Mapping[str, Any], language: str) -> Proposal | None:
    """What to ask about `finding` (in the form of the contract) in the beekeeper's language.

    None for a note, and where no length could be asked for.
    """
    if finding["severity"] == Severity.NOTE:
        return None
    question = best([_weight(one) for one in finding.get("weights", ())])
    if question is None:
        lengths = [name for name in finding["measures"] if _is_asked(name)]
        return Proposal(lengths[0], "") if lengths else None
    return Proposal(question.step.value, _note(question, language))


def _weight(story: Mapping[str, Any]) -> Weight:
    return Weight(
        Mistake(story["mistake"]),
        tuple(Measure(name) for name in story["measures"]),
        tuple(Fraction(str(value)) for value in story["true"]),
        story["prior"],
        story["likelihood"],
        story["weight"],
    )


def _is_asked(name: str) -> bool:
    return name in set(Step) and QUESTIONS[Step(name)].kind is Kind.LENGTH


def _note(question: FollowUp, language: str) -> str:
    """The words of the question, as somebody would write them."""
    texts = catalogue(language)
    name = question.name
    if name is None:
        return ""
    if name in (LONGER, MARKS):
        about = texts.text(f"{question.step.value}.title")
        plain = texts.text(f"doubt.ask.{name}").format(title=about)
        return plain.replace("<b>", "").replace("</b>", "")
    first = next(iter(WAYS[name]))
    return texts.text("doubt.propose").format(way=texts.text(f"doubt.way.{first}"))
