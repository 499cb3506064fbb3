"""What a truthful person says to each separating question, and what that clears up.

A question shows what is meant; who answers it and sees that the tape lay elsewhere has
understood, and measures right from then on.
"""

from __future__ import annotations

from beekeepers.person import Person

__all__ = ["answer"]


def answer(name: str, person: Person, choices: tuple[str, ...]) -> str | None:
    """The choice id or the text this person sends; None where the question is not known here."""
    del name, person, choices
    return None
