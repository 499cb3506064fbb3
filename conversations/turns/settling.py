"""What was answered to a question of suspicion: understood, measured again, or insisted on."""

from __future__ import annotations

from fractions import Fraction

from conversations.effects import Journal, Line
from conversations.follow_up import LONGER, MARKS, WAYS, measured_as_asked, slip_is_live, stories_of
from conversations.session import Answer, Asking
from conversations.steps import Asker, Mode, Step
from conversations.turns import measuring, onward
from conversations.turns.turn import Turn, button, length, line, title

__all__ = ["choose", "read_instead"]


def choose(turn: Turn, choice: str) -> None:
    """One of the choices of the question of suspicion that is asked."""
    asking = turn.asking
    name = asking.separate
    assert name is not None, "only such a question brings its choices here"
    onward.doubted(turn, name)
    turn.do(Journal(what="doubt", by="beekeeper", question=f"separate:{name}", after=choice))
    if choice == "insist":
        _insist(turn, asking.step)
    elif choice not in WAYS[name]:
        _leave(turn, line("doubt.noted"))
    elif name == LONGER:
        _longer(turn, choice)
    elif name == MARKS:
        _again(turn, asking.step, "doubt.inches") if choice != "ten" else _as_asked(turn)
    elif measured_as_asked(name, choice):
        _as_asked(turn)
    else:
        _again(turn, asking.step, "doubt.then")


def read_instead(turn: Turn, text: str) -> None:
    """A number where a choice was offered: it is the length, measured again."""
    asking = turn.asking
    if asking.separate is not None:
        onward.doubted(turn, asking.separate)
    again = Asking(step=asking.step, asker=Asker.DOUBT, k=asking.k)
    turn.update(asking=again)
    measuring.answer(turn, text, again)


def _as_asked(turn: Turn) -> None:
    """The tape lay as it should: the number is read once more, if that may tell anything."""
    step = turn.asking.step
    weighed = stories_of(turn.session.notebook, turn.session.handed.values())
    if slip_is_live(weighed, step):
        _again(turn, step, "doubt.again")
    else:
        _leave(turn, line("doubt.noted"))


def _again(turn: Turn, step: Step, why: str) -> None:
    turn.put_question(Asking(step=step, asker=Asker.DOUBT), (line(why),))


def _leave(turn: Turn, lead: Line) -> None:
    """The numbers stay as they are, and the desk sees the doubt."""
    turn.update(asking=Asking(step=Step.RESTING))
    onward.go_on(turn, (lead,))


def _insist(turn: Turn, step: Step) -> None:
    """ "Measured again, it is so": the answer stands and says that it was doubted."""
    notebook = turn.session.notebook
    if (given := notebook.answers.get(step)) is not None:
        sure = given.model_copy(update={"insisted": True})
        turn.write(None, answers={**notebook.answers, step: sure})
    _leave(turn, line("doubt.insisted"))


def _longer(turn: Turn, choice: str) -> None:
    """What is longer tells whether two answers stand in each other's place."""
    answers = turn.session.notebook.answers
    side, height = answers[Step.SIDE_TO_SIDE], answers[Step.TOP_TO_BOTTOM]
    assert side.value is not None, "only two lengths are ever taken for exchanged"
    assert height.value is not None, "as above"
    typed = _which(Fraction(side.value), Fraction(height.value))
    if choice in (typed, "same"):
        _as_asked(turn)
        return
    _offer_turned(turn, side, height)


def _which(side: Fraction, height: Fraction) -> str:
    return "along" if side > height else "down"


def _offer_turned(turn: Turn, side: Answer, height: Answer) -> None:
    """Show both lengths in each other's place; the person takes them or measures again."""
    steps = (Step.SIDE_TO_SIDE, Step.TOP_TO_BOTTOM)
    values = (Fraction(height.value or 0), Fraction(side.value or 0))
    k = turn.session.heard_count + 1
    turn.update(
        asking=Asking(
            step=steps[0], asker=Asker.DOUBT, mode=Mode.PROPOSE, steps=steps, values=values,
            raw=side.raw, unit=side.unit, read_step=side.step, k=k,
        )
    )  # fmt: skip
    parts = [
        line("propose.part", title=title(step), value=length(value, side.unit))
        for step, value in zip(steps, values, strict=True)
    ]
    turn.say(
        line("doubt.turned"), *parts, choices=(button("yes"), button("no")), question="propose"
    )
