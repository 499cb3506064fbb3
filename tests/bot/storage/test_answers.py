"""What was answered, photographed and noted."""

from __future__ import annotations

from datetime import UTC, datetime
from fractions import Fraction
from typing import TYPE_CHECKING

import pytest
from hypothesis import given
from hypothesis import strategies as st

from bot.storage import answers, people
from bot.storage.answers import plain
from conversations.effects import Answered, PhotoKept

if TYPE_CHECKING:
    from bot.storage.database import Database
    from tests.bot.conftest import Shop

NOW = datetime(2026, 3, 2, 9, tzinfo=UTC)


@pytest.mark.parametrize(
    ("value", "written"),
    [
        (Fraction(363), "363"),
        (Fraction("460.35"), "460.35"),
        (Fraction(1, 64) * Fraction("25.4"), "0.396875"),
        (Fraction(400), "400"),
        (Fraction(1, 3), "1/3"),
    ],
)
def test_lengths_are_written_as_people_write_them(value: Fraction, written: str) -> None:
    """A decimal where it is exact, a fraction where no decimal is."""
    assert plain(value) == written


@given(st.fractions(min_value=0, max_value=10**6, max_denominator=10**6))
def test_nothing_is_lost_in_writing(value: Fraction) -> None:
    """What is written is exactly the value."""
    assert Fraction(plain(value)) == value


def test_a_later_answer_supersedes_the_earlier(shop: Shop) -> None:
    """Both stay; the earlier one says which took its place."""
    shop.send("answer 360")
    shop.send("answer 721/2")
    assert shop.rows("SELECT id, reading, superseded_by FROM answers") == [
        (1, "360", 2),
        (2, "360.5", None),
    ]


def test_answers_of_another_order_are_not_superseded(shop: Shop) -> None:
    """A new notebook starts with no answers."""
    shop.send("answer 360; order")
    shop.send("answer 361")
    assert shop.rows("SELECT reading, superseded_by FROM answers") == [
        ("360", None),
        ("361", None),
    ]


def test_words_are_kept_of_measures_alone(shop: Shop) -> None:
    """Where people write names, neither what they typed nor what was understood is kept."""
    shop.send("name Anna's frame; answer 360")
    assert shop.rows("SELECT question, raw, reading FROM answers") == [
        ("frame_name", None, None),
        ("side_to_side", "360", "360"),
    ]


def test_i_do_not_know_is_an_answer(database: Database) -> None:
    """It is kept without a reading."""
    said = Answered(question="lug_thickness", raw="?", reading=None, how="dont-know")
    with database.transaction() as connection:
        people.meet(connection, "anna", "web", NOW)
        answers.answer(connection, "anna", said, NOW)
        row = connection.execute("SELECT reading, resolution, how FROM answers").fetchone()
    assert tuple(row) == (None, None, "dont-know")


def test_a_photo_finds_its_question(database: Database) -> None:
    """The row made when it was stored is the one that is attached; its size stays known."""
    with database.transaction() as connection:
        people.meet(connection, "anna", "web", NOW)
        answers.add_photo(connection, "anna", "ab", at=NOW, width=40, height=30, size=999)
        kept = PhotoKept(photo="ab", question="side_to_side")
        answers.attach_photo(connection, "anna", kept, NOW)
        rows = connection.execute("SELECT sha, question, width, bytes FROM photos").fetchall()
        assert answers.photo_shas(connection) == {"ab"}
    assert [tuple(row) for row in rows] == [("ab", "side_to_side", 40, 999)]


def test_the_same_photo_for_two_questions_belongs_to_both(database: Database) -> None:
    """The second question gets a row of its own."""
    with database.transaction() as connection:
        people.meet(connection, "anna", "web", NOW)
        answers.add_photo(connection, "anna", "ab", at=NOW, width=40, height=30, size=999)
        for question in ("side_to_side", "lug_room"):
            kept = PhotoKept(photo="ab", question=question)
            answers.attach_photo(connection, "anna", kept, NOW)
        rows = connection.execute("SELECT question, width FROM photos ORDER BY id").fetchall()
    assert [tuple(row) for row in rows] == [("side_to_side", 40), ("lug_room", 40)]


def test_a_photo_nobody_stored_before_is_noted_all_the_same(database: Database) -> None:
    """Its size is then not known."""
    with database.transaction() as connection:
        people.meet(connection, "anna", "web", NOW)
        kept = PhotoKept(photo="ab", question="lug_room")
        answers.attach_photo(connection, "anna", kept, NOW)
        row = connection.execute("SELECT question, width FROM photos").fetchone()
    assert tuple(row) == ("lug_room", None)
