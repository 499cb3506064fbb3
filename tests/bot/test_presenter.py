"""Effects become messages: words, numbers and dates in the person's language."""

from __future__ import annotations

from datetime import date
from decimal import Decimal
from fractions import Fraction

import pytest
from hypothesis import given
from hypothesis import strategies as st

from bot.presenter import Presenter, length
from conversations.effects import (
    Choice,
    Count,
    DateValue,
    Free,
    LengthValue,
    Line,
    Money,
    NumberValue,
    Say,
    TextKey,
    Value,
)  # fmt: skip


def said(key: str, language: str = "en", **values: Value) -> str:
    """The plain text of a message with one line."""
    line = Line(key=key, values=values)
    return Presenter().present(Say(lines=(line,), language=language)).text


def test_a_length_stands_in_millimetres_and_in_the_persons_unit() -> None:
    """36.3 cm is shown as both, with the decimal mark of the language."""
    value = LengthValue(mm=Fraction(363), also="cm")
    assert length(value, "en") == "363 mm (36.3 cm)"
    assert length(value, "pl") == "363 mm (36,3 cm)"


def test_inches_are_shown_as_fractions_beside_tenths_of_a_millimetre() -> None:
    """14 1/8 in is 358.775 mm, shown to the tenth."""
    value = LengthValue(mm=Fraction("358.775"), also="in")
    assert length(value, "en") == "358.8 mm (14 1/8 in)"


def test_money_stands_as_the_language_writes_it() -> None:
    """Sign, mark and place of the currency are those of the language; it is never promised."""
    zloty = Money(amount=Decimal("45.40"), currency="PLN")
    assert "PLN45.40" in said("read_back.price", total=zloty)
    assert "45,40\u00a0zł" in said("read_back.price", "pl", total=zloty)
    for language, words in (("en", ("about", "to be confirmed")), ("pl", ("około", "potwierdzi"))):
        text = said("read_back.price_with_post", language, total=zloty, post=zloty)
        assert all(word in text for word in words)


def test_plural_forms_follow_the_number() -> None:
    """One cage, two cages; one, two to four, and five in Polish all differ."""
    title = TextKey(key="pieces.title")
    assert "1 cage" in said("read_back.pieces", value=Count(n=1), title=title)
    assert "2 cages" in said("read_back.pieces", value=Count(n=2), title=title)
    forms = {
        said("read_back.pieces", "pl", value=Count(n=n), title=title).split(" ", 2)[-1]
        for n in (1, 2, 5)
    }
    assert len(forms) == 3


def test_order_numbers_are_grouped_and_dates_are_written_out() -> None:
    """482 917 42 with spaces that do not break, and the day in words."""
    line = said(
        "status.handed-in",
        number=NumberValue(number="48291742"),
        since=DateValue(day=date(2026, 3, 2)),
    )
    assert line.startswith("482\u00a0917\u00a042: handed in on March 2, 2026.")


@given(st.text(max_size=200))
def test_what_a_person_typed_is_never_markup(text: str) -> None:
    """Typed tags and braces come out as they were typed, and only our own tags are tags."""
    say = Say(lines=(Line(key="ask.note", values={"note": Free(text=text)}),))
    message = Presenter().present(say)
    assert f"“{text}”" in message.text
    inside = message.html.partition("“")[2]
    assert "<" not in inside
    assert ">" not in inside


def test_a_message_keeps_its_choices_in_order_with_labels_in_the_language() -> None:
    """Ids stay, labels are words."""
    choices = tuple(Choice(id=name, label=Line(key=f"choice.{name}")) for name in ("yes", "no"))
    message = Presenter().present(Say(lines=(), choices=choices, language="pl"))
    assert [(one.id, one.label) for one in message.buttons] == [("yes", "Tak"), ("no", "Nie")]


def test_a_text_that_does_not_exist_is_our_mistake_and_raises() -> None:
    """A missing key is never shown as a key."""
    with pytest.raises(KeyError, match=r"nowhere\.at-all"):
        said("nowhere.at-all")
