"""Scenes to PNG and SVG through typst, the last ones kept."""

from __future__ import annotations

import json
from functools import cache, cached_property, lru_cache
from importlib import resources
from threading import Lock
from typing import Literal

import typst

from bot.pictures.layout import Sheet, compose
from bot.pictures.marks import Mark
from bot.pictures.style import FONT
from conversations.effects import Picture
from sizing.drawings import scene_of
from sizing.measures import Request
from sizing.workshop import Figures

__all__ = ["PictureWarningError", "Renderer", "sheet_data"]

Format = Literal["png", "svg"]
_KEPT = 256


class PictureWarningError(RuntimeError):
    """The typesetter had a doubt about our own sheet: `picture`, `warnings`."""

    def __init__(self, picture: str, warnings: tuple[str, ...]) -> None:
        super().__init__(picture, warnings)
        self.picture = picture
        self.warnings = warnings


@cache
def _template() -> bytes:
    return resources.files("bot.pictures").joinpath("sheet.typ").read_bytes()


def sheet_data(sheet: Sheet) -> str:
    """The sheet as the template reads it."""
    words = []
    for placed in sheet.words:
        block = placed.block
        for i, line in enumerate(block.lines):
            slack = (block.width - FONT.width(line, block.size)) / 2 if placed.centred else 0.0
            words.append(
                {
                    "x": round(placed.x + slack),
                    "y": round(placed.y + i * FONT.height(block.size)),
                    "size": block.size,
                    "tracking": round(FONT.tracking(block.size), 3),
                    "colour": placed.colour,
                    "text": line,
                }
            )
    pens: list[object] = []
    marks = []
    for mark in (*_merged(sheet.marks), *_plates(sheet)):
        if mark["line"] not in pens:
            pens.append(mark["line"])
        marks.append({**mark, "line": pens.index(mark["line"])})
    return json.dumps(
        {
            "width": sheet.width,
            "height": sheet.height,
            "font": {"up": FONT.up, "down": FONT.down},
            "pens": pens,
            "marks": marks,
            "words": words,
        }
    )


def _merged(marks: list[Mark]) -> list[Mark]:
    """The same marks, lines of one pen that follow each other drawn in one go."""
    merged: list[Mark] = []
    for mark in marks:
        last = merged[-1] if merged else None
        if (
            last is not None
            and mark["kind"] == last["kind"] == "paths"
            and mark["line"] == last["line"]
        ):
            merged[-1] = {**last, "paths": [*last["paths"], *mark["paths"]]}
        else:
            merged.append(mark)
    return merged


def _plates(sheet: Sheet) -> list[Mark]:
    """What keeps words readable over lines."""
    return [
        {
            "kind": "area",
            "fill": placed.plate,
            "line": None,
            "points": [(left - 4, top), (right + 4, top), (right + 4, bottom), (left - 4, bottom)],
        }
        for placed in sheet.words
        if placed.plate is not None
        for left, top, right, bottom in [placed.box]
    ]


class Renderer:
    """Makes the pictures of the chat; fulfils `bot.ports.Renderer`.

    Cages are drawn as sized with `figures` (default: the built-in ones).
    """

    def __init__(self, figures: Figures | None = None) -> None:
        self._figures = figures
        self._lock = Lock()
        self._kept = lru_cache(_KEPT)(self._made)

    def png(self, picture: Picture, language: str) -> bytes:
        """The picture as a PNG, 720 px wide, with its words in `language`.

        `sizing.drawings.UnknownPictureError` where there is no such picture.
        """
        return self._kept(picture.name, picture.request, language, "png")

    def svg(self, picture: Picture, language: str) -> bytes:
        """The same picture as an SVG, its letters as outlines."""
        return self._kept(picture.name, picture.request, language, "svg")

    def forget(self) -> None:
        """Lets go of what is kept, so that every picture is made anew."""
        self._kept.cache_clear()

    @cached_property
    def _compiler(self) -> typst.Compiler:
        fonts = typst.Fonts(include_system_fonts=False)
        return typst.Compiler(font_paths=fonts, ignore_system_fonts=True)

    def _made(self, name: str, request: Request | None, language: str, form: Format) -> bytes:
        data = sheet_data(compose(scene_of(name, request, self._figures), language))
        with self._lock:
            made, warnings = self._compiler.compile_with_warnings(
                input=_template(),
                format=form,
                ppi=72.0,
                sys_inputs={"sheet": data},
                timestamp=0,
            )
        if warnings or not isinstance(made, bytes):
            raise PictureWarningError(name, tuple(str(w) for w in warnings))
        return made
