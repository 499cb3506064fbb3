"""Staff on Telegram: cards with buttons, and a few words to type. Each acts in a private chat.

Who somebody is comes from the staff table, bound once with a one-time code; what they may do is
looked up at each action, in the core. A button carries verb, number and version; what it names
is checked like everything that comes from outside.
"""

from __future__ import annotations

import re
from collections.abc import Mapping
from dataclasses import dataclass
from datetime import datetime
from typing import Any

from markupsafe import Markup, escape
from telegram import InlineKeyboardButton, InlineKeyboardMarkup

from bot.desk import order as desk_order
from bot.desk import queue as desk_queue
from bot.storage.database import Database
from bot.storage.staff import Member
from conversations import reference
from conversations.events import Desk, DeskVerb
from conversations.locale import Catalogue, catalogue
from conversations.review import MAY, MOVES, Role, Stage
from conversations.script import QUESTIONS, Kind

__all__ = ["Card", "Reading", "card", "measures", "queue_text", "read_tap", "read_words", "typed"]

VERSION = "d1"
WORDS = {
    "take": DeskVerb.TAKE, "clear": DeskVerb.CLEAR, "ask": DeskVerb.ASK,
    "turndown": DeskVerb.TURN_DOWN, "note": DeskVerb.NOTE, "bench": DeskVerb.BENCH,
    "made": DeskVerb.MADE, "posted": DeskVerb.POSTED,
}  # fmt: skip
_TYPED = {verb: word for word, verb in WORDS.items()}
_LENGTHS = tuple(step.value for step, one in QUESTIONS.items() if one.kind is Kind.LENGTH)
_TAP = re.compile(rf"{VERSION}:([a-z-]+):([0-9]{{8}}):([0-9]{{1,4}})(?::([a-z_]+))?")
_LINE = re.compile(
    r"/?([a-z]+)\s+((?:[0-9][ \u00a0.-]?){7}[0-9])(?:\s+v([0-9]{1,4}))?(?:\s+([\s\S]+))?",
    re.IGNORECASE,
)
INSTEAD = "+"
"""A line of a turn-down that begins so says what would work."""
_SHOWN = 3
_QUEUED = 20


@dataclass(frozen=True, slots=True)
class Card:
    """An order as one message: its text and what can be tapped."""

    html: str
    keyboard: InlineKeyboardMarkup | None


@dataclass(frozen=True, slots=True)
class Reading:
    """What a member of staff wants: an action, a card, the queue, or help (all None)."""

    event: Desk | None = None
    show: str | None = None
    queue: bool = False
    choose: tuple[str, int] | None = None
    """Which measure of this order and version is to be asked for?"""
    words: tuple[DeskVerb, str] | None = None
    """This verb needs words, to be typed."""


def read_tap(data: str, base: Mapping[str, Any]) -> Reading:
    """What a tapped button of a card stands for."""
    match = _TAP.fullmatch(data)
    if match is None or match[1] not in {*DeskVerb, "show"}:
        return Reading()
    verb, number, version, measure = match[1], match[2], int(match[3]), match[4]
    if verb == "show":
        return Reading(show=number)
    if verb == DeskVerb.ASK and measure is None:
        return Reading(choose=(number, version))
    if MOVES.get(DeskVerb(verb)) is not None and MOVES[DeskVerb(verb)].needs_note:
        return Reading(words=(DeskVerb(verb), number))
    return Reading(
        event=Desk(verb=DeskVerb(verb), number=number, version=version, measure=measure, **base)
    )


def read_words(text: str, base: Mapping[str, Any]) -> Reading:
    """What was typed: an order number, `queue`, or a verb with a number and words."""
    said = text.strip()
    if reference.is_valid(said):
        return Reading(show=reference.compact(said))
    if said.casefold().lstrip("/") in ("queue", "start", "orders"):
        return Reading(queue=True)
    match = _LINE.fullmatch(said)
    if match is None or match[1].casefold() not in WORDS or not reference.is_valid(match[2]):
        return Reading()
    verb, number = WORDS[match[1].casefold()], reference.compact(match[2])
    version, words = int(match[3]) if match[3] else None, (match[4] or "").strip()
    measure, instead = None, ""
    if verb is DeskVerb.ASK:
        measure, _, words = words.partition(" ")
    elif verb is DeskVerb.TURN_DOWN:
        words, _, instead = f"\n{words}".partition(f"\n{INSTEAD}")
    return Reading(
        event=Desk(
            verb=verb, number=number, version=version, measure=measure,
            note=words.strip(), would_work=instead.strip(), **base,
        )
    )  # fmt: skip


def card(
    database: Database, number: str, member: Member, language: str, lead: str = ""
) -> Card | None:
    """The newest version of an order, with what this member may do now; None without one."""
    role = Role(member.role)
    sheet = desk_order.read(database, number, role)
    if sheet is None:
        return None
    texts = catalogue(language)
    stage = texts.text(f"stage.{sheet.stage}")
    lines = [Markup(lead)] if lead else []  # noqa: S704 - our own presenter's
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
    return Card(str(Markup("\n").join(lines)), _keyboard(sheet, member, texts))


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
            data = f"{VERSION}:{verb.value}:{sheet.number}:{sheet.version}"
            rows.append([InlineKeyboardButton(label, callback_data=data)])
    return InlineKeyboardMarkup(rows) if rows else None


def measures(number: str, version: int, language: str) -> InlineKeyboardMarkup:
    """Which measure shall be asked for again: one button each, two in a row."""
    texts = catalogue(language)
    made = [
        InlineKeyboardButton(
            texts.text(f"{name}.title"),
            callback_data=f"{VERSION}:{DeskVerb.ASK.value}:{number}:{version}:{name}",
        )
        for name in _LENGTHS
    ]
    return InlineKeyboardMarkup([made[at : at + 2] for at in range(0, len(made), 2)])


def queue_text(database: Database, language: str, now: datetime) -> Card:
    """The open orders, a line and a button each."""
    texts = catalogue(language)
    rows = desk_queue.queue(database, now)[:_QUEUED]
    lines = [
        Markup("<b>{}</b> · {} · {}").format(
            reference.format(row.number),
            texts.text(f"stage.{row.stage}"),
            texts.text(f"desk.page.why.{row.why}"),
        )
        for row in rows
    ]
    buttons = [
        InlineKeyboardButton(
            reference.format(row.number),
            callback_data=f"{VERSION}:show:{row.number}:{row.version}",
        )
        for row in rows
    ]
    keyboard = [buttons[at : at + 2] for at in range(0, len(buttons), 2)]
    html = str(Markup("\n").join(lines)) if lines else texts.text("telegram.staff.empty")
    return Card(html, InlineKeyboardMarkup(keyboard) if keyboard else None)


def typed(verb: DeskVerb, number: str) -> str:
    """The words that do what a button alone can't."""
    return f"{_TYPED[verb]} {number} …"
