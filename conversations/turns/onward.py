"""What comes next: the following question, the read-back, or the workshop's answer."""

from __future__ import annotations

from datetime import timedelta

from conversations.effects import Choice, Free, Line, NoMoreReminders, NumberValue, Picture, Remind
from conversations.follow_up import FollowUp, next_question
from conversations.review import Stage
from conversations.script import missing, next_step
from conversations.second_look import second_look
from conversations.session import Asking, Errand
from conversations.steps import Asker, Step
from conversations.summary import lid_between_walls, read_back, request_of
from conversations.turns import handing_in
from conversations.turns.turn import Turn, button, line, shortened, title

__all__ = [
    "FIRST_REMINDER", "RESTING_ENDS", "ask_about", "ask_again", "doubted", "go_on", "leave",
    "remind", "rest", "resume", "run_errand", "show_read_back",
]  # fmt: skip

FIRST_REMINDER = timedelta(hours=24)
"""Nobody is reminded sooner: the frame may have bees on it."""
RESTING_ENDS = timedelta(days=90)
"""A notebook nobody came back to is thrown away after this time."""


def go_on(turn: Turn, lead: tuple[Line, ...] = (), *, echo: tuple[Step, ...] = ()) -> None:
    """After an answer: a new version if it was for an order handed in, else the next question."""
    if (number := turn.asking.number) is not None:
        handing_in.new_version(turn, number, lead)
        resume(turn)
        return
    if turn.session.errands:
        run_errand(turn, turn.session.errands[0], lead)
        remind(turn)
        return
    step = next_step(
        turn.session.notebook,
        lid_between_walls=lambda: lid_between_walls(turn.session.notebook, turn.context.figures),
        contact_known=turn.session.contact_known,
    )
    doubt = None
    if step in (Step.CONTACT, Step.READ_BACK):
        doubt = next_question(
            turn.session.notebook, turn.context.figures, turn.session.handed.values()
        )
    if doubt is not None:
        ask_about(turn, doubt, lead, echo=echo)
    elif step is not Step.READ_BACK:
        turn.put_question(Asking(step=step), lead, echo=echo)
    elif (look := second_look(turn.session.notebook, turn.context.figures)) is not None:
        _look_again(turn, look, lead, echo)
    else:
        show_read_back(turn, lead)
    remind(turn)


def ask_about(
    turn: Turn, doubt: FollowUp, lead: tuple[Line, ...], *, echo: tuple[Step, ...] = ()
) -> None:
    """Ask what tells why the numbers do not go together, or for a length once more."""
    asking = Asking(step=doubt.step, asker=Asker.DOUBT, separate=doubt.name)
    if doubt.name is None:
        doubted(turn, doubt.remembered)
        lead = (*lead, *((line("blank"),) if lead else ()), line("doubt.again"))
    turn.put_question(asking, lead, echo=echo)


def doubted(turn: Turn, name: str) -> None:
    """The question of suspicion `name` was put and need not be put again."""
    notebook = turn.session.notebook
    if name not in notebook.doubted:
        turn.write(None, doubted=(*notebook.doubted, name))


def _look_again(turn: Turn, step: Step, lead: tuple[Line, ...], echo: tuple[Step, ...]) -> None:
    """Ask what makes the cage surer: the tape's class, or a length a second time."""
    looked = dict.fromkeys((*turn.session.notebook.looked, step))
    turn.write(None, looked=tuple(looked))
    asker = Asker.SCRIPT if step is Step.TAPE else Asker.SECOND
    turn.put_question(Asking(step=step, asker=asker), lead, echo=echo)


def resume(turn: Turn) -> None:
    """After a question about an order: what the desk asked, the notebook being filled, or rest."""
    turn.update(asking=Asking(step=Step.RESTING))
    if turn.session.errands:
        run_errand(turn, turn.session.errands[0])
    elif turn.session.notebook.answers:
        go_on(turn)


def leave(turn: Turn, lead: tuple[Line, ...]) -> None:
    """The answer that was to be changed stays as it was: back to where the conversation stood."""
    if (number := turn.asking.number) is not None:
        turn.say(*lead, number=number)
        resume(turn)
        return
    turn.update(asking=Asking(step=Step.RESTING))
    go_on(turn, lead)


def run_errand(turn: Turn, errand: Errand, lead: tuple[Line, ...] = ()) -> None:
    """Ask what the desk wants measured once more; the first value is not shown."""
    lines = [*lead, *((line("blank"),) if lead else ())]
    lines.append(line("ask.again", number=NumberValue(number=errand.number)))
    if errand.note:
        lines.append(line("ask.note", note=Free(text=shortened(errand.note))))
    asking = Asking(step=errand.step, asker=Asker.DESK, number=errand.number)
    turn.put_question(asking, tuple(lines))


def remind(turn: Turn) -> None:
    """Set the one reminder of a notebook that is being filled, instead of any before it."""
    turn.update(resting=False)
    turn.do(
        NoMoreReminders(beginning="notebook-"),
        Remind(what="notebook-1", at=turn.context.now + FIRST_REMINDER),
    )


def rest(turn: Turn) -> None:
    """The person will come back: no reminders until then, and an end to the keeping."""
    turn.update(resting=True)
    turn.do(
        NoMoreReminders(beginning="notebook-"),
        Remind(what="notebook-end", at=turn.context.now + RESTING_ENDS),
    )


def ask_again(turn: Turn, lead: tuple[Line, ...] = ()) -> None:
    """Say once more what is being asked, from wherever the conversation stands."""
    asking = turn.asking
    if asking.step is Step.READ_BACK:
        show_read_back(turn, lead)
    elif asking.step is Step.RESTING:
        turn.say(
            *lead,
            *((line("blank"),) if lead else ()),
            *_resting_lines(turn),
            choices=resting_choices(turn),
        )
    else:
        turn.put_question(asking.plain(), lead)


def show_read_back(turn: Turn, lead: tuple[Line, ...] = ()) -> None:
    """Everything to be checked, with the cage drawn, and what can be tapped."""
    notebook = turn.session.notebook
    k = turn.session.heard_count + 1
    turn.update(asking=Asking(step=Step.READ_BACK, k=k))
    wanting = missing(notebook, contact_known=turn.session.contact_known)
    lines = [*lead, *((line("blank"),) if lead else ())]
    lines += read_back(notebook, turn.context.figures, contact=turn.context.contact)
    choices: list[Choice] = []
    if wanting:
        lines.append(line("blank"))
        lines += [line("read_back.wanting", title=title(step)) for step in wanting]
        choices += [button(step.value, f"{step.value}.title") for step in wanting]
    else:
        choices.append(button("hand-in"))
    choices.append(button("change"))
    choices += [
        button(step.value, "choice.change_one", title=title(step))
        for step in (Step.SPACER, Step.LID, Step.MATERIAL, Step.PIECES, Step.FRAMES_OUT)
    ]
    choices.append(button("person"))
    request = request_of(notebook)
    turn.say(
        *lines,
        choices=tuple(choices),
        picture=Picture(name="cage", request=request) if request else None,
        question=Step.READ_BACK.value,
    )


def _resting_lines(turn: Turn) -> tuple[Line, ...]:
    if not turn.context.orders:
        return (line("resting.none"),)
    return handing_in.order_lines(turn)


def resting_choices(turn: Turn) -> tuple[Choice, ...]:
    choices = [button("start-over", "choice.new_order")]
    if any(Stage(order.stage) in handing_in.CHANGEABLE for order in turn.context.orders):
        choices.insert(0, button("change"))
    return (*choices, button("person"))


def way_back(turn: Turn) -> tuple[Choice, ...]:
    """Back to what is asked, where something is."""
    asked = turn.asking.step is not Step.RESTING or turn.session.notebook.answers
    return (button("carry-on"),) if asked else ()


def close_questions(turn: Turn, number: str) -> None:
    """Nothing about this order is asked any more."""
    left = tuple(errand for errand in turn.session.errands if errand.number != number)
    turn.update(errands=left)
    turn.do(NoMoreReminders(beginning=f"question-{number}"))
    if turn.asking.number == number:
        resume(turn)
