"""What is personal is sealed before it goes into the file.

AES-256-GCM with a fresh random nonce. The place a value belongs to (`table.column`) is part of
the seal, so that a value copied to another place does not open there. A second key, derived
from the same file, makes keyed hashes: they tell whether a name is the same again without
telling the name.
"""

from __future__ import annotations

import hashlib
import hmac
import os
import tempfile
from pathlib import Path

from cryptography.exceptions import InvalidTag
from cryptography.hazmat.primitives import hashes
from cryptography.hazmat.primitives.ciphers.aead import AESGCM
from cryptography.hazmat.primitives.kdf.hkdf import HKDF

from bot.storage.errors import KeyFileError, SealError

__all__ = ["Sealer", "make_key", "read_key"]

KEY_BYTES = 32
NONCE_BYTES = 12
FORM = b"\x01"
"""First byte of every sealed value: how it was sealed."""
OTHERS = 0o077


def read_key(file: Path) -> bytes:
    """The key in `file`; raises `KeyFileError`."""
    try:
        mode = file.stat().st_mode
        key = file.read_bytes()
    except FileNotFoundError:
        raise KeyFileError(file, "missing") from None
    if mode & OTHERS:
        raise KeyFileError(file, "readable-by-others")
    if len(key) != KEY_BYTES:
        raise KeyFileError(file, "not-a-key")
    return key


def make_key(file: Path) -> bytes:
    """A new key in `file`, mode 0600, or the key that somebody made there a moment earlier."""
    file.parent.mkdir(mode=0o700, parents=True, exist_ok=True)
    # Written aside and linked into place: no other process ever sees half a key.
    handle, aside = tempfile.mkstemp(dir=file.parent)
    try:
        with os.fdopen(handle, "wb") as out:
            out.write(os.urandom(KEY_BYTES))
            out.flush()
            os.fsync(out.fileno())
        try:
            Path(file).hardlink_to(aside)
        except FileExistsError:
            return read_key(file)
    finally:
        Path(aside).unlink()
    _keep_entry(file.parent)
    return read_key(file)


def _keep_entry(folder: Path) -> None:
    """Have the folder's own list of files on the disk: a key must outlive a power cut."""
    handle = os.open(folder, os.O_RDONLY)
    try:
        os.fsync(handle)
    finally:
        os.close(handle)


def _derived(key: bytes, purpose: bytes) -> bytes:
    return HKDF(algorithm=hashes.SHA256(), length=KEY_BYTES, salt=None, info=purpose).derive(key)


class Sealer:
    """Seals and opens values with one key."""

    def __init__(self, key: bytes) -> None:
        self._box = AESGCM(_derived(key, b"cagewright seal"))
        self._hash_key = _derived(key, b"cagewright keyed hash")

    def seal(self, text: str, place: str) -> bytes:
        """`text`, sealed for `place` (`table.column`)."""
        nonce = os.urandom(NONCE_BYTES)
        return FORM + nonce + self._box.encrypt(nonce, text.encode(), place.encode())

    def open(self, sealed: bytes, place: str) -> str:
        """What was sealed for `place`; raises `SealError` where it does not open."""
        if sealed[:1] != FORM or len(sealed) <= len(FORM) + NONCE_BYTES:
            raise SealError(place)
        nonce, rest = sealed[1 : 1 + NONCE_BYTES], sealed[1 + NONCE_BYTES :]
        try:
            return self._box.decrypt(nonce, rest, place.encode()).decode()
        except InvalidTag:
            raise SealError(place) from None

    def digest(self, text: str) -> str:
        """A keyed hash of `text`: the same for the same text and key, telling nothing else."""
        return hmac.new(self._hash_key, text.encode(), hashlib.sha256).hexdigest()
