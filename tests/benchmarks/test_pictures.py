"""How long a person waits for a picture."""

from __future__ import annotations

from collections import defaultdict
from dataclasses import replace
from fractions import Fraction
from statistics import median
from time import perf_counter

import pytest

from bot.pictures import Renderer
from bot.pictures.sample import SAMPLE
from conversations.effects import Picture
from conversations.locale import languages
from sizing.drawings import CAGE, HINTS
from sizing.measures import Length

HINT_MS = 15
CAGE_MS = 25
BUSY = 4
"""A shared machine may take so many times longer before this fails."""
ROUNDS = 6


@pytest.fixture
def warm() -> Renderer:
    """A renderer that has read its fonts and made no PNG yet."""
    renderer = Renderer()
    renderer.svg(Picture(name="below"), "en")
    return renderer


def milliseconds(renderer: Renderer, picture: Picture, language: str) -> float:
    """How long a picture takes that is not kept."""
    renderer.forget()
    start = perf_counter()
    renderer.png(picture, language)
    return (perf_counter() - start) * 1000


def check_median(capsys: pytest.CaptureFixture[str], took: dict[str, list[float]], ms: int) -> None:
    """Prints what each took, the slowest first, and fails where one is far too slow."""
    with capsys.disabled():
        for name, times in sorted(took.items(), key=lambda item: -median(item[1])):
            print(f"\n{name:20} {median(times):5.1f} ms, best {min(times):5.1f}", end="")
        print()
    assert max(median(times) for times in took.values()) < ms * BUSY


@pytest.mark.slow
def test_a_how_to_picture_is_made_while_one_taps(
    warm: Renderer, capsys: pytest.CaptureFixture[str]
) -> None:
    """Each within 15 ms on a quiet machine, another picture before it every time."""
    took = defaultdict(list)
    for turn in range(ROUNDS):
        language = languages()[turn % len(languages())]
        for name in HINTS:
            took[name].append(milliseconds(warm, Picture(name=name), language))
    check_median(capsys, took, HINT_MS)


@pytest.mark.slow
def test_a_cage_picture_is_made_while_one_reads(
    warm: Renderer, capsys: pytest.CaptureFixture[str]
) -> None:
    """Within 25 ms on a quiet machine, other lengths every time."""
    took = defaultdict(list)
    for turn in range(ROUNDS * 3):
        side = Length((Fraction(355) + Fraction(turn, 10),))
        request = replace(SAMPLE, frame=replace(SAMPLE.frame, side_to_side=side))
        took[CAGE].append(milliseconds(warm, Picture(name=CAGE, request=request), "en"))
    check_median(capsys, took, CAGE_MS)
