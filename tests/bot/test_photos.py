"""Photos people send, and what they may turn out to be."""

from __future__ import annotations

import hashlib
import io
import os
import random
import struct
import subprocess
import sys
import time
import zlib
from collections.abc import AsyncIterator
from pathlib import Path
from typing import Any

import pytest
from PIL import Image

from bot import photos
from bot.photos import BYTES_AT_MOST, PhotoError, PhotoShelf

ORIENTATION = 0x0112


def encoded(image: Image.Image, form: str = "JPEG", **options: Any) -> bytes:
    """The image as a file."""
    made = io.BytesIO()
    image.save(made, form, **options)
    return made.getvalue()


def gradient(width: int = 64, height: int = 48, mode: str = "RGB") -> Image.Image:
    """Dark above, light below."""
    return Image.linear_gradient("L").resize((width, height)).convert(mode)


def grey(image: Image.Image, across: int, down: int) -> float:
    """How light the image is at a place, 0 to 255."""
    value = image.convert("L").getpixel((across, down))
    assert isinstance(value, float | int)
    return value


@pytest.fixture
def shelf(tmp_path: Path) -> PhotoShelf:
    """An empty shelf."""
    return PhotoShelf(tmp_path / "photos")


def kept(shelf: PhotoShelf, raw: bytes) -> Image.Image:
    """The photo as it lies on the shelf."""
    image = Image.open(io.BytesIO(shelf.path(shelf.keep(raw)).read_bytes()))
    image.load()
    return image


@pytest.mark.parametrize("form", ["JPEG", "PNG", "WEBP"])
def test_a_photo_is_kept_as_a_jpeg_of_its_size(shelf: PhotoShelf, form: str) -> None:
    """Whatever it came as; the name of the file that was sent plays no part."""
    image = kept(shelf, encoded(gradient(), form))
    assert (image.format, image.mode, image.size) == ("JPEG", "RGB", (64, 48))


@pytest.mark.parametrize("mode", ["1", "L", "LA", "P", "RGB", "RGBA", "I;16"])
def test_every_kind_of_pixel_is_shown_rightly(shelf: PhotoShelf, mode: str) -> None:
    """Dark stays dark and light stays light."""
    source = gradient(64, 64, "L")
    image = source.convert("I").point(lambda value: value * 256) if mode == "I;16" else source
    made = kept(shelf, encoded(image.convert(mode), "PNG"))
    assert grey(made, 32, 2) < 70
    assert grey(made, 32, 61) > 185


def test_what_is_transparent_is_white(shelf: PhotoShelf) -> None:
    """A picture without a ground gets one."""
    assert kept(shelf, encoded(Image.new("RGBA", (9, 9)), "PNG")).getpixel((4, 4)) == (255,) * 3


def test_nothing_but_pixels_is_kept(shelf: PhotoShelf) -> None:
    """No place, no maker, no remark, no profile, no second picture behind the first."""
    exif = Image.Exif()
    exif[0x010F] = "a maker"
    exif.get_ifd(0x8825)[2] = (50.0, 3.0, 0.0)
    raw = encoded(gradient(), exif=exif, comment=b"a remark", icc_profile=b"a profile" * 20)
    shelf.keep(raw + b"a stowaway")
    (file,) = shelf.folder.glob("??/*.jpg")
    for word in (b"a maker", b"a remark", b"a profile", b"a stowaway", b"Exif"):
        assert word not in file.read_bytes()


@pytest.mark.parametrize(
    ("turn", "dark"), [(1, (32, 2)), (3, (32, 45)), (6, (45, 32)), (8, (2, 32))]
)
def test_a_photo_taken_sideways_stands_upright(
    shelf: PhotoShelf, turn: int, dark: tuple[int, int]
) -> None:
    """The phone says how it was held; that is done to the pixels before it is forgotten."""
    exif = Image.Exif()
    exif[ORIENTATION] = turn
    image = kept(shelf, encoded(gradient(), exif=exif))
    assert image.size == ((64, 48) if turn < 5 else (48, 64))
    assert grey(image, *dark) < 60
    assert len(image.getexif()) == 0


def test_a_large_photo_is_kept_smaller(shelf: PhotoShelf) -> None:
    """Its long side is cut down; its shape stays."""
    image = kept(shelf, encoded(gradient(6000, 3000)))
    assert image.size[0] == photos.LONG_SIDE
    assert abs(image.size[0] / image.size[1] - 2) < 0.01


def test_the_same_photo_twice_is_one_file(shelf: PhotoShelf) -> None:
    """Its name is the hash of what is kept; only its owner may read it."""
    first, second = shelf.keep(encoded(gradient())), shelf.keep(encoded(gradient()))
    assert first == second
    (file,) = [path for path in shelf.folder.rglob("*") if path.is_file()]
    assert hashlib.sha256(file.read_bytes()).hexdigest() == first
    assert file.stat().st_mode & 0o777 == 0o600
    assert file.parent.stat().st_mode & 0o077 == 0


@pytest.mark.parametrize(
    ("raw", "code"),
    [
        (b"", "not-a-picture"),
        (b"hello", "not-a-picture"),
        (b"<svg xmlns='http://www.w3.org/2000/svg'/>", "not-a-picture"),
        (encoded(gradient(), "GIF"), "not-a-picture"),
        (encoded(gradient(), "BMP"), "not-a-picture"),
        (encoded(gradient(), "TIFF"), "not-a-picture"),
        (encoded(gradient(400, 300))[:900], "broken"),
        (encoded(gradient(400, 300), "PNG")[:200], "broken"),
    ],
    ids=["nothing", "words", "svg", "gif", "bmp", "tiff", "half a jpeg", "half a png"],
)
def test_what_is_no_whole_photo_is_refused(shelf: PhotoShelf, raw: bytes, code: str) -> None:
    """By its content, whatever it is called, and nothing of it is kept."""
    with pytest.raises(PhotoError) as refused:
        shelf.keep(raw)
    assert refused.value.code == code
    assert not shelf.folder.exists()


def a_bomb(side: int) -> bytes:
    """A PNG of a few bytes that says it is `side` by `side` pixels."""
    head = struct.pack(">IIBBBBB", side, side, 1, 0, 0, 0, 0)
    chunks = [(b"IHDR", head), (b"IDAT", zlib.compress(bytes(1000))), (b"IEND", b"")]
    body = b"".join(
        struct.pack(">I", len(data)) + name + data + struct.pack(">I", zlib.crc32(name + data))
        for name, data in chunks
    )
    return b"\x89PNG\r\n\x1a\n" + body


@pytest.mark.parametrize(
    "raw",
    [encoded(Image.new("1", (7100, 7100)), "PNG"), a_bomb(30_000), a_bomb(100_000)],
    ids=["whole", "900 million", "ten thousand million"],
)
def test_too_many_pixels_are_refused_before_they_are_made(shelf: PhotoShelf, raw: bytes) -> None:
    """A small file can stand for a picture that fills all memory."""
    started = time.monotonic()
    with pytest.raises(PhotoError) as refused:
        shelf.keep(raw)
    assert refused.value.code == "too-many-pixels"
    assert time.monotonic() - started < 2


def test_a_size_that_is_no_size_is_refused(shelf: PhotoShelf) -> None:
    """What cannot even be counted is no picture."""
    with pytest.raises(PhotoError):
        shelf.keep(a_bomb(2_000_000_000))


def test_too_many_bytes_are_refused(shelf: PhotoShelf) -> None:
    """Without a look at them."""
    with pytest.raises(PhotoError, match="too-big"):
        shelf.keep(bytes(BYTES_AT_MOST + 1))


async def test_reading_stops_as_soon_as_it_is_too_much(shelf: PhotoShelf) -> None:
    """A stream without an end is not read to its end."""
    given = 0

    async def endless() -> AsyncIterator[bytes]:
        nonlocal given
        while True:
            given += 1
            yield bytes(1024 * 1024)

    with pytest.raises(PhotoError, match="too-big"):
        await shelf.keep_from(endless())
    assert given == 21


async def test_a_photo_in_pieces_is_the_same_photo(shelf: PhotoShelf) -> None:
    """However it comes in, it is kept under the same name, and its size is known."""
    raw = encoded(gradient())

    async def pieces() -> AsyncIterator[bytes]:
        for start in range(0, len(raw), 100):
            yield raw[start : start + 100]

    found = await shelf.keep_from(pieces())
    assert found.sha == shelf.keep(raw)
    assert (found.width, found.height) == (64, 48)
    assert found.size == shelf.path(found.sha).stat().st_size


@pytest.mark.slow
def test_a_large_photo_takes_little_time_and_memory() -> None:
    """Forty-nine megapixels in two seconds and 400 MB, in a process of its own."""
    command = [sys.executable, "-I", photos.__file__]
    for form, mode in (("JPEG", "RGB"), ("PNG", "RGBA")):
        raw = encoded(gradient(7000, 7000, mode), form)
        started = time.monotonic()
        child = subprocess.run(command, input=raw, capture_output=True, check=True)
        assert time.monotonic() - started < 4
        assert child.stdout.startswith(b'{"width": 2560')


@pytest.mark.slow
def test_a_broken_photo_never_ends_us(shelf: PhotoShelf) -> None:
    """A hundred photos with bytes changed at random: each is kept or refused, soon."""
    chance = random.Random(1)
    good = [encoded(gradient(), form) for form in ("JPEG", "PNG", "WEBP")]
    outcomes = {"kept": 0, "refused": 0}
    for count in range(100):
        raw = bytearray(good[count % 3])
        for _ in range(chance.randrange(1, 20)):
            raw[chance.randrange(len(raw))] = chance.randrange(256)
        started = time.monotonic()
        try:
            shelf.keep(bytes(raw))
            outcomes["kept"] += 1
        except PhotoError:
            outcomes["refused"] += 1
        assert time.monotonic() - started < 5
    assert outcomes["kept"] > 5
    assert outcomes["refused"] > 5


def test_a_child_that_hangs_is_given_up(shelf: PhotoShelf, monkeypatch: pytest.MonkeyPatch) -> None:
    """After its time the child is ended and the photo refused."""
    monkeypatch.setattr(photos, "SECONDS_AT_MOST", 0.001)
    with pytest.raises(PhotoError, match="broken"):
        shelf.keep(encoded(gradient()))


@pytest.mark.parametrize("name", ["", "../" * 20, "0" * 63, "0" * 65, "G" * 64, "A" * 64, "٣" * 64])
def test_only_a_hash_names_a_photo(shelf: PhotoShelf, name: str) -> None:
    """Nothing else leads to a file, least of all out of the folder."""
    with pytest.raises(KeyError):
        shelf.path(name)


def test_photos_nobody_refers_to_go_after_an_hour(shelf: PhotoShelf) -> None:
    """A photo in use stays, and so does one whose turn may still be under way."""
    used, old, young = (shelf.keep(encoded(gradient(64, side))) for side in (40, 41, 42))
    hour_ago = time.time() - 3700
    for name in (used, old):
        os.utime(shelf.path(name), (hour_ago, hour_ago))
    assert shelf.sweep({used}) == 1
    assert [shelf.path(name).exists() for name in (used, old, young)] == [True, False, True]
