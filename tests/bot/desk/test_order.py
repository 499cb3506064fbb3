"""One order as the desk sees it."""

from __future__ import annotations

from typing import Any

from bot.desk.order import read
from bot.storage import people
from conversations.events import DeskVerb, Photo
from conversations.review import Role


def test_a_sheet_holds_all_of_an_order(shop: Any) -> None:
    """What was typed and understood, how to reach the person, notes and the way it came."""
    shop.send("answer 360; contact anna@example.org; order")
    ((number,),) = shop.rows("SELECT number FROM orders")
    shop.service.receive(shop.desk(DeskVerb.NOTE, number, note="a nice order"), "talk")
    sheet = read(shop.database, number)
    assert sheet is not None
    assert (sheet.number, sheet.version, sheet.stage, sheet.turn) == (
        number,
        1,
        "handed-in",
        "desk",
    )
    assert (sheet.person, sheet.contact) == ("anna", "anna@example.org")
    (answer,) = sheet.answers
    assert (answer.question, answer.raw, answer.reading) == ("side_to_side", "360", "360")
    (note,) = sheet.notes
    assert (note.by, note.what, note.text) == ("maria", "note", "a nice order")
    (stage,) = sheet.stages
    assert (stage.stage, stage.by, stage.version) == ("handed-in", "beekeeper", 1)
    assert [cage["pieces"] for cage in sheet.cages] == [2]
    assert [finding["code"] for finding in sheet.findings] == ["comb-fatter-than-wood"]


def test_only_answers_that_hold_are_shown(shop: Any) -> None:
    """An answer that another replaced is not on the sheet; the order is that of the questions."""
    shop.send("name Dadant; answer 360; answer 361; order")
    ((number,),) = shop.rows("SELECT number FROM orders")
    sheet = read(shop.database, number)
    assert sheet is not None
    assert [(one.question, one.reading) for one in sheet.answers] == [
        ("frame_name", None),
        ("side_to_side", "361"),
    ]


def test_photos_of_the_order_are_named(shop: Any) -> None:
    """Each with the question it was sent for."""
    event = Photo(id="p1", person="anna", at=shop.clock.now(), photo="f" * 64)
    shop.send("say hello")
    shop.service.receive(event, "web")
    shop.send("order")
    ((number,),) = shop.rows("SELECT number FROM orders")
    sheet = read(shop.database, number)
    assert sheet is not None
    assert [(one.sha, one.question) for one in sheet.photos] == [("f" * 64, "side_to_side")]


def test_the_bench_sees_sizes_and_neither_contact_nor_photos(shop: Any) -> None:
    """How to reach somebody is for those who deal with people."""
    shop.send("contact anna@example.org")
    shop.service.receive(Photo(id="p1", person="anna", at=shop.clock.now(), photo="f" * 64), "web")
    shop.send("answer 360; order")
    ((number,),) = shop.rows("SELECT number FROM orders")
    sheet = read(shop.database, number, Role.BENCH)
    assert sheet is not None
    assert (sheet.contact, sheet.photos) == (None, ())
    assert len(sheet.answers) == len(sheet.cages) == 1


def test_who_moved_it_and_whether_they_are_reached_is_said(shop: Any) -> None:
    """Staff by name; the beekeeper's own step is nobody's of staff."""
    shop.send("order")
    ((number,),) = shop.rows("SELECT number FROM orders")
    sheet = read(shop.database, number)
    assert sheet is not None
    assert (sheet.moved_by, sheet.reachable) == (None, True)
    shop.service.receive(shop.desk(DeskVerb.MADE, number, by="jan"), "talk")
    with shop.database.transaction() as connection:
        people.lose(connection, "anna")
    sheet = read(shop.database, number)
    assert sheet is not None
    assert (sheet.moved_by, sheet.reachable) == ("jan", False)


def test_there_is_no_sheet_of_an_unknown_order(shop: Any) -> None:
    """Nor of something that is no number."""
    assert read(shop.database, "12345678") is None
    assert read(shop.database, "") is None
