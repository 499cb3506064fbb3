"""What holds for every scene: arrows touch what they name, mistakes are struck out."""

from __future__ import annotations

from collections.abc import Callable

import pytest

from sizing.drawings import HINTS
from sizing.drawings.choices import CHOICES
from sizing.drawings.shapes import Ink, Point, Role, Scene, View


@pytest.mark.parametrize("name", HINTS)
def test_both_ends_of_every_arrow_lie_on_the_faces_it_names(
    name: str, scenes: dict[str, Scene], on_part: Callable[[View, str, Point], bool]
) -> None:
    """An arrow touches the outline of the two parts it says it runs between."""
    for view in scenes[name].views:
        for arrow in view.dimensions:
            assert on_part(view, arrow.parts[0], arrow.start), arrow
            assert on_part(view, arrow.parts[1], arrow.end), arrow


@pytest.mark.parametrize("name", [name for name in HINTS if name not in CHOICES])
def test_a_measure_is_shown_once_right_and_its_mistakes_struck_out(
    name: str, scenes: dict[str, Scene]
) -> None:
    """One view says how; every other is a mistake with its arrow struck out and words."""
    right, *wrong = scenes[name].views
    assert right.role is Role.RIGHT
    assert not any(arrow.struck for arrow in right.dimensions)
    assert wrong
    for view in wrong:
        assert view.role is Role.WRONG
        assert view.caption is not None
        assert [arrow.struck for arrow in view.dimensions] == [True]


@pytest.mark.parametrize("name", HINTS)
def test_something_stands_out_in_every_right_view(name: str, scenes: dict[str, Scene]) -> None:
    """What is asked for is bold and hatched; a choice without anything special is plain."""
    for view in scenes[name].views:
        asked = [shape for shape in view.shapes if shape.ink is Ink.ASKED]
        if view.role is Role.RIGHT:
            assert asked
        assert len(asked) < len(view.shapes)


@pytest.mark.parametrize("name", HINTS)
def test_rows_and_their_heights_fill_the_scene(name: str, scenes: dict[str, Scene]) -> None:
    """The shares of the rows come to one, so that nothing is cut off."""
    assert sum(row.share for row in scenes[name].rows) == pytest.approx(1)
