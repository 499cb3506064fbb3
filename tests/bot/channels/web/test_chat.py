"""The chat as a person without JavaScript uses it."""

from __future__ import annotations

from collections.abc import Callable
from typing import Any

import httpx


def test_a_first_visit_only_shows_what_this_is(visitor: Any, site: Any) -> None:
    """Looking at the page writes nothing: whoever only looks is nobody."""
    html = visitor.open()
    assert "Begin" in html
    assert visitor.client.cookies["cagewright_chat"]
    with site.workshop.database.reading() as connection:
        before = connection.execute("SELECT count(*) FROM inbox").fetchone()[0]
    visitor.open()
    with site.workshop.database.reading() as connection:
        assert connection.execute("SELECT count(*) FROM inbox").fetchone()[0] == before


def test_a_whole_order_needs_no_javascript(visitor: Any) -> None:
    """Form after form leads to the order number."""
    html = visitor.order()
    assert "Your number:" in html


def test_reloading_shows_the_whole_conversation_again(visitor: Any) -> None:
    """Nothing is in the page alone."""
    visitor.begin()
    visitor.tap("isolate")
    visitor.say("Wielkopolska")
    first = visitor.open()
    assert [first.count(words) for words in ("Begin", "English", "Wielkopolska<")] == [1, 2, 1]
    assert visitor.open().count('class="bubble') == first.count('class="bubble')


def test_two_visitors_do_not_see_each_other(new_visitor: Callable[..., Any]) -> None:
    """Each browser has its own conversation."""
    anna, berta = new_visitor(), new_visitor()
    anna.begin()
    anna.tap("isolate")
    anna.say("the old green ones")
    assert "old green ones" not in berta.begin()


def test_the_same_key_twice_is_one_message(visitor: Any) -> None:
    """A form that is sent twice, by a double click or a bad line, counts once."""
    visitor.begin()
    visitor.tap("isolate")
    form = visitor.form()
    answers = [visitor.post(form, text="Dadant") for _ in range(2)]
    assert [answer.status_code for answer in answers] == [303, 303]
    assert visitor.open().count('<p class="words">Dadant</p>') == 1


def test_a_key_counts_for_one_person_only(new_visitor: Callable[..., Any]) -> None:
    """Nobody can use up the key of another person's message."""
    anna, berta = new_visitor(), new_visitor()
    for person in (anna, berta):
        person.begin()
        person.tap("isolate")
        form = person.form()
        form.fields["id"] = "the-same-key"
        person.post(form, text="Dadant")
        assert "Dadant</p>" in person.open()


def test_an_earlier_message_can_be_changed(visitor: Any) -> None:
    """The link beside an own message leads to a form with its words; the answer changes."""
    visitor.begin()
    visitor.tap("isolate")
    visitor.tap("dont-know")
    visitor.say("365 mm")
    visitor.open("/chat/edit/2")
    form = visitor.form("/chat/edit")
    assert 'value="365 mm"' in visitor.page.text
    visitor.post(form, text="361 mm")
    html = visitor.open()
    assert "365 mm</p>" not in html
    assert "361 mm</p>" in html
    assert "361 mm (36.1 cm)" in html


def test_only_own_messages_can_be_changed(new_visitor: Callable[..., Any]) -> None:
    """There is no form for a message that the visitor never sent."""
    visitor = new_visitor()
    visitor.begin()
    visitor.open("/chat/edit/99")
    assert visitor.page.status_code == 404
    stranger = new_visitor()
    stranger.open("/chat/edit/1")
    assert stranger.page.status_code == 404


def test_a_form_without_our_token_changes_nothing(visitor: Any) -> None:
    """Another site can make a browser send a form, but not know what stands in ours."""
    visitor.begin()
    form = visitor.form()
    for forged in ("", "0" * 64, "ü"):
        form.fields["form"] = forged
        answer = visitor.post(form, text="forged")
        assert answer.status_code == 403
        assert "once more" in answer.text
    assert "forged" not in visitor.open()


def test_a_form_without_its_cookie_is_not_taken(visitor: Any, site: Any) -> None:
    """The token of one browser is none of another's."""
    visitor.begin()
    form = visitor.form()
    with httpx.Client(base_url=site.address) as other:
        answer = other.post(form.action, data={**form.fields, "text": "hello"})
        assert answer.status_code == 403
        other.get("/chat")
        assert other.post(form.action, data={**form.fields, "text": "x"}).status_code == 403


def test_a_message_without_a_key_is_not_taken(visitor: Any) -> None:
    """Without a key the same message could count twice."""
    visitor.begin()
    form = visitor.form()
    for key in ("", "short", "with space in it", "x" * 65):
        form.fields["id"] = key
        assert visitor.post(form, text="361").status_code == 400


def test_an_empty_message_is_no_message(visitor: Any) -> None:
    """Send pressed by mistake leads back and leaves no trace."""
    before = visitor.begin().count('class="bubble')
    assert visitor.post(visitor.form(), text="  ").headers["location"] == "/chat#newest"
    assert visitor.open().count('class="bubble') == before


def test_too_many_messages_in_a_minute_are_stopped_kindly(
    visitor: Any, site: Any, monkeypatch: Any
) -> None:
    """The twenty-first message in a minute is answered with how long to wait."""
    monkeypatch.setattr(site.parts.pace, "most", 20)
    visitor.open()
    form = visitor.form()
    codes = []
    for count in range(21):
        form.fields["id"] = f"message-{count}"
        codes.append(visitor.post(form, text="/help").status_code)
    assert codes == [303] * 20 + [429]
    form.fields["id"] = "message-again"
    answer = visitor.post(form, text="/help")
    assert "Nothing is lost" in answer.text
    assert int(answer.headers["retry-after"]) > 0


def test_what_is_typed_is_never_markup(visitor: Any) -> None:
    """A frame may be called anything; on the page it is words."""
    visitor.begin()
    visitor.tap("isolate")
    html = visitor.say("<script>alert(1)</script>{{ 7 * 7 }}")
    assert "<script>alert" not in html
    assert "&lt;script&gt;alert(1)&lt;/script&gt;{{ 7 * 7 }}" in html


def test_the_live_page_gets_no_page_back(visitor: Any) -> None:
    """A message sent by the script is answered with nothing, or with one line to show."""
    visitor.begin()
    visitor.client.headers["accept"] = "application/json"
    form = visitor.form()
    assert visitor.post(form, text="/help").status_code == 204
    form.fields["form"] = "forged"
    answer = visitor.post(form, text="/help")
    assert answer.status_code == 403
    assert answer.json()["what"]


def test_the_page_speaks_the_language_of_the_conversation(new_visitor: Callable[..., Any]) -> None:
    """First the browser's language, then the one that was chosen."""
    visitor = new_visitor(**{"accept-language": "pl-PL,pl;q=0.9"})
    assert '<html lang="pl">' in visitor.open()
    assert "Zaczynamy" in visitor.page.text
    assert '<html lang="en">' in visitor.begin("en")


def test_an_unknown_device_language_gets_english(new_visitor: Callable[..., Any]) -> None:
    """Whatever a browser says, there is a page."""
    for language in ("xx", "", "*", "zh-Hans;q=1", "-", "EN-GB", "1"):
        visitor = new_visitor(**{"accept-language": language})
        assert '<html lang="en">' in visitor.open()


def test_the_menu_sends_what_can_also_be_typed(visitor: Any) -> None:
    """Every entry of the menu is a command with an answer."""
    visitor.begin()
    buttons = [value for form in visitor.forms() for name, value in form.buttons if name == "text"]
    assert len(buttons) == 10
    for command in buttons:
        visitor.open()
        before = visitor.page.text.count('class="bubble ours"')
        visitor.say(command)
        assert visitor.page.text.count('class="bubble ours"') > before, command
