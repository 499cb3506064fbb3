"""The invented order is one that can be made."""

from __future__ import annotations

from bot.pictures.sample import SAMPLE
from sizing.cage import Verdict, design_cage


def test_the_sample_can_be_made_and_leaves_nothing_open() -> None:
    """What is shown to newcomers is a cage that fits."""
    design = design_cage(SAMPLE)
    assert design.verdict is Verdict.MAKE
    assert design.open == ()
