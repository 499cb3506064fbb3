"""A question of the desk before it is sent."""

from __future__ import annotations

import re
from typing import Any

import pytest

from bot.desk import staff
from conversations.review import Role


def ordered(visitor: Any) -> str:
    """The number of an order that this visitor hands in."""
    return re.sub(r"\D", "", re.findall(r"number: <b>([^<]+)</b>", visitor.order())[-1])


def rehearsed(desk: Any, number: str, **values: str) -> str:
    """Have the question shown; the page that shows it."""
    desk.open(f"/desk/order/{number}")
    form = next(form for form in desk.forms() if form.fields.get("verb") == "ask")
    form.action += "/ask"
    answer = desk.post(form, **values)
    assert answer.status_code == 200, answer.text
    desk.page = answer
    return str(answer.text)


def test_the_question_is_shown_as_it_will_be_read(desk: Any, visitor: Any) -> None:
    """With its words, its picture and its buttons; nothing has been sent."""
    number = ordered(visitor)
    page = rehearsed(desk, number, measure="lug_room", note="The lid is <tight>.")
    assert "The lid is &lt;tight&gt;." in page
    assert "Room for the lugs" in page
    assert "/files/hint/en/lug_room.png" in page
    assert "I don&#39;t know" in page
    assert "not sent yet" in page
    assert "The lid is" not in visitor.open()
    assert "handed in" in desk.open(f"/desk/order/{number}")


def test_what_was_shown_is_what_is_sent(desk: Any, visitor: Any) -> None:
    """One more press, and the beekeeper reads the same words."""
    number = ordered(visitor)
    page = rehearsed(desk, number, measure="lug_room", note="The lid is tight.")
    form = next(form for form in desk.forms() if form.fields.get("verb") == "ask")
    answer = desk.post(form, note="The lid is tight.")
    assert "a question is out" in desk.open(answer.headers["location"])
    shown = visitor.open()
    words = re.findall(r'<p class="words">([^<]*They write[^<]*)', page)
    assert words
    assert words[0] in shown


def test_the_desk_reads_it_in_english_and_in_its_own_language_too(
    site: Any, clock: Any, new_visitor: Any
) -> None:
    """A Polish order at an English desk: Polish first, since that is what is read."""
    beekeeper = new_visitor()
    beekeeper.begin = lambda: type(beekeeper).begin(beekeeper, "pl")
    number = re.sub(r"\D", "", re.findall(r"<b>(\d{3}.\d{3}.\d{2})</b>", beekeeper.order())[-1])
    for language, order in (("en", ["pl", "en"]), ("pl", ["pl", "en"])):
        desk = new_visitor(**{"accept-language": language})
        desk.enter(staff.invite(site.workshop.database, clock.now()))
        page = rehearsed(desk, number, measure="lug_room")
        assert re.findall(r'<section lang="(\w+)">', page) == order
        assert "Warsztat" in page
        assert "The workshop looked at order" in page


def test_a_measure_that_cannot_be_asked_for_is_told(desk: Any, visitor: Any) -> None:
    """As it would be on sending."""
    page = rehearsed(desk, ordered(visitor), measure="purpose")
    assert "Not done:" in page
    assert "Send this question" not in page


@pytest.mark.parametrize("verb", ["clear", "note"])
def test_only_a_question_is_rehearsed(desk: Any, visitor: Any, verb: str) -> None:
    """There is no such page for other verbs, nor for an order that is not there."""
    number = ordered(visitor)
    desk.open(f"/desk/order/{number}")
    form = next(form for form in desk.forms() if form.fields.get("verb") == "ask")
    form.action += "/ask"
    form.fields["verb"] = verb
    assert desk.post(form).status_code == 404
    form.fields["verb"] = "ask"
    form.action = "/desk/order/12345678/ask"
    assert desk.post(form).status_code == 404


def test_the_bench_has_no_questions(site: Any, clock: Any, new_visitor: Any, visitor: Any) -> None:
    """The form is not on its page, and made by hand it is refused."""
    number = ordered(visitor)
    code = staff.invite(site.workshop.database, clock.now(), "bruno", Role.BENCH)
    bruno = new_visitor()
    bruno.enter(code)
    bruno.open(f"/desk/order/{number}")
    assert {form.fields.get("verb") for form in bruno.forms()} == {None, "note"}
    form = next(form for form in bruno.forms() if form.fields.get("verb") == "note")
    form.action += "/ask"
    form.fields["verb"] = "ask"
    answer = bruno.post(form, measure="lug_room")
    assert "not for you to do" in answer.text
    assert "Room for the lugs" not in answer.text
