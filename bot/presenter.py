"""Effects become messages: the one place where words, numbers and dates are put together.

A text may hold the tags b and i; every value that goes in is escaped, so nothing a person
typed is ever markup.
"""

from __future__ import annotations

import re

from babel import Locale, numbers
from babel.dates import format_date
from markupsafe import Markup, escape

from bot.ports import Button, Message
from conversations import reference
from conversations.answers import Unit, written
from conversations.effects import (
    Choice,
    Count,
    DateValue,
    Free,
    InUnit,
    LengthValue,
    Line,
    Money,
    NumberValue,
    Say,
    Value,
)
from conversations.locale import Catalogue, catalogue

__all__ = ["Presenter", "length"]

_TAG = re.compile(r"</?[bi]>")
BLANK, FREE = "blank", "free"


def length(value: LengthValue, language: str) -> str:
    """A length in mm, and in the person's own unit where that is another: 363 mm (36.3 cm)."""
    mark = _decimal_mark(language)
    mm = written(value.mm, Unit.MM, mark)
    if value.also is None:
        return mm
    return f"{mm} ({written(value.mm, Unit(value.also), mark)})"


def _decimal_mark(language: str) -> str:
    return numbers.get_decimal_symbol(Locale.parse(language))


class Presenter:
    """Writes messages in the language each one asks for."""

    def present(self, say: Say) -> Message:
        """The message that `say` stands for."""
        texts = catalogue(say.language)
        html = Markup("\n").join(_line(texts, line) for line in say.lines)
        return Message(
            html=str(html),
            text=_plain(html),
            buttons=tuple(_button(texts, choice) for choice in say.choices),
            picture=say.picture,
            document=say.document,
            question=say.question,
            again=say.again,
            stage=say.stage,
            number=say.number,
            refused=say.refused,
        )


def _button(texts: Catalogue, choice: Choice) -> Button:
    return Button(choice.id, _plain(_line(texts, choice.label)))


def _plain(html: Markup) -> str:
    return Markup(_TAG.sub("", html)).unescape()  # noqa: S704 - only to undo the escaping


def _line(texts: Catalogue, line: Line) -> Markup:
    if line.key == BLANK:
        return Markup("")
    values = {name: _value(texts, value) for name, value in line.values.items()}
    if line.key == FREE:
        return escape(values["text"])
    counts = [value.n for value in line.values.values() if isinstance(value, Count)]
    plural = len(counts) == 1 and texts.is_plural(line.key)
    text = texts.plural(line.key, counts[0]) if plural else texts.text(line.key)
    return Markup(text).format(**values)  # noqa: S704 - the text is ours; format() escapes values


def _value(texts: Catalogue, value: Value) -> str | Markup:
    if isinstance(value, LengthValue):
        return length(value, texts.language)
    if isinstance(value, InUnit):
        return written(value.mm, Unit(value.unit), _decimal_mark(texts.language))
    if isinstance(value, Count):
        return numbers.format_decimal(value.n, locale=texts.language)
    if isinstance(value, NumberValue):
        return reference.format(value.number)
    if isinstance(value, DateValue):
        return format_date(value.day, format="long", locale=texts.language)
    if isinstance(value, Money):
        return numbers.format_currency(value.amount, value.currency, locale=texts.language)
    if isinstance(value, Free):
        return value.text
    return Markup(texts.text(value.key))  # noqa: S704 - a text of ours
