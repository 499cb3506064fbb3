"""Drawings as scenes: how to measure, what to choose, and the cage in its hive."""

from __future__ import annotations

from collections.abc import Callable

from sizing.cage import design_cage
from sizing.drawings.across_hints import ACROSS_HINTS
from sizing.drawings.cage import cage_scene
from sizing.drawings.choices import CHOICES
from sizing.drawings.frame_hints import FRAME_HINTS
from sizing.drawings.hive_hints import HIVE_HINTS
from sizing.drawings.shapes import Scene
from sizing.errors import SizingError
from sizing.measures import Request
from sizing.workshop import Figures, default_figures

__all__ = ["CAGE", "HINTS", "Scene", "UnknownPictureError", "scene_of"]

CAGE = "cage"
"""The picture of the cage itself, which needs a request."""

HINTS: dict[str, Callable[[], Scene]] = {
    **{str(measure): hint for measure, hint in FRAME_HINTS.items()},
    **{str(measure): hint for measure, hint in HIVE_HINTS.items()},
    **{str(measure): hint for measure, hint in ACROSS_HINTS.items()},
    **CHOICES,
}
"""How-to pictures by name: every measure, and the choices that are seen better than read."""


class UnknownPictureError(SizingError, LookupError):
    """There is no picture called `name` (or it needs a request and has none)."""

    def __init__(self, name: str) -> None:
        super().__init__(name)
        self.name = name


def scene_of(name: str, request: Request | None = None, figures: Figures | None = None) -> Scene:
    """The scene called `name`; for `cage`, of the cage for `request` sized with `figures`.

    Without `figures` those in the data are used.

    Lengths in a scene are millimetres [mm]. Raises `UnknownPictureError`, which names it.
    """
    if name in HINTS:
        return HINTS[name]()
    if name != CAGE or request is None:
        raise UnknownPictureError(name)
    table = default_figures() if figures is None else figures
    return cage_scene(request, design_cage(request, table), table)
