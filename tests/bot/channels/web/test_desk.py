"""The desk's pages as a member of staff uses them."""

from __future__ import annotations

import re
from typing import Any

import httpx
import pytest

from bot.channels.web.identity import DESK_COOKIE
from bot.desk import staff


def ordered(visitor: Any, **contact: str) -> str:
    """The number of an order that this visitor hands in."""
    found = re.findall(r"number: <b>([^<]+)</b>", visitor.order(**contact))
    return re.sub(r"\D", "", found[-1])


def do(desk: Any, number: str, verb: str, **values: str) -> str:
    """Open the order, do this with it; the page after it."""
    desk.open(f"/desk/order/{number}")
    form = next(form for form in desk.forms() if form.fields.get("verb") == verb)
    answer = desk.post(form, **values)
    assert answer.status_code == 303, answer.text
    return str(desk.open(answer.headers["location"]))


def test_without_a_pass_the_desk_is_closed(visitor: Any) -> None:
    """The pages say how to sign in, and nothing of any order."""
    number = ordered(visitor)
    for path in ("/desk", f"/desk/order/{number}"):
        answer = visitor.client.get(path)
        assert answer.status_code == 403
        assert "sign-in link" in answer.text
        assert "iwo@example.org" not in answer.text
    answer = visitor.client.post(f"/desk/order/{number}", data={"verb": "clear", "version": "1"})
    assert answer.status_code == 403


def test_the_link_works_once(site: Any, clock: Any, new_visitor: Any) -> None:
    """Who uses it first is at the desk and stays there; for others it does nothing any more."""
    code = staff.invite(site.workshop.database, clock.now())
    first, second = new_visitor(), new_visitor()
    assert "Orders that are open" in first.enter(code)
    assert "does not work any more" in second.enter(code)
    assert second.client.get("/desk").status_code == 403
    assert first.client.get(f"/desk/in/{code}").headers["location"] == "/desk"
    assert first.client.get("/desk").status_code == 200


def test_looking_at_the_link_uses_up_nothing(site: Any, clock: Any, new_visitor: Any) -> None:
    """A chat's preview opens it before anybody does; one tap signs in all the same."""
    code = staff.invite(site.workshop.database, clock.now())
    for _ in range(3):
        looked = httpx.get(f"{site.address}/desk/in/{code}")
        assert looked.status_code == 200
        assert DESK_COOKIE not in looked.cookies
    assert "Orders that are open" in new_visitor().enter(code)


def test_a_sign_in_form_of_somebody_else_signs_nobody_in(
    site: Any, clock: Any, new_visitor: Any
) -> None:
    """A page of another site can't sign anybody in under its own name."""
    code = staff.invite(site.workshop.database, clock.now())
    one, other = new_visitor(), new_visitor()
    one.open(f"/desk/in/{code}")
    form = one.form(f"/desk/in/{code}")
    assert other.post(form).status_code == 403
    other.open(f"/desk/in/{code}")
    assert other.post(form).status_code == 403
    assert one.post(form).status_code == 303


def test_a_pass_that_was_signed_out_opens_nothing(desk: Any, site: Any) -> None:
    """Neither in a copy that somebody kept; another pass of the same person still holds."""
    copied = {"cookie": f"{DESK_COOKIE}={desk.client.cookies[DESK_COOKIE]}"}
    assert httpx.get(f"{site.address}/desk", headers=copied).status_code == 200
    desk.open("/desk")
    desk.post(desk.form("/desk/out"))
    assert httpx.get(f"{site.address}/desk", headers=copied).status_code == 403


@pytest.mark.parametrize("shown", ["{whole}x", "x{whole}", "x", "", "a.b.c.d", "ü"])
def test_a_changed_pass_opens_nothing(desk: Any, site: Any, shown: str) -> None:
    """A pass is whole or it is none."""
    cookie = shown.format(whole=desk.client.cookies[DESK_COOKIE])
    headers = [(b"cookie", f"{DESK_COOKIE}={cookie}".encode())]
    assert httpx.get(f"{site.address}/desk", headers=headers).status_code == 403


def test_the_queue_shows_what_waits(desk: Any, visitor: Any) -> None:
    """A fresh order stands there with stage, whose turn it is and how it fits."""
    number = ordered(visitor)
    html = desk.open("/desk")
    row = next(row for row in html.split("<tr>") if f"/desk/order/{number}" in row)
    assert [words in row for words in ("handed in", "the desk", "fits")] == [True] * 3


def test_one_order_stands_on_one_page(desk: Any, visitor: Any) -> None:
    """Typed and understood, the gaps with their verdicts, the way it came, how to reach them."""
    html = desk.open(f"/desk/order/{ordered(visitor)}")
    for words in ("iwo@example.org", "361 mm", "Gaps", "end of the cage", "No doubts", "handed in"):
        assert words in html, words


def test_take_ask_answer_clear(desk: Any, visitor: Any) -> None:
    """The whole way of a question: the desk asks, the beekeeper answers, version 2 is cleared."""
    number = ordered(visitor)
    assert "on the desk" in do(desk, number, "take")
    page = do(desk, number, "ask", measure="top_to_bottom", note="Please stand it on a table.")
    assert "a question is out" in page
    assert "stand it on a table" in visitor.open()
    visitor.say("262 mm")
    page = desk.open(f"/desk/order/{number}")
    assert "Clear version 2" in page
    assert "cleared" in do(desk, number, "clear")
    assert "is cleared" in visitor.open()


def test_clearing_an_older_version_is_refused(desk: Any, visitor: Any) -> None:
    """The page that was open shows version 1; meanwhile there is version 2."""
    number = ordered(visitor)
    desk.open(f"/desk/order/{number}")
    old = next(form for form in desk.forms() if form.fields.get("verb") == "clear")
    do(desk, number, "ask", measure="lug_to_lug")
    visitor.open()
    visitor.say("391,5")
    answer = desk.post(old)
    page = desk.open(answer.headers["location"])
    assert "Not done:" in page
    assert "newer version" in page
    assert "Clear version 2" in page


def test_turning_down_needs_a_reason_and_tells_it(desk: Any, visitor: Any) -> None:
    """Without a reason nothing happens; with one the beekeeper reads it."""
    number = ordered(visitor)
    assert "Not done:" in do(desk, number, "turn-down", note="  ")
    do(desk, number, "turn-down", note="The hive is narrower than the frame.")
    assert "narrower than the frame" in visitor.open()
    assert "Orders that are done" in desk.open("/desk")


def test_a_note_stays_in_the_workshop(desk: Any, visitor: Any) -> None:
    """The page shows it; the beekeeper never sees it."""
    number = ordered(visitor)
    assert "<b>big</b>" not in do(desk, number, "note", note="<b>big</b> order, nice person")
    assert "nice person" in desk.open(f"/desk/order/{number}")
    assert "nice person" not in visitor.open()


def test_the_same_form_twice_is_done_once(desk: Any, visitor: Any, site: Any) -> None:
    """A double click keeps one note."""
    number = ordered(visitor)
    desk.open(f"/desk/order/{number}")
    form = next(form for form in desk.forms() if form.fields.get("verb") == "note")
    for _ in range(2):
        desk.post(form, note="only once")
    assert desk.open(f"/desk/order/{number}").count("only once") == 1


def test_a_forged_form_does_nothing(desk: Any, visitor: Any) -> None:
    """The desk's forms carry the token of the pass, not of the chat."""
    number = ordered(visitor)
    desk.open(f"/desk/order/{number}")
    form = next(form for form in desk.forms() if form.fields.get("verb") == "clear")
    desk.open("/chat")
    form.fields["form"] = desk.form().fields["form"]
    assert desk.post(form).status_code == 403
    assert "Clear version 1" in desk.open(f"/desk/order/{number}")


@pytest.mark.parametrize(("verb", "version"), [("dance", "1"), ("clear", "one"), ("", "")])
def test_a_form_that_makes_no_sense_is_refused(
    desk: Any, visitor: Any, verb: str, version: str
) -> None:
    """Nothing is guessed from a form that we did not make."""
    number = ordered(visitor)
    desk.open(f"/desk/order/{number}")
    form = next(form for form in desk.forms() if form.fields.get("verb") == "clear")
    form.fields.update(verb=verb, version=version)
    assert desk.post(form).status_code == 400


def test_an_unknown_order_is_no_page(desk: Any) -> None:
    """A number that was never given leads to a kind page."""
    desk.open("/desk/order/12345678")
    assert desk.page.status_code == 404


def test_signing_out_closes_the_desk(desk: Any) -> None:
    """After signing out the browser has no pass any more."""
    desk.open("/desk")
    desk.post(desk.form("/desk/out"))
    assert DESK_COOKIE not in desk.client.cookies
    assert desk.client.get("/desk").status_code == 403


def test_the_desk_speaks_the_language_of_the_browser(
    site: Any, clock: Any, new_visitor: Any, visitor: Any
) -> None:
    """Polish staff read Polish, whatever language the beekeeper writes in."""
    number = ordered(visitor)
    polish = new_visitor(**{"accept-language": "pl"})
    polish.enter(staff.invite(site.workshop.database, clock.now()))
    html = polish.open(f"/desk/order/{number}")
    assert '<html lang="pl">' in html
    assert "Odpowiedzi" in html


def test_an_order_that_does_not_fit_says_what_would_work(desk: Any, visitor: Any) -> None:
    """In words, with the lengths, beside the chains that a maker can check by hand."""
    number = ordered(visitor, down="248")
    page = desk.open(f"/desk/order/{number}")
    assert "does not fit" in page
    assert "What would work" in page
    assert "a loose rim on the box, at least: Room below" in page
    assert "ledge_down 248 − drop_below_ledge*" in page


def test_what_does_not_fit_is_cleared_only_with_a_reason(desk: Any, visitor: Any) -> None:
    """A few letters are refused; the reason is kept with the order, and the beekeeper's own."""
    number = ordered(visitor, down="248")
    assert 'minlength="10"' in desk.open(f"/desk/order/{number}")
    assert "at least ten characters" in do(desk, number, "clear", note="fine")
    page = do(desk, number, "clear", note="He puts a rim on the box.")
    assert "Stage: <strong>cleared" in page
    assert "He puts a rim on the box." in page
    assert "rim on the box" not in visitor.open("/chat")


def test_an_answer_is_shown_with_its_own_order_alone(
    desk: Any, visitor: Any, new_visitor: Any
) -> None:
    """Not under the address of another one, nor one that was never given."""
    one, other = ordered(visitor), ordered(new_visitor())
    desk.open(f"/desk/order/{one}")
    form = next(form for form in desk.forms() if form.fields.get("verb") == "take")
    address = desk.post(form).headers["location"]
    told = address.partition("?told=")[2]
    assert 'class="told done"' in desk.open(address)
    for shown in (told, "99999999999999999999999", str(int(told) + 999), "x"):
        assert 'class="told done"' not in desk.open(f"/desk/order/{other}?told={shown}")
