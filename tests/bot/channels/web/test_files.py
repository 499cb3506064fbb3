"""Pictures and photos, each only for whom it is meant."""

from __future__ import annotations

import io
import re
from typing import Any

import pytest
from PIL import Image

PNG = b"\x89PNG"
JPEG = b"\xff\xd8"


def a_photo(form: str = "JPEG", size: tuple[int, int] = (640, 480)) -> bytes:
    """A photo as a phone makes it, with the place where it was taken."""
    image = Image.linear_gradient("L").resize(size).convert("RGB")
    exif = Image.Exif()
    exif.get_ifd(0x8825)[1] = "N"
    exif[0x010F] = "maker of phones"
    made = io.BytesIO()
    image.save(made, form, exif=exif)
    return made.getvalue()


def send_photo(visitor: Any, raw: bytes, caption: str = "") -> Any:
    """Send a photo from the page that is open."""
    form = visitor.form()
    return visitor.client.post(
        form.action, data={**form.fields, "text": caption}, files={"photo": ("a.jpg", raw)}
    )


def test_a_question_shows_its_picture(visitor: Any) -> None:
    """The picture of a question is a PNG, with words for whoever can't see it."""
    visitor.begin()
    html = visitor.tap("isolate") + visitor.tap("dont-know")
    path, alt = re.findall(r'src="(/files/picture/\d+\.png)" alt="([^"]+)"', html)[-1]
    answer = visitor.client.get(path)
    assert answer.headers["content-type"] == "image/png"
    assert answer.content.startswith(PNG)
    assert alt.startswith("Side to side: picture. Outside of one side bar")


def test_a_picture_is_for_its_person_alone(visitor: Any, new_visitor: Any, desk: Any) -> None:
    """To everybody else there is no such file, nor to who has no picture there."""
    path = re.findall(r"/files/picture/\d+\.png", visitor.order())[-1]
    for stranger in (new_visitor(), desk):
        stranger.open()
        assert stranger.client.get(path).status_code == 404
    assert visitor.client.get("/files/picture/99999999.png").status_code == 404


def test_a_photo_comes_back_without_its_place(visitor: Any) -> None:
    """What is shown again is a new picture: no place, no maker, only what is to be seen."""
    visitor.begin()
    visitor.tap("isolate")
    visitor.tap("dont-know")
    assert send_photo(visitor, a_photo()).status_code == 303
    path = re.findall(r"/files/photo/\w+\.jpg", visitor.open())[-1]
    shown = visitor.client.get(path)
    assert shown.content.startswith(JPEG)
    assert b"maker of phones" not in shown.content
    assert len(Image.open(io.BytesIO(shown.content)).getexif()) == 0


def test_a_photo_is_for_its_sender_and_the_desk(visitor: Any, new_visitor: Any, desk: Any) -> None:
    """Knowing the name of a photo is not enough to see it."""
    visitor.begin()
    visitor.tap("isolate")
    send_photo(visitor, a_photo(size=(320, 200)))
    path = re.findall(r"/files/photo/\w+\.jpg", visitor.open())[-1]
    stranger = new_visitor()
    stranger.begin()
    assert stranger.client.get(path).status_code == 404
    assert desk.client.get(path).content.startswith(JPEG)


@pytest.mark.parametrize("name", ["0" * 64, "..", "a" * 10, "Z" * 64])
def test_a_made_up_name_finds_nothing(visitor: Any, desk: Any, name: str) -> None:
    """Neither a person nor the desk gets a file by guessing."""
    visitor.begin()
    for client in (visitor.client, desk.client):
        assert client.get(f"/files/photo/{name}.jpg").status_code == 404


def test_the_caption_of_a_photo_is_read(visitor: Any) -> None:
    """A number beside the photo is the answer; the photo belongs to the question."""
    visitor.begin()
    visitor.tap("isolate")
    visitor.tap("dont-know")
    send_photo(visitor, a_photo(), "361 mm")
    html = visitor.open()
    assert "361 mm (36.1 cm)" in html
    assert 'class="photo"' in html


@pytest.mark.parametrize(
    ("raw", "words"),
    [
        (b"hello", "no JPEG, PNG or WebP"),
        (a_photo("GIF"), "no JPEG, PNG or WebP"),
        (a_photo()[:2000], "did not arrive whole"),
        (b"", "no JPEG, PNG or WebP"),
    ],
)
def test_what_is_no_photo_is_refused_kindly(visitor: Any, raw: bytes, words: str) -> None:
    """The answer says what would do, and the conversation stands where it stood."""
    before = visitor.begin()
    answer = send_photo(visitor, raw)
    assert answer.status_code == 422
    assert words in answer.text
    assert visitor.open().count('class="bubble') == before.count('class="bubble')


def test_the_cage_of_an_order_is_for_the_desk(visitor: Any, desk: Any) -> None:
    """The desk sees the cage of the newest version; nobody else does."""
    number = re.sub(r"\D", "", re.findall(r"number: <b>([^<]+)</b>", visitor.order())[-1])
    path = f"/files/cage/{number}/1/1.png"
    assert desk.client.get(path).content.startswith(PNG)
    assert visitor.client.get(path).status_code == 404
    for wrong in (f"{number}/2/1", f"{number}/1/2", "00000000/1/1"):
        assert desk.client.get(f"/files/cage/{wrong}.png").status_code == 404


def test_how_to_measure_is_shown_to_the_desk_in_any_language(visitor: Any, desk: Any) -> None:
    """For a question that is not sent yet; there is no picture of what is not measured."""
    pictures = {desk.client.get(f"/files/hint/{one}/lug_room.png").content for one in ("en", "pl")}
    assert len(pictures) == 2
    assert all(picture.startswith(PNG) for picture in pictures)
    assert visitor.client.get("/files/hint/en/lug_room.png").status_code == 404
    for wrong in ("xx/lug_room", "en/cage", "en/..%2Fsecret"):
        assert desk.client.get(f"/files/hint/{wrong}.png").status_code == 404


def test_the_copy_of_an_order_comes_along_as_picture_and_paper(
    visitor: Any, new_visitor: Any, desk: Any
) -> None:
    """For whom it was made, and for nobody else."""
    html = visitor.order()
    picture = re.findall(r'src="(/files/picture/\d+\.png)" alt="Your copy', html)[-1]
    paper = re.findall(r'href="(/files/paper/\d+\.pdf)">Your copy', html)[-1]
    assert visitor.client.get(picture).content.startswith(PNG)
    answer = visitor.client.get(paper)
    assert answer.headers["content-type"] == "application/pdf"
    assert answer.content.startswith(b"%PDF")
    stranger = new_visitor()
    stranger.begin()
    for other in (stranger, desk):
        assert other.client.get(paper).status_code == 404
    assert visitor.client.get("/files/paper/99999999.pdf").status_code == 404


def test_the_sheet_to_measure_by_can_be_fetched(visitor: Any) -> None:
    """Asked for in the menu, it comes as a PDF."""
    visitor.begin()
    html = visitor.say("/sheet")
    paper = re.findall(r"/files/paper/\d+\.pdf", html)[-1]
    assert visitor.client.get(paper).content.startswith(b"%PDF")


def test_the_papers_of_an_order_are_for_staff(visitor: Any, desk: Any) -> None:
    """Linked on the order's page; a beekeeper gets none of them, nor is there any other kind."""
    number = re.sub(r"\D", "", re.findall(r"number: <b>([^<]+)</b>", visitor.order())[-1])
    links = re.findall(r"/files/order/\d+/[\w-]+\.pdf", desk.open(f"/desk/order/{number}"))
    assert len(links) == 3
    for link in links:
        answer = desk.client.get(link)
        assert answer.content.startswith(b"%PDF")
        assert "no-cache" in answer.headers["cache-control"]
        assert visitor.client.get(link).status_code == 404
    for wrong in (f"/files/order/{number}/bill.pdf", "/files/order/00000000/copy.pdf"):
        assert desk.client.get(wrong).status_code == 404
