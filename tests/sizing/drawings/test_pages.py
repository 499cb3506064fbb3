"""The two usual sheets of a how-to-measure scene."""

from __future__ import annotations

from sizing.drawings.pages import beside, how
from sizing.drawings.shapes import View


def test_mistakes_stand_below_or_beside() -> None:
    """`how` makes two rows, `beside` one; the right view comes first in both."""
    right, wrong = View((), share=2), View(())
    two, one = how("a", right, wrong), beside("b", right, wrong)
    assert [row.views for row in two.rows] == [(right,), (wrong,)]
    assert [row.views for row in one.rows] == [(right, wrong)]
