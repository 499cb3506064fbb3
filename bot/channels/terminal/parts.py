"""What a talk in the terminal is made from: handed in by whoever starts it."""

from __future__ import annotations

from dataclasses import dataclass
from pathlib import Path

from bot.outbox import Letter, Outbox
from bot.photos import PhotoShelf
from bot.ports import Clock, Renderer
from bot.presenter import Presenter
from bot.service import Service
from bot.storage.database import Database

__all__ = ["CHANNEL", "Gallery", "Parts"]

CHANNEL = "talk"


@dataclass(frozen=True, slots=True)
class Parts:
    """The workshop behind the talk."""

    database: Database
    service: Service
    outbox: Outbox
    presenter: Presenter
    renderer: Renderer
    shelf: PhotoShelf
    clock: Clock


class Gallery:
    """Writes the pictures and papers of a talk into a folder, numbered as they are shown."""

    def __init__(self, renderer: Renderer, folder: Path) -> None:
        self._renderer = renderer
        self._folder = folder
        self._shown = 0

    def hang(self, letter: Letter) -> Path | None:
        """The file the picture of this message was written to, if it has one."""
        picture = letter.say.picture
        if picture is None:
            return None
        return self._write(f"{picture.name}.png", self._renderer.png(picture, letter.say.language))

    def lay_out(self, letter: Letter) -> Path | None:
        """The file the paper of this message was written to, if it has one."""
        paper = letter.say.document
        if paper is None:
            return None
        return self._write(f"{paper.name}.pdf", self._renderer.pdf(paper, letter.say.language))

    def _write(self, name: str, content: bytes) -> Path:
        self._shown += 1
        file = self._folder / f"{self._shown:03}-{name}"
        file.write_bytes(content)
        return file
