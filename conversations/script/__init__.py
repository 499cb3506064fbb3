"""The questions as data: what is asked, in which order, and when it decides something.

A question's texts are in the catalogues under its name: `NAME.title`, `NAME.from_to`,
`NAME.example`, and for "I don't know" `NAME.help` and `NAME.parked`.
"""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass
from enum import StrEnum

from conversations.session import Notebook
from conversations.steps import Step
from sizing.measures import Above, Below, LidChoice, Material, Purpose, Spacer, Tape

__all__ = [
    "DEFAULTS",
    "NEEDED",
    "QUESTIONS",
    "Kind",
    "Question",
    "following",
    "missing",
    "next_step",
]


class Kind(StrEnum):
    """How a question is answered."""

    LENGTH = "length"
    COUNT = "count"
    CHOICE = "choice"
    WORDS = "words"


@dataclass(frozen=True, slots=True)
class Question:
    """One question of the script.

    `helped`: the first "I don't know" brings another way to measure it, the second leaves it
    open. `skippable`: "I don't know" is offered at all.
    """

    step: Step
    kind: Kind
    choices: tuple[str, ...] = ()
    helped: bool = False
    skippable: bool = True


def _lengths(*steps: Step) -> tuple[Question, ...]:
    return tuple(Question(step, Kind.LENGTH, helped=True) for step in steps)


def _ids(choices: type[StrEnum]) -> tuple[str, ...]:
    return tuple(choice.value for choice in choices)


_ALL = (
    Question(Step.LANGUAGE, Kind.CHOICE, skippable=False),
    Question(Step.PURPOSE, Kind.CHOICE, _ids(Purpose), helped=True),
    Question(Step.FRAME_NAME, Kind.WORDS),
    *_lengths(
        Step.SIDE_TO_SIDE, Step.TOP_TO_BOTTOM, Step.LUG_TO_LUG, Step.LUG_THICKNESS,
        Step.WIDEST_WOOD, Step.COMB_THICKNESS, Step.INSIDE_ALONG, Step.LUG_ROOM,
        Step.LEDGE_DOWN, Step.LEDGE_UP,
    ),
    Question(Step.BELOW, Kind.CHOICE, _ids(Below), helped=True),
    *_lengths(Step.BELOW_SPACE),
    Question(Step.FRAMES_HELD, Kind.COUNT),
    *_lengths(Step.LUG_WIDTH),
    Question(Step.ABOVE, Kind.CHOICE, _ids(Above)),
    *_lengths(Step.ABOVE_SPACE, Step.INSIDE_ACROSS, Step.SPACING),
    Question(Step.FRAMES_OUT, Kind.COUNT, skippable=False),
    Question(Step.SPACER, Kind.CHOICE, _ids(Spacer)),
    Question(Step.LID, Kind.CHOICE, _ids(LidChoice), skippable=False),
    Question(Step.MATERIAL, Kind.CHOICE, _ids(Material), skippable=False),
    Question(Step.PIECES, Kind.COUNT, skippable=False),
    Question(Step.TAPE, Kind.CHOICE, _ids(Tape), skippable=False),
    Question(Step.CONTACT, Kind.WORDS, skippable=False),
)  # fmt: skip

QUESTIONS: dict[Step, Question] = {question.step: question for question in _ALL}

NEEDED: tuple[Step, ...] = (
    Step.PURPOSE, Step.SIDE_TO_SIDE, Step.TOP_TO_BOTTOM, Step.LUG_TO_LUG, Step.CONTACT,
)  # fmt: skip
"""Without these no cage can be sized, or nobody could be told; nothing is handed in before."""

DEFAULTS: dict[Step, str] = {
    Step.SPACER: Spacer.SHOULDERS,
    Step.LID: LidChoice.AUTO,
    Step.MATERIAL: Material.GALVANISED,
    Step.PIECES: "1",
}
"""Taken unless the person says otherwise; shown in the read-back, one tap to change."""


def _always(_: Notebook, _between: bool) -> bool:
    return True


def _over_a_floor(notebook: Notebook, _between: bool) -> bool:
    return _answered(notebook, Step.BELOW) == Below.FLOOR


def _lid_between_walls(_: Notebook, between: bool) -> bool:
    return between


def _cover_above(notebook: Notebook, between: bool) -> bool:
    return between and _answered(notebook, Step.ABOVE) == Above.COVER


_Condition = Callable[[Notebook, bool], bool]

_ASKED: tuple[tuple[Step, _Condition], ...] = (
    *((step, _always) for step in (
        Step.PURPOSE, Step.FRAME_NAME, Step.SIDE_TO_SIDE, Step.TOP_TO_BOTTOM, Step.LUG_TO_LUG,
        Step.LUG_THICKNESS, Step.WIDEST_WOOD, Step.COMB_THICKNESS, Step.INSIDE_ALONG,
        Step.LUG_ROOM, Step.LEDGE_DOWN, Step.LEDGE_UP, Step.BELOW,
    )),
    (Step.BELOW_SPACE, _over_a_floor),
    (Step.FRAMES_HELD, _always),
    (Step.LUG_WIDTH, _lid_between_walls),
    (Step.ABOVE, _lid_between_walls),
    (Step.ABOVE_SPACE, _cover_above),
    (Step.CONTACT, _always),
)  # fmt: skip


def _answered(notebook: Notebook, step: Step) -> str | None:
    answer = notebook.answers.get(step)
    return answer.value if answer else None


def next_step(
    notebook: Notebook, *, lid_between_walls: Callable[[], bool], contact_known: bool
) -> Step:
    """The next question nobody has answered or left open; `READ_BACK` when there is none.

    `lid_between_walls` is only called once everything before it is answered: it sizes the cage.
    """
    between: bool | None = None
    for step, condition in _ASKED:
        if step in notebook.answers or step in notebook.parked:
            continue
        if step is Step.CONTACT and contact_known:
            continue
        if condition in (_lid_between_walls, _cover_above) and between is None:
            between = lid_between_walls()
        if condition(notebook, bool(between)):
            return step
    return Step.READ_BACK


def following(notebook: Notebook, step: Step) -> tuple[Step, ...]:
    """The lengths still unanswered that are asked after `step`, in the asked order."""
    order = [asked for asked, condition in _ASKED if condition is _always]
    if step not in order:
        return ()
    return tuple(
        later
        for later in order[order.index(step) + 1 :]
        if later not in notebook.answers and QUESTIONS[later].kind is Kind.LENGTH
    )


def missing(notebook: Notebook, *, contact_known: bool) -> tuple[Step, ...]:
    """What must still be answered before this notebook can be handed in."""
    return tuple(
        step
        for step in NEEDED
        if _answered(notebook, step) is None and not (step is Step.CONTACT and contact_known)
    )
