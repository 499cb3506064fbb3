"""Who may sit at the desk."""

from __future__ import annotations

from datetime import UTC, datetime, timedelta

import pytest

from bot.desk.staff import (
    DESK,
    PASS_HOLDS,
    active,
    end_pass,
    fits,
    holder,
    invite,
    make_pass,
    remove,
    renew,
    sign_in,
    waits,
)
from bot.storage.database import Database
from conversations.review import Role

NOW = datetime(2026, 3, 2, 9, tzinfo=UTC)


def test_a_code_signs_in_once(database: Database) -> None:
    """The first use tells who it is; a second tells nothing."""
    code = invite(database, NOW)
    assert [sign_in(database, code, NOW) for _ in range(2)] == [DESK, None]


def test_a_new_code_ends_the_one_before(database: Database) -> None:
    """Each start prints a fresh link; the one of yesterday is worth nothing."""
    old, new = invite(database, NOW), invite(database, NOW)
    assert sign_in(database, old, NOW) is None
    assert sign_in(database, new, NOW) == DESK


def test_looking_at_a_code_does_not_use_it(database: Database) -> None:
    """It says whom it would sign in, while it would."""
    code = invite(database, NOW)
    assert waits(database, code, NOW) == DESK
    assert sign_in(database, code, NOW) == DESK
    assert waits(database, code, NOW) is None
    late = invite(database, NOW)
    assert waits(database, late, NOW + timedelta(days=4)) is None


def test_a_new_code_leaves_the_role_and_makes_nobody(database: Database) -> None:
    """Who left or never was gets none."""
    invite(database, NOW, "ben", Role.BENCH)
    code = renew(database, NOW, "ben")
    assert code is not None
    assert sign_in(database, code, NOW) == "ben"
    assert active(database, "ben") is Role.BENCH
    remove(database, NOW, "ben")
    assert renew(database, NOW, "ben") is None
    assert active(database, "ben") is None


def test_a_pass_that_was_ended_opens_nothing_and_others_still_do(database: Database) -> None:
    """Only that one; one that is none ends nothing."""
    invite(database, NOW)
    one, other = make_pass(database, DESK, NOW), make_pass(database, DESK, NOW)
    end_pass(database, f"{other}x", NOW)
    end_pass(database, one, NOW)
    end_pass(database, one, NOW)
    assert holder(database, one, NOW) is None
    assert holder(database, other, NOW) == DESK


@pytest.mark.parametrize("code", ["", "x", "0" * 32])
def test_a_made_up_code_signs_nobody_in(database: Database, code: str) -> None:
    """There is no way in but a code that was given."""
    invite(database, NOW)
    assert sign_in(database, code, NOW) is None


def test_the_code_itself_is_not_kept(database: Database) -> None:
    """What is stored does not open the desk."""
    code = invite(database, NOW)
    with database.reading() as connection:
        assert code not in str([tuple(row) for row in connection.execute("SELECT * FROM staff")])


def test_a_pass_holds_its_time(database: Database) -> None:
    """Until the last moment, and no longer; a later code does not end it."""
    invite(database, NOW, "maria")
    shown = make_pass(database, "maria", NOW)
    invite(database, NOW, "maria")
    assert holder(database, shown, NOW + PASS_HOLDS - timedelta(seconds=1)) == "maria"
    assert holder(database, shown, NOW + PASS_HOLDS) is None


def test_a_pass_ends_when_its_holder_leaves(database: Database) -> None:
    """Whether somebody works here is looked up every time."""
    invite(database, NOW, "maria")
    shown = make_pass(database, "maria", NOW)
    with database.transaction() as connection:
        connection.execute("UPDATE staff SET active = 0")
    assert holder(database, shown, NOW) is None


def test_a_name_with_a_dot_is_a_name(database: Database) -> None:
    """The parts of a pass are told apart from the end."""
    invite(database, NOW, "m.aria.k")
    assert holder(database, make_pass(database, "m.aria.k", NOW), NOW) == "m.aria.k"


@pytest.mark.parametrize("shown", ["", ".", "...", "workshop.9999999999.x.0", "workshop"])
def test_a_made_up_pass_is_nobody_s(database: Database, shown: str) -> None:
    """Without the workshop's key there is no pass."""
    invite(database, NOW)
    assert holder(database, shown, NOW) is None


def test_who_comes_back_needs_the_new_code(database: Database) -> None:
    """A pass of before may be in other hands; one that was made afterwards holds."""
    invite(database, NOW, "maria")
    shown = make_pass(database, "maria", NOW)
    assert remove(database, NOW + timedelta(hours=1), "maria")
    invite(database, NOW + timedelta(hours=2), "maria")
    assert holder(database, shown, NOW + timedelta(hours=2)) is None
    anew = make_pass(database, "maria", NOW + timedelta(hours=3))
    assert holder(database, anew, NOW + timedelta(hours=3)) == "maria"


@pytest.mark.parametrize(
    ("name", "fine"),
    [("maria", True), ("Ana María", True), ("", False), ("a.b", False), ("a:b", False),
     ("x" * 41, False), ("a\nb", False)],
)  # fmt: skip
def test_a_name_is_short_and_plain(name: str, fine: bool) -> None:
    """What parts a pass or a mailbox, and what cannot be seen, is in no name."""
    assert fits(name) == fine
