"""One view for every answer to a choice."""

from __future__ import annotations

from enum import StrEnum

import pytest

from sizing.drawings.choices import CHOICES
from sizing.measures import Above, Below, LidChoice, Purpose, Spacer

ANSWERS: dict[str, frozenset[StrEnum]] = {
    "spacer": frozenset(Spacer),
    "below": frozenset(Below),
    "above": frozenset(Above),
    "lid": frozenset(LidChoice) - {LidChoice.AUTO},
    "purpose": frozenset(Purpose),
}


@pytest.mark.parametrize("name", CHOICES)
def test_every_answer_has_its_view_with_words(name: str) -> None:
    """The captions are those of the answers, each once."""
    captions = [view.caption for view in CHOICES[name]().views if view.caption is not None]
    assert sorted(captions) == sorted(f"picture.{name}.{answer}" for answer in ANSWERS[name])


@pytest.mark.parametrize("name", CHOICES)
def test_what_can_be_compared_is_drawn_to_one_scale(name: str) -> None:
    """A choice shows differences, so all its views share a scale."""
    assert all(row.one_scale for row in CHOICES[name]().rows)


def test_wires_let_a_worker_pass_for_one_purpose_and_not_for_the_other() -> None:
    """The gap between drawn wires is wide for isolation, narrow for introduction."""
    gaps = []
    for view in CHOICES["purpose"]().views:
        wires = sorted(max(y for _, y in wire.points) for wire in view.part("wire"))
        gaps.append(wires[1] - wires[0] - 2)
    wide, narrow = gaps
    assert narrow < 3.25
    assert 4.14 < wide < 4.36


def test_the_three_lids_differ_at_their_end() -> None:
    """Open: no end. Closed: over the lug's tip. Between the walls: ends before the lug."""
    lids = {
        view.caption: min(x for shape in view.part("lid") for x, _ in shape.points)
        for view in CHOICES["lid"]().rows[1].views
    }
    closed = lids["picture.lid.closed"]
    assert closed < lids["picture.lid.end-open"] < lids["picture.lid.closed-between-walls"]
