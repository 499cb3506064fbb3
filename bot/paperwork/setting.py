"""From plain values to a paper: templates, drawings as data, the typesetter."""

from __future__ import annotations

import json
from functools import cache
from importlib import resources
from itertools import groupby
from typing import Any

from bot.paperwork.drawing import Drawing, Label, Stroke
from bot.pictures.renderer import marks_template
from bot.pictures.typesetting import Form, Typesetter

__all__ = ["Setter", "drawing_data"]


@cache
def _template(name: str) -> bytes:
    folder = resources.files("bot.paperwork").joinpath("templates")
    parts = (folder.joinpath(f"{part}.typ").read_bytes() for part in ("paper", name))
    return marks_template() + b"".join(parts)


class Setter:
    """Sets papers; threads may share it."""

    def __init__(self, typesetter: Typesetter | None = None) -> None:
        self._typesetter = typesetter or Typesetter()

    def pages(self, name: str, data: dict[str, Any], form: Form, ppi: float = 72.0) -> list[bytes]:
        """The paper `name`, a file a page; a PDF is one file whatever it holds."""
        return self._typesetter.typeset(name, _template(name), json.dumps(data), form, ppi)

    def pdf(self, name: str, data: dict[str, Any]) -> bytes:
        """The paper `name` as a PDF."""
        return self.pages(name, data, "pdf")[0]


def drawing_data(drawing: Drawing) -> dict[str, Any]:
    """A drawing as the templates read it, lines of one pen that follow each other in one go."""
    return {
        "width": drawing.width,
        "height": drawing.height,
        "strokes": [
            {
                "width": width,
                "dash": dash,
                "fill": fill,
                "closed": closed,
                "paths": [_rounded(stroke) for stroke in strokes],
            }
            for (width, dash, fill, closed), strokes in groupby(drawing.strokes, _pen)
        ],
        "labels": [_label(label) for label in drawing.labels],
    }


def _pen(stroke: Stroke) -> tuple[float, bool, str | None, bool]:
    return stroke.width, stroke.dash, stroke.fill, stroke.closed


def _rounded(stroke: Stroke) -> list[list[float]]:
    return [[round(x, 3), round(y, 3)] for x, y in stroke.points]


def _label(label: Label) -> dict[str, Any]:
    left, top, _, bottom = label.box
    return {
        "text": label.text,
        "x": round(left, 3),
        "y": round(bottom if label.upright else top, 3),
        "size": label.size,
        "upright": label.upright,
    }
