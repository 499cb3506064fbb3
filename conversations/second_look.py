"""What is asked once more before the read-back, because the cage is not sure enough to be made.

The answers are believed; they are only not exact enough. What is doubted is asked elsewhere.
"""

from __future__ import annotations

from fractions import Fraction
from itertools import combinations

from conversations.session import Answer, Notebook
from conversations.steps import Step
from conversations.summary import design_of
from sizing.alternatives import Remedy
from sizing.cage import Verdict
from sizing.workshop import Figures

__all__ = ["FAR_APART", "joined", "second_look"]

MOST = 2
"""So many questions of this kind in one order."""
FAR_APART = Fraction(3)
"""Two readings of one length [mm] that differ by so much are not both right."""


def second_look(notebook: Notebook, figures: Figures) -> Step | None:
    """The question that makes the cage surer, or None: it is sure, or nothing more helps.

    Two readings far apart are settled by a third. Else, where the joint probability is under
    `make_at`: the class of the tape if it would settle the order, else the measure whose
    second reading gains most.
    """
    for step, answer in notebook.answers.items():
        if len(answer.readings) == 2 and _apart(answer.readings):
            return step
    if len(notebook.looked) >= MOST:
        return None
    design = design_of(notebook, figures)
    if design is None or design.verdict is not Verdict.ASK or design.fit.probability is None:
        return None
    settles = any(way.id is Remedy.TAPE_CLASS for way in design.would_work)
    if settles and Step.TAPE not in notebook.answers:
        return None if Step.TAPE in notebook.looked else Step.TAPE
    again = design.fit.measure_again
    if again is None or Step(again.value) in notebook.looked:
        return None
    return Step(again.value)


def joined(before: Answer, new: Answer) -> Answer:
    """`new` as one more reading of the same length: they count as their mean.

    Of three the two that are nearest to each other count.
    """
    assert before.value is not None
    assert new.value is not None
    readings = (*(before.readings or (Fraction(before.value),)), Fraction(new.value))
    if len(readings) > 2:
        readings = min(combinations(readings, 2), key=lambda pair: abs(pair[0] - pair[1]))
    steps = [one.step for one in (before, new) if one.step is not None]
    doubts = [one.plus_minus for one in (before, new) if one.plus_minus is not None]
    return new.model_copy(
        update={
            "value": str(sum(readings, Fraction(0)) / len(readings)),
            "readings": readings,
            "step": max(steps, default=None),
            "plus_minus": max(doubts, default=None),
        }
    )


def _apart(readings: tuple[Fraction, ...]) -> bool:
    return max(readings) - min(readings) >= FAR_APART
