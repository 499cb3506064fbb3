"""The one question that tells why the numbers do not go together.

From the stories that were weighed (`sizing.plausibility.mixups`) that question is chosen after
whose answer the right story is likeliest to stand first, less what the question costs. None of
them shows a value and asks for a yes: each asks for something else that is easy to see, or for
the same length once more without the first one. An answer never changes a length; only a new
reading does, or the person's own choice.

Questions, by the name that follows `separate:`, and their choices:

- a measure's own name: how did the tape lie? The first choice is as it was asked for.
- `longer`: along the top bar or down, which is longer on this frame?
- `marks`: how many small gaps are between two numbers on the tape?
"""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass
from fractions import Fraction

from conversations.session import Notebook
from conversations.steps import Step
from conversations.summary import design_of, request_of
from sizing.draft import Verdict
from sizing.measures import COUNTS, Measure, Request
from sizing.plausibility.findings import Weight
from sizing.plausibility.mistakes import Mistake, figure
from sizing.plausibility.mixups import HARMLESS, Weighed, weigh
from sizing.plausibility.relations import lengths_of
from sizing.standards import by_name
from sizing.workshop import Figures

__all__ = [
    "LONGER", "MARKS", "WAYS", "FollowUp", "best", "measured_as_asked", "next_question",
    "slip_is_live", "stories_of",
]  # fmt: skip

LONGER, MARKS = "longer", "marks"

WAYS: dict[str, dict[str, Mistake | None]] = {
    Step.SIDE_TO_SIDE: {
        "over-wood": None, "between-wood": Mistake.INSIDE, "over-lugs": Mistake.LUGS,
        "other-mark": Mistake.NOT_FROM_ZERO,
    },
    Step.TOP_TO_BOTTOM: {
        "all-wood": None, "opening": Mistake.INSIDE, "comb-alone": Mistake.COMB,
        "other-mark": Mistake.NOT_FROM_ZERO,
    },
    Step.LUG_TO_LUG: {
        "to-tips": None, "to-side-bars": Mistake.LUGS, "other-mark": Mistake.NOT_FROM_ZERO,
    },
    Step.INSIDE_ALONG: {
        "inner-walls": None, "case-left-out": Mistake.TAPE_CASE,
        "outer-walls": Mistake.OUTSIDE_OF_BOX, "other-mark": Mistake.NOT_FROM_ZERO,
    },
    Step.LUG_ROOM: {
        "to-stops": None, "case-left-out": Mistake.TAPE_CASE,
        "outer-walls": Mistake.OUTSIDE_OF_BOX, "other-mark": Mistake.NOT_FROM_ZERO,
    },
    Step.LEDGE_DOWN: {"to-edge": None, "other-mark": Mistake.NOT_FROM_ZERO},
    LONGER: {"along": None, "down": None, "same": None},
    MARKS: {"ten": None, "eight": Mistake.UNIT, "sixteen": Mistake.UNIT},
}  # fmt: skip
"""What each question offers, and the mistake that is made by who chooses it."""

_SLIPS = frozenset(
    {Mistake.DIGITS_SWAPPED, Mistake.ONE_DIGIT, Mistake.UNIT, Mistake.TEN_TIMES, Mistake.EXCHANGED}
)
"""A second reading shows these; a misunderstanding is only made again."""
_SEEN_AT_ONCE, _READ_AGAIN = 1, 2
_COST = 0.05
"""What a question must bring for each step of its cost [probability]."""
_MOST = 3
"""So many questions are put where the order could not be made otherwise."""
_LIVE = 0.05


@dataclass(frozen=True, slots=True)
class FollowUp:
    """A question about a doubt: `name` follows `separate:`; without it `step` is measured again."""

    step: Step
    name: str | None = None

    @property
    def remembered(self) -> str:
        """The name under which a notebook remembers that it was asked."""
        return self.name or f"again:{self.step.value}"


# --- which question -------------------------------------------------------------------


def stories_of(notebook: Notebook, earlier: Iterable[Notebook] = ()) -> Weighed:
    """The stories about this notebook's numbers, weighed with all that is known of the person."""
    request = request_of(notebook)
    if request is None:
        return Weighed(())
    name = notebook.answers.get(Step.FRAME_NAME)
    named = by_name(name.value) if name is not None and name.value else ()
    requests = (request_of(one) for one in earlier)
    return weigh(
        _lengths(request),
        named=frozenset(kind.id for kind in named),
        earlier=[_lengths(one) for one in requests if one is not None],
    )


def _lengths(request: Request) -> dict[Measure, Fraction]:
    found = lengths_of(request)
    return {measure: value for measure, value in found.items() if measure not in COUNTS}


def next_question(
    notebook: Notebook, figures: Figures, earlier: Iterable[Notebook] = ()
) -> FollowUp | None:
    """What is to be asked before these answers are read back, if anything.

    At most one question of suspicion, unless the order could not be made as it stands; else,
    where nothing covers a wrong digit, one second reading.
    """
    weighed = stories_of(notebook, earlier)
    if not notebook.doubted:
        if weighed.suspicion >= figure("share.asked"):
            return best(weighed.stories)
        if (step := _uncovered(notebook, weighed)) is not None:
            return FollowUp(step)
    if len(notebook.doubted) < _MOST and weighed.suspicion >= figure("share.doubted"):
        design = design_of(notebook, figures)
        if design is not None and design.verdict is Verdict.CANNOT:
            return best(weighed.stories, frozenset(notebook.doubted))
    return None


def best(stories: Iterable[Weight], asked: frozenset[str] = frozenset()) -> FollowUp | None:
    """The question after whose answer the right story most likely stands first, for its cost.

    `asked`: names of questions that were put before and are not put again.
    """
    told = list(stories)
    suspects = [one for one in told if one.mistake not in HARMLESS]
    worth = {
        question: _told_apart(question, told) - _COST * _cost(question, told)
        for question in _candidates(suspects)
        if question.remembered not in asked
    }
    return max(worth, key=lambda question: worth[question]) if worth else None


def _candidates(suspects: list[Weight]) -> list[FollowUp]:
    found: dict[FollowUp, None] = {}
    for one in suspects:
        step = Step(one.measures[0].value)
        if _is_turned(one):
            found[FollowUp(step, LONGER)] = None
        elif one.mistake is Mistake.UNIT:
            found[FollowUp(step, MARKS)] = None
        elif one.mistake in WAYS.get(step, {}).values():
            found[FollowUp(step, step.value)] = None
        else:
            found[FollowUp(step)] = None
    return list(found)


def _is_turned(one: Weight) -> bool:
    measures = (Measure.SIDE_TO_SIDE, Measure.TOP_TO_BOTTOM)
    return one.mistake is Mistake.EXCHANGED and one.measures == measures


def _answer(question: FollowUp, one: Weight) -> str:
    """What somebody answers to whom the story happened; alike where it tells nothing apart."""
    here = one.measures[:1] == (question.step.measure,)
    if question.name == LONGER:
        return "turned" if _is_turned(one) else "as-typed"
    if question.name == MARKS:
        return "inches" if one.mistake is Mistake.UNIT and here else "metric"
    if question.step.measure in one.measures and one.mistake in _SLIPS:
        return "another-number"
    if question.name is not None and here and one.mistake in WAYS[question.name].values():
        return one.mistake
    return "the-same"


def _told_apart(question: FollowUp, told: list[Weight]) -> float:
    """The chance that the likeliest story is the right one once the answer is known."""
    heaviest: dict[str, float] = {}
    honest = 0.0
    for one in told:
        if one.mistake in HARMLESS:
            honest += one.weight
            continue
        answer = _answer(question, one)
        heaviest[answer] = max(heaviest.get(answer, 0.0), one.weight)
    same = {LONGER: "as-typed", MARKS: "metric"}.get(question.name or "", "the-same")
    heaviest[same] = max(heaviest.get(same, 0.0), honest)
    return sum(heaviest.values())


def _cost(question: FollowUp, told: list[Weight]) -> float:
    """A choice is seen at once; a new reading, and one that follows a choice, costs more."""
    if question.name is None:
        return _READ_AGAIN
    again = sum(one.weight for one in told if _answer(question, one) == "another-number")
    return _SEEN_AT_ONCE + _READ_AGAIN * again


# --- after the answer -----------------------------------------------------------------


def measured_as_asked(name: str, choice: str) -> bool:
    """Whether this choice says that the tape lay as it was asked for."""
    return WAYS[name][choice] is None


def slip_is_live(weighed: Weighed, step: Step) -> bool:
    """Whether a second reading of `step` may show another number."""
    mine = (one for one in weighed.suspects if step.measure in one.measures)
    return any(one.mistake in _SLIPS and one.weight >= _LIVE * weighed.suspicion for one in mine)


def _uncovered(notebook: Notebook, weighed: Weighed) -> Step | None:
    """The length of which one wrong digit would do most harm, if nothing else would show it.

    The height: a box that agrees with it covers it, and so does a kind that is known.
    """
    step = Step.TOP_TO_BOTTOM
    height = notebook.answers.get(step)
    if height is None or height.value is None or height.insisted:
        return None
    pieces = notebook.answers.get(Step.PIECES)
    if pieces is not None and pieces.value is not None and (
        Fraction(pieces.value) >= figure("usual.many_pieces")
    ):  # fmt: skip
        return step
    body = (notebook.answers.get(one) for one in (Step.LEDGE_DOWN, Step.LEDGE_UP))
    if all(one is not None and one.value is not None for one in body):
        return None
    usual = sum(one.weight for one in weighed.stories if one.mistake is Mistake.AS_USUAL)
    return None if usual >= 0.5 else step
