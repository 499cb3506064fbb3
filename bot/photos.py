"""Photos people send: looked at in a child process, made new, kept under their own hash.

What comes in may be anything. It is cut off at 20 MB and opened by its content (JPEG, PNG
or WebP) in a child whose memory and time are limited. Above 50 megapixels it is refused
before it is decoded (a WebP above 16: its decoder holds four copies). What is kept is a new
JPEG without a trace of where or with what it was taken. A photo is only ever looked at by a
person; it never decides a length.

Run as a program this file is the child: bytes in, one line of JSON and the new bytes out.
"""

from __future__ import annotations

import asyncio
import hashlib
import json
import os
import subprocess
import sys
import tempfile
import threading
import time
from collections.abc import AsyncIterable, Collection
from dataclasses import dataclass
from io import BytesIO
from pathlib import Path
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from PIL.Image import Image

__all__ = ["BYTES_AT_MOST", "Kept", "PhotoError", "PhotoShelf"]

BYTES_AT_MOST = 20 * 1024 * 1024
PIXELS_AT_MOST = {"JPEG": 50_000_000, "PNG": 50_000_000, "WEBP": 16_000_000}
LONG_SIDE = 2560
"""[pixels] a tape's millimetre marks can still be read on a photo of this size."""
SECONDS_AT_MOST = 10
AT_ONCE = 2
_CHILD_MEMORY = 512 * 1024 * 1024
_NAME = 64
_REFUSED = 3
_STRIP = 64
_ORIENTATION = 0x0112
_GRACE = 3600
"""[s] a file this young may belong to a turn that is still under way."""


class PhotoError(Exception):
    """The sender's: what was sent can't be kept. `code` is `too-big`, `too-many-pixels`,
    `not-a-picture`, `broken`, or `enough` where there are as many as there may be."""

    def __init__(self, code: str) -> None:
        super().__init__(code)
        self.code = code


@dataclass(frozen=True, slots=True)
class Kept:
    """A photo on the shelf: its name there, its size in pixels and in bytes."""

    sha: str
    width: int
    height: int
    size: int


class PhotoShelf:
    """The folder the photos lie in, outside of everything that is served as it is."""

    def __init__(self, folder: Path) -> None:
        self.folder = folder
        self._turn = threading.BoundedSemaphore(AT_ONCE)

    def keep(self, raw: bytes) -> str:
        """Put a photo on the shelf; its name there. Raises `PhotoError`."""
        return self._kept(raw).sha

    async def keep_from(self, chunks: AsyncIterable[bytes]) -> Kept:
        """Put a photo on the shelf that comes in pieces. Raises `PhotoError`, if it is too big
        as soon as that is known."""
        raw = bytearray()
        async for chunk in chunks:
            raw += chunk
            if len(raw) > BYTES_AT_MOST:
                raise PhotoError("too-big")
        return await asyncio.to_thread(self._kept, raw)

    def path(self, sha: str) -> Path:
        """Where the photo of that name lies, or would lie; `KeyError` if it is no such name."""
        if len(sha) != _NAME or not set(sha) <= set("0123456789abcdef"):
            raise KeyError(sha)
        return self.folder / sha[:2] / f"{sha}.jpg"

    def sweep(self, in_use: Collection[str]) -> int:
        """Remove the photos nobody refers to any more, save those of the last hour; how many."""
        oldest = time.time() - _GRACE
        gone = 0
        for file in self.folder.glob("??/*.jpg"):
            if file.stem not in in_use and file.stat().st_mtime < oldest:
                file.unlink()
                gone += 1
        return gone

    def _kept(self, raw: bytes | bytearray) -> Kept:
        if len(raw) > BYTES_AT_MOST:
            raise PhotoError("too-big")
        with self._turn:
            head, body = _in_child(raw)
        sha = hashlib.sha256(body).hexdigest()
        self._write(sha, body)
        return Kept(sha, head["width"], head["height"], len(body))

    def _write(self, sha: str, body: bytes) -> None:
        target = self.path(sha)
        if target.exists():
            os.utime(target)
            return
        target.parent.mkdir(parents=True, exist_ok=True, mode=0o700)
        descriptor, name = tempfile.mkstemp(dir=target.parent)  # mkstemp: mode 0600
        with os.fdopen(descriptor, "wb") as file:
            file.write(body)
            file.flush()
            os.fsync(file.fileno())
        Path(name).replace(target)
        folder = os.open(target.parent, os.O_RDONLY)
        try:
            os.fsync(folder)
        finally:
            os.close(folder)


def _in_child(raw: bytes | bytearray) -> tuple[dict[str, int], bytes]:
    command = [sys.executable, "-I", __file__]
    try:
        child = subprocess.run(  # noqa: S603 - our own program on our own file
            command, input=raw, capture_output=True, timeout=SECONDS_AT_MOST, check=False, env={}
        )
    except subprocess.TimeoutExpired:
        raise PhotoError("broken") from None
    head, _, body = child.stdout.partition(b"\n")
    if child.returncode == _REFUSED:
        raise PhotoError(head.decode("ascii"))
    if child.returncode != 0 or not body:
        raise PhotoError("broken")
    return json.loads(head), body


# --- the child ------------------------------------------------------------------------


def _limit_self() -> None:
    import resource  # noqa: PLC0415 - the child's alone

    resource.setrlimit(resource.RLIMIT_AS, (_CHILD_MEMORY, _CHILD_MEMORY))
    resource.setrlimit(resource.RLIMIT_CPU, (SECONDS_AT_MOST, SECONDS_AT_MOST))
    resource.setrlimit(resource.RLIMIT_FSIZE, (0, 0))


def _made_new(raw: bytes) -> tuple[tuple[int, int], bytes]:
    """The photo as a JPEG that holds its pixels and nothing else."""
    from PIL import Image, ImageOps, UnidentifiedImageError  # noqa: PLC0415 - the child's alone

    Image.MAX_IMAGE_PIXELS = None  # counted below, by our own limit
    try:
        photo = Image.open(BytesIO(raw), formats=tuple(PIXELS_AT_MOST))
    except UnidentifiedImageError:
        raise PhotoError("not-a-picture") from None
    if photo.width * photo.height > PIXELS_AT_MOST[photo.format or ""]:
        raise PhotoError("too-many-pixels")
    photo.draft("RGB", (LONG_SIDE, LONG_SIDE))
    photo.load()
    clean = _reduced(photo)
    clean.thumbnail((LONG_SIDE, LONG_SIDE))
    clean.getexif()[_ORIENTATION] = photo.getexif().get(_ORIENTATION, 1)
    upright = ImageOps.exif_transpose(clean)
    out = BytesIO()
    upright.save(out, "JPEG", quality=85, exif=b"")
    return upright.size, out.getvalue()


def _reduced(photo: Image) -> Image:
    """The pixels alone, on white, by a whole factor smaller; in strips, so that a large
    photo is in memory only once."""
    from PIL import Image  # noqa: PLC0415 - the child's alone

    factor = max(1, max(photo.size) // LONG_SIDE)
    width, height = photo.size
    clean = Image.new("RGB", (-(-width // factor), -(-height // factor)), "white")
    step = factor * _STRIP
    for top in range(0, height, step):
        strip = photo.crop((0, top, width, min(top + step, height)))
        if strip.mode.startswith("I"):  # 16 bits a pixel: cut to 8 here, or all comes out white
            strip = strip.convert("I").point(lambda value: value * (1 / 256)).convert("L")
        if strip.has_transparency_data:
            strip = strip.convert("RGBA")
            white = Image.new("RGB", strip.size, "white")
            white.paste(strip, mask=strip.getchannel("A"))
            strip = white
        clean.paste(strip.convert("RGB").reduce(factor), (0, top // factor))
    return clean


def _child() -> int:
    _limit_self()
    try:
        (width, height), body = _made_new(sys.stdin.buffer.read(BYTES_AT_MOST + 1))
    except PhotoError as refused:
        sys.stdout.write(refused.code)
        return _REFUSED
    head = json.dumps({"width": width, "height": height}).encode()
    sys.stdout.buffer.write(head + b"\n" + body)
    return 0


if __name__ == "__main__":
    sys.exit(_child())
