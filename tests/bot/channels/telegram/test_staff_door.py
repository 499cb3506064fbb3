"""Staff on Telegram: let in by a code, with cards and buttons, and with nothing they may not do."""

from __future__ import annotations

import asyncio
import io
from datetime import timedelta
from typing import Any

import pytest
from bot_api import Person, Sent
from PIL import Image

from bot.desk.staff import invite
from bot.storage import orders as stored
from bot.storage import people, staff, staff_chats
from conversations.review import Role

MARIA = Person(501, name="Maria")


async def let_in(world: Any, who: Person, name: str, role: Role = Role.DESK) -> Sent:
    """Enrol somebody with a code."""
    code = invite(world.shop.database, world.shop.clock.now(), name, role)
    sent: Sent = await world.says(who, f"/start {code}")
    return sent


async def handed_in(world: Any, anna: Person) -> str:
    """Anna's order; its number."""
    await world.to_read_back(anna)
    await world.taps(anna, await world.last(anna), "Hand in")
    with world.shop.database.reading() as connection:
        return str(stored.listed(connection)[0]["number"])


def stage_of(world: Any, number: str) -> str:
    """Where the order stands."""
    with world.shop.database.reading() as connection:
        return stored.stage_of(connection, number)


async def test_a_code_lets_in_once_and_ends(world: Any) -> None:
    """The second who sends it is a beekeeper like any other; so is who comes after three days."""
    code = invite(world.shop.database, world.shop.clock.now(), "maria", Role.DESK)
    assert "You are in" in (await world.says(MARIA, f"/start {code}")).text
    assert "Which language" in (await world.says(Person(502), f"/start {code}")).text
    old = invite(world.shop.database, world.shop.clock.now() - timedelta(days=4), "jan", Role.DESK)
    assert "Which language" in (await world.says(Person(503), f"/start {old}")).text


async def test_news_come_as_a_card_and_its_buttons_do_it(world: Any, anna: Person) -> None:
    """Handed in, taken, cleared: each with the card of the order as it then stands."""
    await let_in(world, MARIA, "maria")
    number = await handed_in(world, anna)
    news = await world.reply(MARIA)
    assert "handed in" in news.text
    assert "370 × 270 × 48 mm" in news.text
    taken = await world.taps(MARIA, news, "Take it on")
    assert "on the desk" in taken.text
    cleared = await world.taps(MARIA, taken, "Clear version 1")
    assert "cleared" in cleared.text
    assert stage_of(world, number) == "cleared"
    assert "is cleared" in (await world.last(anna)).text


async def test_one_measure_is_asked_for_with_two_taps(world: Any, anna: Person) -> None:
    """Verb, measure, and what is written next is the note; the answer's news come."""
    await let_in(world, MARIA, "maria")
    await handed_in(world, anna)
    which = await world.taps(MARIA, await world.reply(MARIA), "Ask the beekeeper")
    why = await world.taps(MARIA, which, "Side to side")
    assert "in one sentence" in why.text
    await world.says(MARIA, "outside, please")
    asked = (await world.last(anna)).text
    assert "Side to side" in asked
    assert "outside, please" in asked
    await world.says(anna, "361")
    assert "the answer came" in (await world.last(MARIA)).text


async def test_an_older_card_is_refused_and_the_newer_one_shown(world: Any, anna: Person) -> None:
    """Clearing a version that is no longer the newest changes nothing."""
    await let_in(world, MARIA, "maria")
    number = await handed_in(world, anna)
    news = await world.reply(MARIA)
    await world.says(anna, "change")
    await world.taps(anna, await world.last(anna), "Side to side: 360 mm (36 cm)")
    await world.says(anna, "361")
    await world.last(MARIA)
    refused = await world.taps(MARIA, news, "Clear version 1")
    assert "newer version" in refused.text
    assert "v2" in refused.text
    assert stage_of(world, number) == "handed-in"


async def test_a_question_can_go_without_a_note(world: Any, anna: Person) -> None:
    """A third tap sends it; what is written afterwards goes to nobody."""
    await let_in(world, MARIA, "maria")
    number = await handed_in(world, anna)
    which = await world.taps(MARIA, await world.reply(MARIA), "Ask the beekeeper")
    why = await world.taps(MARIA, which, "Side to side")
    await world.taps(MARIA, why, "Without a note")
    assert stage_of(world, number) == "question-out"
    await world.last(anna)
    heard = len(world.api.to(anna))
    assert "an order number" in (await world.says(MARIA, "good luck to all")).text
    assert len(world.api.to(anna)) == heard


async def test_turning_down_takes_the_next_message_as_its_reason(world: Any, anna: Person) -> None:
    """A line that begins with + is what would work; both reach the beekeeper."""
    await let_in(world, MARIA, "maria")
    number = await handed_in(world, anna)
    how = await world.taps(MARIA, await world.reply(MARIA), "Turn it down")
    assert "Write the reason" in how.text
    await world.says(MARIA, "Too small for our bench\n+ A frame of 200 mm")
    heard = (await world.last(anna)).text
    assert "Too small for our bench" in heard
    assert "A frame of 200 mm" in heard
    assert stage_of(world, number) == "turned-down"


@pytest.mark.parametrize("instead", ["Leave it", "queue"])
async def test_who_does_something_else_is_not_waited_for(
    world: Any, anna: Person, instead: str
) -> None:
    """What is written later is no reason to turn anything down."""
    await let_in(world, MARIA, "maria")
    number = await handed_in(world, anna)
    how = await world.taps(MARIA, await world.reply(MARIA), "Turn it down")
    if instead == "queue":
        await world.says(MARIA, instead)
    else:
        assert "Nothing was done" in (await world.taps(MARIA, how, instead)).text
    await world.says(MARIA, "what a day")
    assert stage_of(world, number) == "handed-in"


async def test_a_reason_that_came_too_late_is_none(
    world: Any, anna: Person, monkeypatch: pytest.MonkeyPatch
) -> None:
    """Half an hour later the next message is about something else."""
    await let_in(world, MARIA, "maria")
    number = await handed_in(world, anna)
    await world.taps(MARIA, await world.reply(MARIA), "Turn it down")
    monkeypatch.setattr(staff_chats, "WAITS", timedelta(seconds=0))
    await world.says(MARIA, "what a day")
    assert stage_of(world, number) == "handed-in"


async def test_staff_s_photo_voice_and_edit_begin_no_conversation(world: Any, anna: Person) -> None:
    """They are told that only words and taps count; no session of theirs is there."""
    await let_in(world, MARIA, "maria")
    picture = io.BytesIO()
    Image.new("RGB", (64, 48), "wheat").save(picture, "JPEG")
    world.api.photographs(MARIA, picture.getvalue())
    assert "words and taps" in (await world.reply(MARIA)).text
    world.api.sends(MARIA, voice={"file_id": "v", "duration": 2})
    assert "words and taps" in (await world.reply(MARIA)).text
    update = world.api.says(MARIA, "queue")
    await world.reply(MARIA)
    world.api.edits(MARIA, update["message"]["message_id"], "queue!")
    assert "edited message" in (await world.reply(MARIA)).text
    with world.shop.database.reading() as connection:
        assert connection.execute("SELECT count(*) FROM sessions").fetchone()[0] == 0
    assert not list(world.shop.settings.photo_folder.rglob("*.jpg"))


@pytest.mark.parametrize("bad", [("429", 1), ("502",), ("drop-after",)])
async def test_a_card_that_was_asked_for_survives_a_bad_moment(
    world: Any, anna: Person, bad: tuple[Any, ...]
) -> None:
    """It is sent once more."""
    await let_in(world, MARIA, "maria")
    number = await handed_in(world, anna)
    await world.reply(MARIA)
    world.api.scripted["sendMessage"].append(bad)
    assert "370 × 270 × 48 mm" in (await world.says(MARIA, number)).text


async def test_a_very_long_contact_is_cut(world: Any, anna: Person) -> None:
    """The card is one message, and none of it is broken."""
    await let_in(world, MARIA, "maria")
    number = await handed_in(world, anna)
    await world.reply(MARIA)
    with world.shop.database.transaction() as connection:
        person = str(stored.owner_of(connection, number))
        people.keep_contact(connection, world.shop.database.sealer, person, "& <i>x" * 800)
    assert "370 × 270 × 48 mm" in (await world.says(MARIA, number)).text
    assert world.api.problems == []


async def test_a_move_is_told_to_the_others_and_older_cards_follow(
    world: Any, anna: Person
) -> None:
    """Both views agree: the other's old card no longer offers what was done."""
    jan = Person(502, name="Jan")
    await let_in(world, MARIA, "maria")
    await let_in(world, jan, "jan")
    number = await handed_in(world, anna)
    hers, his = await world.reply(MARIA), await world.reply(jan)
    await world.taps(MARIA, hers, "Clear version 1")
    told = await world.reply(jan)
    assert "cleared (maria)" in told.text
    assert [label for label, _ in told.buttons][:1] == ["Turn it down"]

    def agree() -> bool:
        shown = [world.api.now(one) for one in (hers, his)]
        return all("Clear version 1" not in dict(one.buttons) for one in shown)

    await world.until(agree)
    refused = await world.taps(jan, his, "Take it on")
    assert "maria moved it there" in refused.text
    assert stage_of(world, number) == "cleared"


async def test_the_bench_hears_what_was_cleared(world: Any, anna: Person) -> None:
    """And nothing before, nor how to reach anybody."""
    ben = Person(503, name="Ben")
    await let_in(world, ben, "ben", Role.BENCH)
    await let_in(world, MARIA, "maria")
    await handed_in(world, anna)
    news = await world.reply(MARIA)
    assert "Anna, anna@example.org" in news.text
    await world.taps(MARIA, news, "Clear version 1")
    told = await world.reply(ben)
    assert "cleared (maria)" in told.text
    assert "Give it to the bench" in dict(told.buttons)
    assert "Anna, anna@example.org" in (await world.says(MARIA, "queue")).text
    for shown in (told, await world.says(ben, "queue")):
        assert "anna@example.org" not in shown.text


async def test_clearing_against_a_doubt_takes_words(world: Any, anna: Person) -> None:
    """The button asks for them, a few letters are refused, a reason clears."""
    await let_in(world, MARIA, "maria")
    number = await handed_in(world, anna)
    with world.shop.database.transaction() as connection:
        connection.execute(
            "INSERT INTO findings (number, version, item, code, severity, measures, seen,"
            " expected_low, expected_high, source)"
            " VALUES (?, 1, 1, 'x', 'stop', '[]', 1, 2, 3, 'y')",
            [number],
        )
    how = await world.taps(MARIA, await world.reply(MARIA), "Clear version 1")
    assert "ten characters" in how.text
    assert "ten characters" in (await world.says(MARIA, "fine")).text
    assert stage_of(world, number) == "handed-in"
    await world.taps(MARIA, how, "Leave it")
    await world.says(MARIA, f"clear {number}")
    await world.says(MARIA, "She measured it twice")
    assert stage_of(world, number) == "cleared"


async def test_staff_hear_who_cannot_be_reached(world: Any, anna: Person) -> None:
    """With the order and how else to reach them, once; of staff who are gone nobody is told."""
    await let_in(world, MARIA, "maria")
    number = await handed_in(world, anna)
    await world.reply(MARIA)
    world.api.blocked.add(anna.user)
    await world.says(MARIA, f"clear {number}")
    await world.until(lambda: any("anna@example.org" in one.text for one in world.api.to(MARIA)))
    world.api.blocked.add(MARIA.user)
    world.api.says(MARIA, f"bench {number}")

    def gone() -> list[str]:
        return [
            letter.to
            for to in ("desk", address)
            for letter in world.shop.outbox.since(to)
            if letter.say.lines[0].key.startswith("desk.unreachable")
        ]

    with world.shop.database.reading() as connection:
        (address,) = [one.address for one in staff.members(connection) if one.address]
    await world.until(lambda: len(gone()) == 3)
    assert sorted(gone()) == ["desk", "desk", address]


async def test_a_photo_of_staff_begins_no_conversation(world: Any) -> None:
    """They are told what can be sent here, and nothing is kept of it."""
    await let_in(world, MARIA, "maria")
    world.api.photographs(MARIA, b"no picture", caption="360")
    assert "Send queue" in (await world.reply(MARIA)).text
    with world.shop.database.reading() as connection:
        assert connection.execute("SELECT count(*) FROM sessions").fetchone()[0] == 0


async def test_who_only_works_at_the_bench_clears_nothing(world: Any, anna: Person) -> None:
    """Neither by a button, which is not there, nor by words, nor by a made-up button."""
    await let_in(world, MARIA, "maria", Role.BENCH)
    number = await handed_in(world, anna)
    news = await world.says(MARIA, number)
    assert [label for label, _ in news.buttons] == ["Keep a note"]
    assert "anna@example.org" not in news.text
    assert "not for you to do" in (await world.says(MARIA, f"clear {number}")).text
    world.api.taps_data(MARIA, news.id, f"d1:clear:{number}:1")
    assert "not for you to do" in (await world.reply(MARIA)).text
    assert stage_of(world, number) == "handed-in"


@pytest.mark.parametrize("how", ["refused", "blocked"])
async def test_who_can_t_be_reached_is_told_with_their_contact(
    world: Any, anna: Person, how: str
) -> None:
    """Staff on Telegram hear it like all news, whether a message failed or the person left."""
    await let_in(world, MARIA, "maria")
    number = await handed_in(world, anna)
    await world.reply(MARIA)
    world.api.blocked.add(anna.user)
    if how == "refused":
        world.desk("clear", number)
    else:
        world.api.blocks(anna)
    told = await world.reply(MARIA)
    assert "can't be reached" in told.text
    assert "Anna, anna@example.org" in told.text
    assert "tg-" not in told.text
    await world.until(lambda: not world.shop.outbox.waiting(channel="telegram"))


async def test_who_left_is_nobody_from_the_next_action_on(world: Any, anna: Person) -> None:
    """Their old buttons do nothing, and no news reach them."""
    await let_in(world, MARIA, "maria")
    number = await handed_in(world, anna)
    news = await world.reply(MARIA)
    with world.shop.database.transaction() as connection:
        assert staff.remove(connection, "maria", world.shop.clock.now())
    world.api.taps(MARIA, news, "Clear version 1")
    await world.reply(MARIA)
    await asyncio.sleep(0.1)
    assert stage_of(world, number) == "handed-in"


@pytest.mark.parametrize("data", ["d1:clear:{number}:1", "d1:take:{number}:1"])
async def test_a_beekeeper_with_a_made_up_button_does_nothing(
    world: Any, anna: Person, data: str
) -> None:
    """Not even with their own order."""
    number = await handed_in(world, anna)
    world.api.taps_data(anna, 1, data.format(number=number))
    await world.reply(anna)
    assert stage_of(world, number) == "handed-in"


async def test_the_queue_lists_what_is_open(world: Any, anna: Person) -> None:
    """Each with a button that shows its card; what nobody understands brings help."""
    await let_in(world, MARIA, "maria")
    assert "No order is open" in (await world.says(MARIA, "queue")).text
    number = await handed_in(world, anna)
    await world.reply(MARIA)
    listed = await world.says(MARIA, "queue")
    shown = await world.taps(MARIA, listed, listed.buttons[0][0])
    assert "370 × 270 × 48 mm" in shown.text
    assert "370 × 270 × 48 mm" in (await world.says(MARIA, number)).text
    assert "an order number" in (await world.says(MARIA, "what now")).text
