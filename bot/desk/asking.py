"""What the desk can ask to have measured, or counted, once more: the same list in every place."""

from __future__ import annotations

from conversations.locale import Catalogue, catalogue, languages
from conversations.script import QUESTIONS, Kind

__all__ = ["MEASURES", "named"]

MEASURES = tuple(
    step.value for step, one in QUESTIONS.items() if one.kind in (Kind.LENGTH, Kind.COUNT)
)


def named(words: str) -> tuple[str | None, str]:
    """The measure that `words` begin with, by its id or its title in any language; and the rest.

    None, and the words as they are, where they begin with none.
    """
    said = words.strip()
    for name, measure in _names():
        rest = said[len(name) :]
        if said[: len(name)].casefold() == name and not rest[:1].isalnum():
            return measure, rest.lstrip(" \t:,.-–\n")
    return None, said


def _names() -> list[tuple[str, str]]:
    """Every name of a measure, the longest first: one may begin with another."""
    spoken: list[Catalogue] = [catalogue(language) for language in languages()]
    names = {
        name.casefold(): measure
        for measure in MEASURES
        for name in (measure, *(texts.text(f"{measure}.title") for texts in spoken))
    }
    return sorted(names.items(), key=lambda one: -len(one[0]))
