"""Cards for staff on Telegram: an order, the queue, a question, each with its buttons.

Who somebody is comes from the staff table, bound once with a one-time code; what they may do is
looked up at each action, in the core.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from datetime import datetime
from typing import Any

from markupsafe import Markup, escape
from telegram import InlineKeyboardButton, InlineKeyboardMarkup

from bot.channels.telegram.staff_words import ALONE, LEAVE, QUEUE, SHOW, VERSION, spoken
from bot.desk import order as desk_order
from bot.desk import queue as desk_queue
from bot.desk.asking import MEASURES
from bot.storage.database import Database
from bot.storage.staff import Member
from bot.storage.staff_chats import Wanted
from conversations import reference
from conversations.events import DeskVerb
from conversations.locale import Catalogue, catalogue
from conversations.review import MAY, MOVES, Role, Stage

__all__ = ["Card", "card", "help_text", "measures", "queue_text", "wanted_words"]

_SHOWN = 3
_QUEUED = 20
_CONTACT = 80
"""[letters] of a contact in a line of the queue; the card has the rest."""


@dataclass(frozen=True, slots=True)
class Card:
    """One message: its text and what can be tapped; for an order, how it stood."""

    html: str
    keyboard: InlineKeyboardMarkup | None = None
    number: str | None = None
    version: int = 0
    stage: str = ""


def card(
    database: Database, number: str, member: Member, language: str, lead: str = "",
    *, refused: bool = False,
) -> Card | None:  # fmt: skip
    """The newest version of an order, with what this member may do now; None without one.

    `lead`: what it is shown with. `refused`: an action was, and it is said who was quicker.
    """
    role = Role(member.role)
    sheet = desk_order.read(database, number, role)
    if sheet is None:
        return None
    texts = catalogue(language)
    stage = texts.text(f"stage.{sheet.stage}")
    lines = [Markup(lead)] if lead else []  # noqa: S704 - our own presenter's
    if refused and sheet.moved_by not in (None, member.name):
        lines.append(escape(texts.text("desk.page.moved_by").format(by=sheet.moved_by)))
    by = f" ({sheet.moved_by})" if sheet.moved_by else ""
    lines.append(
        Markup("<b>{}</b> · {}{} · v{}").format(reference.format(number), stage, by, sheet.version)
    )
    for one in sheet.cages:
        lines.append(_cage_line(one, texts))
    lines += [_finding_line(finding, texts) for finding in sheet.findings[:_SHOWN]]
    if sheet.contact:
        lines.append(escape(sheet.contact))
    if not sheet.reachable:
        lines.append(escape(texts.text("desk.page.unreachable")))
    keyboard = _keyboard(sheet, member, texts)
    html = str(Markup("\n").join(lines))
    return Card(html, keyboard, sheet.number, sheet.version, sheet.stage)


def _cage_line(cage: Mapping[str, Any], texts: Catalogue) -> Markup:
    design = cage["design"]
    sizes = (design["cage"][name] for name in ("length_outside", "height_overall", "depth_outside"))
    return Markup("{} × {} mm, {}: <b>{}</b>").format(
        cage["pieces"],
        " × ".join("?" if size is None else f"{size:g}" for size in sizes),
        texts.text(f"purpose.choice.{cage['request']['purpose']}"),
        texts.text(f"desk.page.verdict.{design['verdict']}"),
    )


def _finding_line(finding: Mapping[str, Any], texts: Catalogue) -> Markup:
    code = str(finding["code"])
    key = f"finding.{code}"
    return Markup("{}: {} ({:g})").format(
        texts.text(f"desk.page.severity.{finding['severity']}"),
        texts.text(key) if texts.has(key) else code,
        finding["seen"],
    )


def _keyboard(
    sheet: desk_order.Sheet, member: Member, texts: Catalogue
) -> InlineKeyboardMarkup | None:
    rows = []
    for verb, move in MOVES.items():
        if Stage(sheet.stage) in move.source and verb in MAY[Role(member.role)]:
            label = texts.text(f"desk.page.do.{verb.value}").format(version=sheet.version)
            rows.append([_button(label, verb.value, sheet.number, sheet.version)])
    return InlineKeyboardMarkup(rows) if rows else None


def measures(number: str, version: int, language: str) -> Card:
    """Which measure shall be asked for again: one button each, two in a row."""
    texts = catalogue(language)
    made = [
        _button(texts.text(f"{name}.title"), DeskVerb.ASK.value, number, version, name)
        for name in MEASURES
    ]
    rows = [*(made[at : at + 2] for at in range(0, len(made), 2)), [_leave(texts)]]
    return Card(texts.text("telegram.staff.which"), InlineKeyboardMarkup(rows))


def wanted_words(wanted: Wanted, language: str) -> Card:
    """Asks for the words that go with an action; a question can go without."""
    texts = catalogue(language)
    lines = [Markup("<b>{}</b>").format(reference.format(wanted.number))]
    if wanted.measure is not None:
        lines[0] += Markup(" · {}").format(texts.text(f"{wanted.measure}.title"))
    lines.append(escape(texts.text(f"telegram.staff.say.{wanted.verb}")))
    rows = [[_leave(texts)]]
    if wanted.verb == DeskVerb.ASK and wanted.version is not None:
        label = texts.text("telegram.staff.alone")
        rows[0].insert(
            0, _button(label, ALONE, wanted.number, wanted.version, wanted.measure or "")
        )
    return Card(str(Markup("\n").join(lines)), InlineKeyboardMarkup(rows))


def _button(label: str, what: str, number: str, version: int, *more: str) -> InlineKeyboardButton:
    data = ":".join([VERSION, what, number, str(version), *more])
    return InlineKeyboardButton(label, callback_data=data)


def _leave(texts: Catalogue) -> InlineKeyboardButton:
    data = f"{VERSION}:{LEAVE}"
    return InlineKeyboardButton(texts.text("telegram.staff.leave"), callback_data=data)


def queue_text(database: Database, member: Member, language: str, now: datetime) -> Card:
    """The open orders, a line and a button each, what waits for this member first."""
    texts = catalogue(language)
    rows = desk_queue.queue(database, now, Role(member.role))
    shown = rows[:_QUEUED]
    if not rows:
        return Card(texts.text("telegram.staff.empty"))
    lines = [_queue_line(row, texts) for row in shown]
    if len(rows) > len(shown):
        lines.append(escape(texts.text("telegram.staff.more").format(n=len(rows) - len(shown))))
    buttons = [
        _button(reference.format(row.number), SHOW, row.number, row.version) for row in shown
    ]
    keyboard = [buttons[at : at + 2] for at in range(0, len(buttons), 2)]
    return Card(str(Markup("\n").join(lines)), InlineKeyboardMarkup(keyboard))


def _queue_line(row: desk_queue.Row, texts: Catalogue) -> Markup:
    parts = [texts.text(f"stage.{row.stage}"), texts.text(f"desk.page.why.{row.why}")]
    if row.taken_by is not None:
        parts[0] += f" ({row.taken_by})"
    if row.contact is not None:
        parts.append(row.contact[:_CONTACT])
    if not row.reachable:
        parts.append(texts.text("desk.page.unreachable"))
    return Markup("<b>{}</b> · {}").format(reference.format(row.number), " · ".join(parts))


def help_text(language: str) -> Card:
    """What can be sent, in the words of that language."""
    texts = catalogue(language)
    words = " · ".join(spoken(verb.value, language) for verb in MOVES)
    queue = spoken(QUEUE, language)
    return Card(escape(texts.text("telegram.staff.help").format(queue=queue, words=words)))
