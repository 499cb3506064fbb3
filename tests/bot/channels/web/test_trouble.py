"""What a page says when it can't do what was asked."""

from __future__ import annotations

from typing import Any

import httpx
import pytest

from bot.channels.web.trouble import Trouble
from bot.storage.errors import UnavailableError
from conversations.locale import catalogue, languages


def test_no_such_page_is_a_kind_page(site: Any) -> None:
    """It leads back to where one can go on."""
    answer = httpx.get(f"{site.address}/nowhere", headers={"accept-language": "pl"})
    assert answer.status_code == 404
    assert "Nie ma takiej strony" in answer.text
    assert 'href="/chat"' in answer.text
    assert 'href="/desk"' in httpx.get(f"{site.address}/desk/nowhere").text


def test_when_the_database_is_busy_the_message_can_be_sent_again(
    visitor: Any, site: Any, monkeypatch: Any
) -> None:
    """Nothing was taken; the same form, sent again, is taken once."""
    visitor.begin()
    visitor.tap("isolate")
    form = visitor.form()

    def busy(*_: object) -> bool:
        raise UnavailableError("SQLITE_BUSY")

    with monkeypatch.context() as broken:
        broken.setattr("bot.service.Service.receive", busy)
        answer = visitor.post(form, text="Dadant")
    assert answer.status_code == 503
    assert answer.headers["retry-after"] == "5"
    assert visitor.post(form, text="Dadant").status_code == 303
    assert "Dadant" in visitor.open()


def test_an_error_of_ours_shows_none_of_it(visitor: Any, site: Any, monkeypatch: Any) -> None:
    """The page says that the answers are kept, and nothing of what went wrong."""
    visitor.begin()

    def broken(*_: object) -> bool:
        raise RuntimeError("secret words")

    monkeypatch.setattr("bot.service.Service.receive", broken)
    answer = visitor.post(visitor.form(), text="hello")
    assert answer.status_code == 500
    assert "Your answers are kept" in answer.text
    assert "secret" not in answer.text


def test_a_form_that_cannot_be_read_is_refused(visitor: Any) -> None:
    """Broken multipart, too many fields, something else altogether."""
    visitor.begin()
    kind = {"content-type": "multipart/form-data; boundary=x"}
    post = visitor.client.post
    assert post("/chat/send", content=b"--x\r\nnonsense", headers=kind).status_code in (400, 403)
    assert post("/chat/send", data={f"field{n}": "x" for n in range(50)}).status_code == 400
    assert post("/chat/send", json={"text": "x"}).status_code == 403


@pytest.mark.parametrize("language", languages())
def test_every_trouble_has_its_words(language: str) -> None:
    """A title and what to do for each kind; for photos, what to do for each reason."""
    texts = catalogue(language)
    for kind in ("form", "fast", "missing", "ours", "long"):
        assert texts.text(f"web.trouble.{kind}.title")
        assert texts.text(f"web.trouble.{kind}.what")
    for code in ("too-big", "too-many-pixels", "not-a-picture", "broken", "enough"):
        assert texts.text(f"web.trouble.photo.{code}")


def test_a_trouble_keeps_what_its_words_need() -> None:
    """Status, kind and values; no sentence."""
    trouble = Trouble(429, "fast", seconds=7)
    assert (trouble.status, trouble.what, trouble.values) == (429, "what", {"seconds": 7})
