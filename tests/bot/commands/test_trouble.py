"""One line that says what would do."""

from __future__ import annotations

from pathlib import Path

import pytest

from bot.commands.trouble import trouble
from bot.settings import SettingsError
from bot.storage.errors import (
    InUseError,
    KeyFileError,
    NoDatabaseError,
    PragmaError,
    SealError,
    StorageError,
    UnavailableError,
)

FILE = Path("shop.db")


@pytest.mark.parametrize(
    ("error", "words"),
    [
        (SettingsError("port", "int_parsing"), ["port", "int_parsing"]),
        (NoDatabaseError(FILE, "missing"), ["database", "shop.db"]),
        (NoDatabaseError(FILE, "not-ours"), ["database", "shop.db"]),
        (NoDatabaseError(FILE, "newer"), ["database", "shop.db", "newer"]),
        (NoDatabaseError(FILE, "older"), ["database", "shop.db", "older"]),
        (KeyFileError(FILE, "missing"), ["key_file", "shop.db"]),
        (KeyFileError(FILE, "another"), ["key_file", "shop.db"]),
        (KeyFileError(FILE, "not-a-key"), ["key_file", "32 bytes"]),
        (KeyFileError(FILE, "readable-by-others"), ["key_file", "chmod 600"]),
        (InUseError(FILE, 4711), ["database", "4711"]),
        (InUseError(FILE, None), ["database", "another process"]),
        (UnavailableError("SQLITE_FULL"), ["database", "SQLITE_FULL"]),
        (PragmaError("journal_mode", "wal", "delete"), ["database", "journal_mode", "wal"]),
        (SealError("notes.text_sealed"), ["database", "SealError"]),
    ],
)
def test_the_line_names_the_setting_and_what_would_do(
    error: SettingsError | StorageError, words: list[str]
) -> None:
    """One line for every error, beginning with the name of the setting."""
    line = trouble(error)
    assert line.startswith(f"{words[0]}: ")
    assert "\n" not in line
    assert [word for word in words if word not in line] == []
