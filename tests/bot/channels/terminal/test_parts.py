"""The pictures of a talk are written down as they are shown."""

from __future__ import annotations

from datetime import UTC, datetime
from pathlib import Path

from bot.channels.terminal.parts import Gallery
from bot.outbox import Letter
from conversations.effects import Document, Picture, Say


class Painter:
    """Draws the name of a picture, and of the language, as its bytes."""

    def png(self, picture: Picture, language: str) -> bytes:
        """No picture, but bytes that say which one it would be."""
        return f"{picture.name} in {language}".encode()

    def pdf(self, document: Document, language: str) -> bytes:
        """The same for a paper."""
        return f"{document.name} in {language}".encode()


def letter(picture: Picture | None, document: Document | None = None) -> Letter:
    """A message with that picture and that paper."""
    say = Say(lines=(), picture=picture, document=document, language="pl")
    at = datetime(2026, 3, 2, tzinfo=UTC)
    return Letter(1, "anna", "talk", 1, say, at, sent=False, attempts=0, event=1)


def test_pictures_are_numbered_as_they_are_shown(tmp_path: Path) -> None:
    """The same picture twice is two files, in order, in the language of the message."""
    gallery = Gallery(Painter(), tmp_path)
    shown = [gallery.hang(letter(Picture(name=name))) for name in ("lid", "below", "lid")]
    assert [file.name for file in shown if file] == ["001-lid.png", "002-below.png", "003-lid.png"]
    assert (tmp_path / "002-below.png").read_bytes() == b"below in pl"


def test_a_message_without_a_picture_writes_nothing(tmp_path: Path) -> None:
    """And takes no number."""
    gallery = Gallery(Painter(), tmp_path)
    assert gallery.hang(letter(None)) is None
    assert list(tmp_path.iterdir()) == []


def test_papers_are_numbered_along_with_the_pictures(tmp_path: Path) -> None:
    """A message with both writes two files; one without a paper none more."""
    gallery = Gallery(Painter(), tmp_path)
    both = letter(Picture(name="copy"), Document(name="copy"))
    assert [file.name for file in (gallery.hang(both), gallery.lay_out(both)) if file] == [
        "001-copy.png",
        "002-copy.pdf",
    ]
    assert (tmp_path / "002-copy.pdf").read_bytes() == b"copy in pl"
    assert gallery.lay_out(letter(Picture(name="lid"))) is None
