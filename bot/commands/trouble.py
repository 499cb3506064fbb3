"""What a command says when the workshop's files will not do: one line, and what would do."""

from __future__ import annotations

from bot.settings import SettingsError
from bot.storage.errors import (
    InUseError,
    KeyFileError,
    NoDatabaseError,
    PragmaError,
    StorageError,
    UnavailableError,
)

__all__ = ["trouble"]

_DATABASE_WOULD_DO = {
    "missing": "a file that exists; there is none at {path}",
    "not-ours": "a database of this program; {path} is something else",
    "newer": "a newer version of this program; a newer one wrote {path}",
    "older": "one that `cagewright serve` or `talk` brought up to date; {path} is older",
}
_KEY_WOULD_DO = {
    "missing": "the key this database was made with; there is none at {path}",
    "another": "the key this database was made with; {path} is another",
    "not-a-key": "a file of 32 bytes; {path} is none",
    "readable-by-others": "a file that is its owner's alone: chmod 600 {path}",
}


def trouble(error: SettingsError | StorageError) -> str:
    """The setting that the error is about, and what would do, in one line."""
    match error:
        case SettingsError():
            return f"{error.field}: {error.would_do}"
        case NoDatabaseError():
            return f"database: {_DATABASE_WOULD_DO[error.reason].format(path=error.path)}"
        case KeyFileError():
            return f"key_file: {_KEY_WOULD_DO[error.reason].format(path=error.path)}"
        case InUseError():
            who = "another process" if error.pid is None else f"process {error.pid}"
            return f"database: one that is free; {who} has {error.path} open for writing"
        case UnavailableError():
            return f"database: a file that can be read and written now ({error.code})"
        case PragmaError():
            return f"database: a place where {error.name} can be {error.asked}, not {error.seen}"
        case _:
            return f"database: a sound one ({type(error).__name__})"
