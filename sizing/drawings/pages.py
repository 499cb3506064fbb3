"""How the views of one how-to-measure scene are laid out."""

from __future__ import annotations

from sizing.drawings.shapes import Row, Scene, View

__all__ = ["beside", "how"]


def how(name: str, right: View, *wrong: View, tallness: float = 0.8, share: float = 0.62) -> Scene:
    """The usual sheet: how it is measured, the mistakes below.

    `tallness`: its height against its width [1]; `share`: of the height for the first row [1].
    """
    return Scene(name, (Row((right,), share), Row(wrong, 1 - share)), tallness)


def beside(name: str, right: View, *wrong: View, tallness: float = 0.8) -> Scene:
    """The sheet for tall and narrow things: the mistakes to the right.

    `tallness`: its height against its width [1].
    """
    return Scene(name, (Row((right, *wrong), 1.0),), tallness)
