"""One renderer for all, and orders of many shapes."""

from __future__ import annotations

from dataclasses import replace
from fractions import Fraction

import pytest

from bot.pictures import Renderer
from bot.pictures.sample import SAMPLE
from conversations.effects import Picture
from sizing.drawings import CAGE, HINTS
from sizing.measures import Below, Frame, Hive, Length, LidChoice, Request
from sizing.standards import frame_kinds


def _mm(value: str | Fraction) -> Length:
    return Length((Fraction(value),))


@pytest.fixture(scope="session")
def renderer() -> Renderer:
    """A renderer that keeps what it has made."""
    return Renderer()


@pytest.fixture(scope="session")
def hints() -> tuple[Picture, ...]:
    """Every picture that needs no request."""
    return tuple(Picture(name=name) for name in HINTS)


@pytest.fixture(scope="session")
def cages() -> tuple[Picture, ...]:
    """Cages that are usual, tight, impossible, closed, for every known frame, or little known."""
    hive = SAMPLE.hive
    tight = replace(hive, inside_along=_mm("369"))
    no_room = replace(
        hive,
        inside_along=_mm("362"),
        ledge_down=_mm("240"),
        below=Below.FLOOR,
        below_space=_mm("1"),
    )
    requests = [
        SAMPLE,
        replace(SAMPLE, hive=tight),
        replace(SAMPLE, hive=no_room),
        replace(SAMPLE, lid=LidChoice.CLOSED, hive=replace(hive, lug_room=_mm("398"))),
        replace(SAMPLE, lid=LidChoice.CLOSED_BETWEEN_WALLS),
        replace(SAMPLE, hive=Hive()),
        *_known_frames(),
    ]
    return tuple(Picture(name=CAGE, request=request) for request in requests)


def _known_frames() -> list[Request]:
    """One request for every known frame that has its three lengths, in a hive that fits it."""
    found = []
    for kind in frame_kinds():
        values = [kind.value(n) for n in ("side_to_side", "top_to_bottom", "lug_to_lug")]
        if None in values:
            continue
        side, high, lug = (Fraction(value or 0) for value in values)
        frame = Frame(_mm(side), _mm(high), _mm(lug), _mm("10"), None, None, _mm("35"), _mm("27"))
        hive = Hive(
            inside_along=_mm(side + 15),
            lug_room=_mm(lug + 2),
            ledge_down=_mm(high - 7),
            ledge_up=_mm("17"),
            below=Below.BOX,
        )
        found.append(replace(SAMPLE, frame=frame, hive=hive))
    return found
