"""Where settings and data lie, and whether anything is set at all.

Apart from the settings themselves, so that a command that needs none starts at once.
"""

from __future__ import annotations

import os
from pathlib import Path

__all__ = ["FILE_VARIABLE", "PREFIX", "anything_set", "config_folder", "data_folder"]

PREFIX = "CAGEWRIGHT_"
FILE_VARIABLE = f"{PREFIX}SETTINGS"


def _home(variable: str, otherwise: str) -> Path:
    """A folder of the user by the XDG base directory rules."""
    named = os.environ.get(variable, "")
    return Path(named) if Path(named).is_absolute() else Path.home() / otherwise


def data_folder() -> Path:
    """Where the database lies unless it is set."""
    return _home("XDG_DATA_HOME", ".local/share") / "cagewright"


def config_folder() -> Path:
    """Where the settings file and the key lie unless they are set."""
    return _home("XDG_CONFIG_HOME", ".config") / "cagewright"


def anything_set() -> bool:
    """Whether the environment or the usual settings file sets anything."""
    if any(name.upper().startswith(PREFIX) for name in os.environ):
        return True
    return (config_folder() / "settings").exists()
