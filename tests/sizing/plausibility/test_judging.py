"""Every doubt about one order comes together, each room's own."""

from __future__ import annotations

from collections.abc import Callable

from sizing.measures import Request
from sizing.plausibility.judging import all_doubts

Make = Callable[..., Request]


def test_each_room_has_its_word_and_none_speaks_of_what_is_usual(make: Make) -> None:
    """A relation, the weighing and the remarks are all heard about one wrong number."""
    assert all_doubts(make()) == ()
    codes = [found.code for found in all_doubts(make(top_to_bottom=235))]
    assert codes == ["hang", "stack", "mixup", "near-known"]
