"""What can be said at any time: help, change, later, a person, status, and the like.

The words for a wish stand in each language's catalogue under `wish.NAME`, separated by `|`;
all languages are understood at once.
"""

from __future__ import annotations

from collections.abc import Callable
from functools import cache

from conversations.answers.text import normalise
from conversations.effects import Choice, Document, Journal, Line, NoMoreReminders, Remind
from conversations.locale import catalogue, languages
from conversations.review import CHANGEABLE, Stage
from conversations.session import Asking, Notebook
from conversations.steps import Step
from conversations.turns import asides, choosing, onward
from conversations.turns.handing_in import order_lines
from conversations.turns.turn import Turn, button, line

__all__ = ["WISHES", "grant", "named", "says_no_lugs"]


@cache
def _words() -> dict[str, str]:
    found: dict[str, str] = {}
    for language in languages():
        for name in WISHES:
            for word in catalogue(language).text(f"wish.{name}").split("|"):
                found.setdefault(normalise(word), name)
    return found


def named(text: str) -> str | None:
    """The wish a message speaks of: `/help`, "help", "pomoc" … or None."""
    said = normalise(text).rstrip(".!?") or text.strip()
    if said.startswith("/"):
        command = said[1:].split("@")[0].split()[0] if said[1:].split("@")[0].split() else ""
        return _COMMANDS.get(command)
    return _words().get(said)


def says_no_lugs(text: str) -> bool:
    """Whether the person says that the frame has no lugs at all, without any number."""
    said = normalise(text).rstrip(".!")
    return any(
        said == normalise(word)
        for language in languages()
        for word in catalogue(language).text("wish.no-lugs").split("|")
    )


def grant(turn: Turn, name: str) -> None:
    """Do what the person wished."""
    WISHES[name](turn)


def _start(turn: Turn) -> None:
    if not turn.session.greeted:
        choosing.greet(turn)
        return
    onward.ask_again(turn, (line("welcome.back"),))


def _help(turn: Turn) -> None:
    turn.say(
        line("help.how"), line("blank"), line("help.words"), line("help.person"),
        choices=(*onward.way_back(turn), button("change"), button("sheet"), button("person")),
    )  # fmt: skip


def _sheet(turn: Turn) -> None:
    turn.say(
        line("sheet.here"),
        choices=(button("carry-on"),),
        document=Document(name="measuring-sheet"),
    )


def _privacy(turn: Turn) -> None:
    turn.say(
        line("privacy.what"), line("privacy.who"), line("privacy.how_long"), line("privacy.erase"),
        choices=onward.way_back(turn),
    )  # fmt: skip


def _language(turn: Turn) -> None:
    before = turn.asking
    choosing.greet(turn)
    if turn.session.language_chosen and before.step is not Step.LANGUAGE:
        turn.update(asking=before)


def _status(turn: Turn) -> None:
    lines: list[Line] = list(order_lines(turn))
    if turn.session.notebook.answers:
        lines.append(line("status.notebook"))
    if not lines:
        lines.append(line("resting.none"))
    turn.say(*lines, choices=(*onward.way_back(turn), button("person")))


def _later(turn: Turn) -> None:
    onward.rest(turn)
    turn.say(line("later.fine"), choices=(button("carry-on"),))


def _carry_on(turn: Turn) -> None:
    if turn.session.notebook.answers:
        onward.remind(turn)
    onward.ask_again(turn)


def _repeat(turn: Turn) -> None:
    onward.ask_again(turn)


def _pass_on(turn: Turn) -> None:
    asides.pass_on(turn, turn.session.unheard)


def _change(turn: Turn) -> None:
    if turn.session.notebook.answers:
        choosing.list_changes(turn, None)
        return
    orders = [order for order in turn.context.orders if order.stage in CHANGEABLE]
    if orders:
        choosing.list_changes(turn, orders[-1].number)
    elif turn.context.orders:
        down = turn.context.orders[-1].stage == Stage.TURNED_DOWN
        again = (button("start-over", "choice.new_order"),) if down else ()
        turn.say(
            line("changed.turned_down" if down else "changed.too_late_ask"),
            choices=(*again, button("person")),
        )
    else:
        onward.ask_again(turn, (line("change.nothing"),))


def _start_over(turn: Turn) -> None:
    """Empty the notebook; orders that were handed in stay as they are. One tap undoes it."""
    turn.do(NoMoreReminders(beginning="notebook-"), Journal(what="started-over", by="beekeeper"))
    lead = line("start_over.fresh")
    extra: tuple[Choice, ...] = ()
    if turn.session.notebook.answers:
        turn.update(thrown=turn.session.notebook)
        turn.do(Remind(what="notebook-end", at=turn.context.now + onward.RESTING_ENDS))
        lead, extra = line("start_over.done"), (button("undo"),)
    said = tuple(entry for entry in turn.session.said if entry.number)
    turn.update(notebook=Notebook(), usual_unit=None, said=said)
    turn.put_question(Asking(step=Step.PURPOSE), (lead,), extra=extra)


def _undo(turn: Turn) -> None:
    if turn.session.thrown is None:
        onward.ask_again(turn)
        return
    turn.update(notebook=turn.session.thrown, thrown=None, asking=Asking(step=Step.RESTING))
    turn.do(Journal(what="brought-back", by="beekeeper"))
    onward.go_on(turn, (line("start_over.undone"),))


WISHES: dict[str, Callable[[Turn], None]] = {
    "start": _start,
    "help": _help,
    "sheet": _sheet,
    "privacy": _privacy,
    "language": _language,
    "status": _status,
    "later": _later,
    "carry-on": _carry_on,
    "repeat": _repeat,
    "person": asides.ask_person,
    "pass-on": _pass_on,
    "withdraw": asides.ask_withdraw,
    "change": _change,
    "start-over": _start_over,
    "undo": _undo,
}

_COMMANDS: dict[str, str] = {
    **{name: name for name in WISHES},
    **{name.replace("-", "_"): name for name in WISHES},
    **{name.replace("-", ""): name for name in WISHES},
    "settings": "language",
}
