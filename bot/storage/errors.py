"""The exceptions of the storage, by whose mistake it is.

    StorageError              never raised itself
    ├── UnavailableError      nobody's: disk full, file locked, read error; trying again may help
    ├── InUseError            the operator's: another process has this database open for writing
    ├── NoDatabaseError       the operator's: there is no such database, or none of this program
    ├── KeyFileError          the operator's: the key file is missing or another one
    ├── PragmaError           ours or the platform's: a pragma did not take
    ├── SealError             nobody's: one sealed value does not open although the key is right
    └── InconsistentError     ours: what a turn wants done contradicts what is stored

They carry fields; sentences are made where they are shown.
"""

from __future__ import annotations

from pathlib import Path

__all__ = [
    "InUseError", "InconsistentError", "KeyFileError", "NoDatabaseError", "PragmaError",
    "SealError", "StorageError", "UnavailableError",
]  # fmt: skip


class StorageError(Exception):
    """Base of all errors of the storage; not raised itself."""


class UnavailableError(StorageError):
    """The file cannot be written or read just now: `code` is SQLite's name for why."""

    def __init__(self, code: str) -> None:
        super().__init__(code)
        self.code = code


class InUseError(StorageError):
    """The process `pid` has the database at `path` open for writing (None: not known which)."""

    def __init__(self, path: Path, pid: int | None) -> None:
        super().__init__(path, pid)
        self.path = path
        self.pid = pid


class NoDatabaseError(StorageError):
    """What is at `path` cannot be used: `missing`, `not-ours`, or made by a `newer`
    or `older` program (an older one is brought up to date when it is opened for writing)."""

    def __init__(self, path: Path, reason: str) -> None:
        super().__init__(path, reason)
        self.path = path
        self.reason = reason


class KeyFileError(StorageError):
    """The key file at `path` does not open what is sealed.

    `reason`: `missing` (although the database has a key), `another` (not its key),
    `not-a-key` (not 32 bytes), or `readable-by-others`.
    """

    def __init__(self, path: Path, reason: str) -> None:
        super().__init__(path, reason)
        self.path = path
        self.reason = reason


class SealError(StorageError):
    """A sealed value in `place` (`table.column`) does not open: damaged, or moved there."""

    def __init__(self, place: str) -> None:
        super().__init__(place)
        self.place = place


class PragmaError(StorageError):
    """SQLite did not take the pragma `name`: `seen` stands where `asked` should."""

    def __init__(self, name: str, asked: object, seen: object) -> None:
        super().__init__(name, asked, seen)
        self.name = name
        self.asked = asked
        self.seen = seen


class InconsistentError(StorageError):
    """What a turn wants done contradicts what is stored: `what` is a code, `number` the order."""

    def __init__(self, what: str, number: str | None = None) -> None:
        super().__init__(what, number)
        self.what = what
        self.number = number
