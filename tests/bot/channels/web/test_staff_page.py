"""Who works here: the operator invites and lets go; nobody else does."""

from __future__ import annotations

import re
from typing import Any

from bot.desk import staff
from conversations.review import Role


def posted(desk: Any, **values: str) -> Any:
    """Send the form with that verb from the page of staff."""
    desk.open("/desk/staff")
    form = next(one for one in desk.forms() if one.fields.get("verb") == values["verb"])
    return desk.post(form, **values)


def test_somebody_invited_signs_in_once_with_the_link(desk: Any, new_visitor: Any) -> None:
    """The link stands on the page once, and the code for Telegram beside it."""
    shown = posted(desk, verb="invite", name="lena", role="desk").text
    code = re.search(r"/desk/in/([\w-]+)", shown)
    assert code is not None
    assert f"/start {code[1]}" in shown
    lena = new_visitor()
    assert "Orders that are open" in lena.enter(code[1])
    assert code[1] not in desk.open("/desk/staff")


def test_who_was_let_go_is_out_at_once(desk: Any, site: Any, clock: Any, new_visitor: Any) -> None:
    """With the next page they ask for."""
    maria = new_visitor()
    maria.enter(staff.invite(site.workshop.database, clock.now(), "maria", Role.DESK))
    assert maria.client.get("/desk").status_code == 200
    assert posted(desk, verb="remove", name="maria").status_code == 200
    assert maria.client.get("/desk").status_code == 403


def test_only_the_operator_sees_and_does_it(site: Any, clock: Any, new_visitor: Any) -> None:
    """Desk and bench are refused, page and form."""
    for role in (Role.DESK, Role.BENCH):
        who = new_visitor()
        who.enter(staff.invite(site.workshop.database, clock.now(), role, role))
        assert who.client.get("/desk/staff").status_code == 403
        answer = who.client.post("/desk/staff", data={"verb": "invite", "name": "x"})
        assert answer.status_code == 403


def test_the_operator_can_t_lock_themself_out(desk: Any, site: Any, clock: Any) -> None:
    """A name that works here is not invited anew, and a new code leaves the role alone."""
    refused = posted(desk, verb="invite", name=staff.DESK, role="bench")
    assert refused.status_code == 409
    assert "works here already" in refused.text
    assert desk.client.get("/desk/staff").status_code == 200
    desk.open("/desk/staff")
    form = next(
        one for one in desk.forms()
        if one.fields.get("verb") == "renew" and one.fields.get("name") == staff.DESK
    )  # fmt: skip
    shown = desk.post(form).text
    code = re.search(r"/start ([\w-]+)", shown)
    assert code is not None
    assert staff.sign_in(site.workshop.database, code[1], clock.now()) == staff.DESK
    assert staff.active(site.workshop.database, staff.DESK) is Role.OPERATOR
    assert posted(desk, verb="renew", name="nobody").status_code == 404


def test_a_name_that_cannot_be_one_is_refused(desk: Any) -> None:
    """With what would do; a role that there is not is no form of ours."""
    refused = posted(desk, verb="invite", name="a.b", role="desk")
    assert refused.status_code == 422
    assert "no dot" in refused.text
    assert 'href="/desk/staff"' in refused.text
    assert posted(desk, verb="invite", name="maria", role="queen").status_code == 400
