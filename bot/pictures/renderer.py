"""Scenes to PNG and SVG through typst, the last ones kept."""

from __future__ import annotations

import json
from functools import cache, lru_cache
from importlib import resources
from typing import Any

from bot.pictures.layout import Sheet, compose
from bot.pictures.marks import Mark
from bot.pictures.style import FONT
from bot.pictures.typesetting import Form, Typesetter
from conversations.effects import Picture
from sizing.drawings import scene_of
from sizing.measures import Request
from sizing.workshop import Figures

__all__ = ["Renderer", "marks_template", "sheet_data", "sheet_parts"]

_KEPT = 256


@cache
def marks_template() -> bytes:
    """What draws a picture; goes before every template that shows one."""
    return resources.files("bot.pictures").joinpath("marks.typ").read_bytes()


@cache
def _template() -> bytes:
    return marks_template() + resources.files("bot.pictures").joinpath("sheet.typ").read_bytes()


def sheet_data(sheet: Sheet) -> str:
    """The sheet as the template reads it."""
    return json.dumps(sheet_parts(sheet))


def sheet_parts(sheet: Sheet) -> dict[str, Any]:
    """Pens, marks and words of a sheet, ready for JSON."""
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
    return {
        "width": sheet.width,
        "height": sheet.height,
        "font": {"up": FONT.up, "down": FONT.down},
        "pens": pens,
        "marks": marks,
        "words": words,
    }


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
    """Makes the pictures of the chat.

    Cages are drawn as sized with `figures` (default: the built-in ones).
    """

    def __init__(self, figures: Figures | None = None) -> None:
        self._figures = figures
        self._typesetter = Typesetter()
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

    def _made(self, name: str, request: Request | None, language: str, form: Form) -> bytes:
        data = sheet_data(compose(scene_of(name, request, self._figures), language))
        return self._typesetter.typeset(name, _template(), data, form)[0]
