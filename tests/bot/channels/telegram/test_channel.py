"""Whole conversations on Telegram, over real HTTP."""

from __future__ import annotations

import asyncio
import errno
import io
import logging
import time
from typing import Any

import pytest
from bot_api import TOKEN, Person
from PIL import Image

from bot.photos import PhotoShelf
from bot.storage import orders as stored
from bot.storage import telegram as kept


def number_of(world: Any) -> str:
    """The only order there is."""
    with world.shop.database.reading() as connection:
        rows = stored.listed(connection)
    assert len(rows) == 1
    return str(rows[0]["number"])


async def test_a_whole_order_with_buttons_and_a_photo(world: Any, anna: Person) -> None:
    """From /start to the number, with the cage drawn; everything the other side checks holds."""
    sent = await world.to_side_to_side(anna)
    assert sent.photo is not None
    picture = io.BytesIO()
    Image.new("RGB", (64, 48), "wheat").save(picture, "JPEG")
    world.api.photographs(anna, picture.getvalue(), caption="360")
    assert "Side to side: 360 mm" in (await world.reply(anna)).text
    sent = await world.says(anna, "260", "391", "10 mm", "35", "27", "375", "393", "253", "17 mm")
    sent = await world.taps(anna, sent, "Another box")
    await world.says(anna, "10", "Anna, anna@example.org")
    read_back = await world.last(anna)
    assert "Read this with the frame in your hand" in read_back.text
    handed_in = await world.taps(anna, read_back, "Hand in")
    number = number_of(world)
    assert handed_in.photo is not None
    ((chat, paper),) = world.api.documents
    assert (chat, paper[:4]) == (anna.user, b"%PDF")
    assert f"{number[:3]}\u00a0{number[3:6]}\u00a0{number[6:]}" in handed_in.text
    assert world.api.problems == []
    assert len(list(world.shop.settings.photo_folder.rglob("*.jpg"))) == 1
    assert len(world.api.answered) == 5


async def test_the_desk_asks_the_answer_comes_and_it_is_cleared(world: Any, anna: Person) -> None:
    """The beekeeper hears each step in the chat, and version 1 can no longer be cleared."""
    await world.to_read_back(anna)
    await world.taps(anna, await world.last(anna), "Hand in")
    number = number_of(world)
    world.desk("ask", number, version=1, measure="side_to_side", note="outside, please")
    asked = await world.reply(anna)
    assert "outside, please" in asked.text
    assert "360" not in asked.text
    assert "is changed" in (await world.says(anna, "361")).text
    world.desk("clear", number, version=1)
    world.desk("clear", number, version=2)
    assert "is cleared" in (await world.reply(anna)).text


async def test_an_edited_message_corrects_its_answer(world: Any, anna: Person) -> None:
    """By the message's own id, however many came in between."""
    await world.to_side_to_side(anna)
    update = world.api.says(anna, "356")
    await world.reply(anna)
    await world.says(anna, "260")
    world.api.edits(anna, update["message"]["message_id"], "365")
    assert "356 mm (35.6 cm) → 365 mm" in (await world.reply(anna)).text


async def test_a_reply_goes_to_the_question_it_replies_to(world: Any, anna: Person) -> None:
    """The number is taken for the older question, not for the open one."""
    asked = await world.to_side_to_side(anna)
    await world.says(anna, "356")
    world.api.says(anna, "365", reply_to=asked.id)
    assert "Side to side 356 mm (35.6 cm) → 365 mm" in (await world.reply(anna)).text


async def test_a_button_of_an_older_message_is_answered_kindly(world: Any, anna: Person) -> None:
    """It says what was answered and offers to change it; nothing else happens."""
    purpose = await world.taps(anna, await world.says(anna, "/start"), "English")
    await world.taps(anna, purpose, "Only the queen")
    stale = await world.taps(anna, purpose, "Queen and workers")
    assert "That was answered" in stale.text
    assert [label for label, _ in stale.buttons] == ["Change it", "Leave it"]


@pytest.mark.parametrize("data", ["1:1:9", "1:999:0", "2:1:0", "isolate", "1:-1:0", "é" * 31])
async def test_a_forged_button_changes_nothing(world: Any, anna: Person, data: str) -> None:
    """What no message to this person offers is not taken, whatever it carries."""
    asked = await world.to_side_to_side(anna)
    world.api.taps_data(anna, asked.id, data)
    sent = await world.reply(anna)
    assert "Side to side" in sent.text
    assert number_of_orders(world) == 0


def number_of_orders(world: Any) -> int:
    """How many orders there are."""
    with world.shop.database.reading() as connection:
        return len(stored.listed(connection))


async def test_a_button_of_somebody_else_is_looked_up_among_ones_own(
    world: Any, anna: Person
) -> None:
    """The same data from another person is that person's own message, never Anna's."""
    asked = await world.to_side_to_side(anna)
    other = Person(88, name="Basia")
    await world.says(other, "/start")
    world.api.taps_data(other, asked.id, asked.buttons[0][1])
    sent = await world.reply(other)
    assert "Which language" in sent.text


async def test_what_is_not_words_or_pictures_is_said_so(world: Any, anna: Person) -> None:
    """Voice, a place, a sticker: a kind line and the open question again."""
    await world.to_side_to_side(anna)
    world.api.sends(anna, voice={"file_id": "v", "duration": 2})
    assert "can't listen to voice" in (await world.reply(anna)).text
    world.api.sends(anna, location={"latitude": 1.0, "longitude": 2.0})
    assert "words, numbers and photos only" in (await world.reply(anna)).text


async def test_an_album_is_one_answer(world: Any, anna: Person) -> None:
    """Three pictures sent together are kept, and get one reply."""
    await world.to_side_to_side(anna)
    for colour in ("wheat", "tan", "brown"):
        picture = io.BytesIO()
        Image.new("RGB", (64, 48), colour).save(picture, "JPEG")
        world.api.photographs(anna, picture.getvalue(), media_group_id="a1")
    await world.reply(anna)
    folder = world.shop.settings.photo_folder
    await world.until(lambda: len(list(folder.rglob("*.jpg"))) == 3)
    await asyncio.sleep(0.2)
    assert len(world.api.to(anna)) == 5


async def test_a_photo_that_does_not_arrive_is_said_so(world: Any, anna: Person) -> None:
    """The conversation goes on at the same question."""
    await world.to_side_to_side(anna)
    world.api.scripted["getFile"].append(("500",))
    world.api.photographs(anna, b"whatever")
    sent = await world.reply(anna)
    assert "could not fetch the photo" in sent.text
    assert "Side to side" in sent.text


async def test_a_photo_that_can_t_be_kept_is_refused_with_the_reason(
    world: Any, anna: Person
) -> None:
    """In the words of the page, with what would do; where they do not come through, without."""
    await world.to_side_to_side(anna)
    world.api.photographs(anna, b"no picture at all")
    assert "no JPEG, PNG or WebP" in (await world.reply(anna)).text
    for kind, size, why in (("text/plain", 9, "no JPEG"), ("image/png", 30_000_000, "20 MB")):
        document = {"file_id": "f", "file_unique_id": "f", "mime_type": kind, "file_size": size}
        world.api.sends(anna, document=document)
        assert why in (await world.reply(anna)).text
    world.api.scripted["sendMessage"].extend([("403",)])
    world.api.photographs(anna, b"no picture at all")
    assert "could not fetch the photo" in (await world.reply(anna)).text


async def test_who_writes_very_fast_is_told_once_and_taken_again_later(
    idle: Any, anna: Person
) -> None:
    """The first ones are answered; staff are never slowed down."""
    world = idle
    world.most = 5
    world.start()
    for _ in range(12):
        world.api.says(anna, "/help")
    await world.until(lambda: not world.api.updates and len(world.api.to(anna)) == 6)
    texts = [one.text for one in world.api.to(anna)]
    assert sum("many messages at once. I took the first 5" in text for text in texts) == 1
    later = {"date": int(time.time()) + 90}
    world.api.sends(anna, text="/help", **later)
    await world.until(lambda: len(world.api.to(anna)) == 7)
    await world.end()


async def test_groups_are_refused_once_and_politely(world: Any, anna: Person) -> None:
    """One line in the group, no order, no session."""
    group = {"id": -5, "type": "supergroup", "title": "Bees"}
    for _ in range(3):
        world.api.sends(anna, text="/start", chat=group)
    await world.until(lambda: any(one.chat == -5 for one in world.api.sent))
    await world.says(anna, "/start")
    assert [one.text[:26] for one in world.api.sent if one.chat == -5] == [
        "Sizes and addresses are pe"
    ]


async def test_the_language_of_the_phone_is_the_first_one(world: Any) -> None:
    """A Polish phone is greeted in Polish, one we do not speak in English."""
    assert "języku" in (await world.says(Person(5, language="pl-PL"), "/start")).text
    assert "Which language" in (await world.says(Person(6, language="eo"), "/start")).text
    assert "Which language" in (await world.says(Person(7, language=None), "/start")).text


async def test_several_messages_after_a_gap_are_taken_in_order(idle: Any, anna: Person) -> None:
    """What was typed while nobody listened answers one question after the other."""
    world = idle
    for text in ("/start", "en", "isolate", "I don't know", "360", "260", "391"):
        world.api.says(anna, text)
    world.start()
    await world.until(lambda: len(world.api.to(anna)) == 7)
    assert "Lug thickness" in world.api.to(anna)[-1].text
    await world.end()


async def test_an_update_nobody_understands_does_not_stop_the_others(
    world: Any, anna: Person
) -> None:
    """Shapes that do not exist are left aside."""
    chat = {"id": anna.user, "type": "private"}
    late = {"message_id": 9, "date": 10**30, "chat": chat, "from": {"id": anna.user}, "text": "x"}
    for body in (
        {}, {"message": None}, {"message": {"chat": 3}}, {"message": {"text": "x"}},
        {"message": late},
    ):  # fmt: skip
        world.api._update("poll", {})
        with world.api._lock:
            world.api.updates.append({"update_id": world.api._next_update, **body})
            world.api._next_update += 1
    assert "Which language" in (await world.says(anna, "/start")).text


STRANGE: tuple[dict[str, Any], ...] = (
    {"date": 10**30}, {"date": 10**12}, {"text": 5}, {"chat": {"type": "private", "id": {}}},
    {"from": {"id": [], "language_code": 5}},
)  # fmt: skip


@pytest.mark.parametrize("strange", STRANGE, ids=repr)
async def test_a_strange_update_is_confirmed_and_the_next_has_its_turn(
    world: Any, anna: Person, strange: dict[str, Any]
) -> None:
    """Whatever is wrong with one, alone or between two others, it is not asked for again."""
    world.api.sends(Person(6), **{"text": "x", **strange})
    assert "Which language" in (await world.says(anna, "/start")).text
    with world.api._lock:
        world.api.says(anna, "/help")
        world.api.sends(Person(6), **{"text": "x", **strange})
        world.api.says(anna, "/help")
    await world.until(lambda: len(world.api.to(anna)) == 3)
    await world.until(lambda: not world.api.updates)
    await world.end()


async def test_an_event_that_can_t_be_kept_takes_no_other_with_it(
    world: Any, anna: Person, monkeypatch: pytest.MonkeyPatch
) -> None:
    """Of several that came together, the others are taken."""
    receive, many = world.shop.service.receive, world.shop.service.receive_many

    def refusing(event: Any, channel: str) -> bool:
        if getattr(event, "text", "") == "poison":
            raise OverflowError
        return bool(receive(event, channel))

    def refusing_many(events: Any, channel: str) -> list[bool]:
        if any(getattr(event, "text", "") == "poison" for event in events):
            raise OverflowError
        return list(many(events, channel))

    monkeypatch.setattr(world.shop.service, "receive", refusing)
    monkeypatch.setattr(world.shop.service, "receive_many", refusing_many)
    with world.api._lock:
        world.api.says(anna, "poison")
        world.api.says(anna, "/start")
    assert "Which language" in (await world.reply(anna)).text


async def test_a_full_disk_under_the_photos_is_said_as_a_photo_that_did_not_come(
    world: Any, anna: Person, monkeypatch: pytest.MonkeyPatch
) -> None:
    """The conversation goes on, and so does the channel."""
    await world.to_side_to_side(anna)

    def full(*_: object) -> None:
        raise OSError(errno.ENOSPC, "No space left on device")

    monkeypatch.setattr(PhotoShelf, "_write", full)
    picture = io.BytesIO()
    Image.new("RGB", (64, 48), "wheat").save(picture, "JPEG")
    world.api.photographs(anna, picture.getvalue())
    assert "could not fetch the photo" in (await world.reply(anna)).text
    await world.says(anna, "360")


async def test_too_fast_for_one_chat_does_not_hold_up_another(world: Any, anna: Person) -> None:
    """A 429 pauses its own chat for as long as was asked; the others go on."""
    basia = Person(88, name="Basia")
    await world.says(anna, "/start")
    world.api.scripted["sendMessage"].append(("429", 2))
    world.api.says(anna, "/help")
    await world.until(lambda: not world.api.scripted["sendMessage"])
    before = asyncio.get_running_loop().time()
    await world.says(basia, "/start")
    assert asyncio.get_running_loop().time() - before < 1.5
    await world.reply(anna)
    assert asyncio.get_running_loop().time() - before >= 1.5


async def test_who_blocked_us_is_marked_and_the_desk_is_told(world: Any, anna: Person) -> None:
    """Nothing more is tried; when they write again they are reached again."""
    await world.says(anna, "/start")
    world.api.blocked.add(anna.user)
    world.api.says(anna, "/help")

    def told() -> bool:
        return any(
            letter.say.lines[0].key == "desk.unreachable"
            for letter in world.shop.outbox.since("desk")
        )

    await world.until(told)
    world.api.blocked.clear()
    assert (await world.says(anna, "/start")).text


async def test_a_lost_answer_is_sent_once_more_at_most(world: Any, anna: Person) -> None:
    """The message was taken and the connection dropped: it comes twice, and no third time."""
    await world.says(anna, "/start")
    for _ in range(3):
        world.api.scripted["sendMessage"].append(("drop-after",))
    world.api.says(anna, "/help")
    await world.until(lambda: len(world.api.to(anna)) >= 3)
    await asyncio.sleep(1.5)
    texts = [one.text for one in world.api.to(anna)]
    assert len(texts) == 3
    assert texts[1] == texts[2]


async def test_a_refusal_of_the_other_side_is_tried_again(world: Any, anna: Person) -> None:
    """After 500 and 502 the message arrives, once."""
    world.api.scripted["sendMessage"].extend([("500",), ("502",)])
    await world.says(anna, "/start")
    await asyncio.sleep(0.3)
    assert len(world.api.to(anna)) == 1


async def test_a_second_poller_is_noted_and_outlasted(world: Any, anna: Person) -> None:
    """While somebody else polls, the trouble is written down; afterwards all goes on."""
    await world.says(anna, "/start")
    world.api.conflict = True

    def noted() -> str | None:
        with world.shop.database.reading() as connection:
            last = kept.polled(connection, "telegram")
        return last.trouble if last else None

    await world.until(lambda: noted() == "another-poller")
    world.api.conflict = False
    await world.says(anna, "/help")
    assert noted() is None


async def test_a_picture_is_sent_once_and_named_afterwards(world: Any, anna: Person) -> None:
    """The second person gets the same file without another upload; a forgotten file is sent
    anew."""
    first = await world.to_side_to_side(anna)
    basia = Person(88, name="Basia")
    again = await world.to_side_to_side(basia)
    assert again.photo == first.photo
    world.api.files.clear()
    celina = Person(99, name="Celina")
    anew = await world.to_side_to_side(celina)
    assert anew.photo not in (None, first.photo)


async def test_commands_are_set_in_every_language(world: Any) -> None:
    """Telegram's own four among them; English stands for all other languages."""
    await world.until(lambda: set(world.api.commands) == {None, "en", "pl"})
    for commands in world.api.commands.values():
        assert {"start", "help", "settings", "privacy"} <= set(commands)


async def test_the_token_is_in_no_log_line(
    world: Any, anna: Person, caplog: pytest.LogCaptureFixture, capsys: pytest.CaptureFixture[str]
) -> None:
    """Neither in ours nor in those of the libraries underneath."""
    with caplog.at_level(logging.DEBUG):
        await world.says(anna, "/start")
    shown = capsys.readouterr()
    assert TOKEN not in caplog.text + shown.out + shown.err


async def test_who_somebody_is_stands_nowhere_in_the_open(world: Any, anna: Person) -> None:
    """The numeric id is in no row as it is: a keyed hash stands for it."""
    someone = Person(987654321012)
    await world.says(someone, "/start")
    database = world.shop.settings.database
    with world.shop.database.reading() as connection:
        connection.execute("PRAGMA wal_checkpoint")
    raw = b"".join(file.read_bytes() for file in database.parent.glob("w.db*"))
    assert b"987654321012" not in raw
