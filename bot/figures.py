"""The figures the workshop works with: those of its own file, or the built-in ones."""

from __future__ import annotations

from bot.settings import Settings, SettingsError
from sizing.errors import FiguresError
from sizing.own_figures import own_figures
from sizing.workshop import Figures, default_figures

__all__ = ["workshop_figures"]

_MOST_BYTES = 100_000

_WOULD_DO = {
    "toml": "text in TOML; {seen}",
    "a-short-name": 'a name without blanks, like version = "spring"',
    "a-gauge": 'a series and a number that are known, like "SWG 14" or "AWG 12"',
    "a-table": "a table with value and unit",
    "a-figure-of-the-table": "the name of a figure in sizing/data/workshop.toml",
    "must-below-aim": "bounds that rise from must_low over aim_low to aim_high",
}


def workshop_figures(settings: Settings) -> Figures:
    """The figures of the file that the settings name, or the built-in ones.

    Raises `SettingsError`, which names the figure and what would do.
    """
    if settings.figures is None:
        return default_figures()
    try:
        with settings.figures.open("rb") as stream:
            written = stream.read(_MOST_BYTES + 1)
        text = written.decode("utf-8")
    except (OSError, UnicodeDecodeError) as error:
        raise SettingsError("figures", "a-text-file-that-can-be-read") from error
    if len(written) > _MOST_BYTES:
        raise SettingsError("figures", f"a-file-of-at-most-{_MOST_BYTES}-bytes")
    try:
        return own_figures(text)
    except FiguresError as error:
        raise SettingsError("figures", f"{error.figure}: {_would_do(error)}") from error


def _would_do(error: FiguresError) -> str:
    kind, _, rest = error.would_do.partition(" ")
    if kind == "one-of":
        return f"one of {', '.join(rest.split())}"
    if kind == "less-than":
        return f"less than {rest}"
    if kind in _WOULD_DO:
        return _WOULD_DO[kind].format(seen=error.seen)
    low, high, *unit = error.would_do.split()
    return f"{low} to {high} {' '.join(unit)}"
