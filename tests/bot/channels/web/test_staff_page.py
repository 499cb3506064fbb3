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
    shown = posted(desk, verb="invite", name="maria", role="desk").text
    code = re.search(r"/desk/in/([\w-]+)", shown)
    assert code is not None
    assert f"/start {code[1]}" in shown
    maria = new_visitor()
    assert "Orders that are open" in maria.open(f"/desk/in/{code[1]}")
    assert code[1] not in desk.open("/desk/staff")


def test_who_was_let_go_is_out_at_once(desk: Any, site: Any, clock: Any, new_visitor: Any) -> None:
    """With the next page they ask for."""
    maria = new_visitor()
    maria.open(f"/desk/in/{staff.invite(site.workshop.database, clock.now(), 'maria', Role.DESK)}")
    assert maria.client.get("/desk").status_code == 200
    assert posted(desk, verb="remove", name="maria").status_code == 200
    assert maria.client.get("/desk").status_code == 403


def test_only_the_operator_sees_and_does_it(site: Any, clock: Any, new_visitor: Any) -> None:
    """Desk and bench are refused, page and form."""
    for role in (Role.DESK, Role.BENCH):
        who = new_visitor()
        who.open(f"/desk/in/{staff.invite(site.workshop.database, clock.now(), role, role)}")
        assert who.client.get("/desk/staff").status_code == 403
        answer = who.client.post("/desk/staff", data={"verb": "invite", "name": "x"})
        assert answer.status_code == 403


def test_a_name_that_cannot_be_one_is_refused(desk: Any) -> None:
    """Nor a role that there is not."""
    assert posted(desk, verb="invite", name="a.b", role="desk").status_code == 400
    assert posted(desk, verb="invite", name="maria", role="queen").status_code == 400
