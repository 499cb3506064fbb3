"""A photo on its way into a conversation."""

from __future__ import annotations

import io
from collections.abc import AsyncIterator
from pathlib import Path
from typing import Any

import pytest
from PIL import Image

from bot.channels import photo_intake
from bot.channels.photo_intake import PHOTOS_PER_ORDER, take_photo
from bot.photos import PhotoError, PhotoShelf


def a_photo(shade: int = 0) -> bytes:
    """A small photo of one shade."""
    made = io.BytesIO()
    Image.new("L", (40, 30), shade).save(made, "PNG")
    return made.getvalue()


async def in_pieces(raw: bytes) -> AsyncIterator[bytes]:
    """A photo as it comes over a line."""
    for start in range(0, len(raw), 50):
        yield raw[start : start + 50]


@pytest.fixture
def shelf(tmp_path: Path) -> PhotoShelf:
    """An empty shelf."""
    return PhotoShelf(tmp_path / "photos")


async def test_a_photo_is_kept_and_written_down(shop: Any, shelf: PhotoShelf) -> None:
    """File and row have the same name, and the row knows the size."""
    shop.send("say hello")
    sha = await take_photo(shop.database, shelf, "anna", in_pieces(a_photo()), shop.clock.now())
    assert shelf.path(sha).is_file()
    size = shelf.path(sha).stat().st_size
    assert shop.rows("SELECT sha, person, width, height, bytes FROM photos") == [
        (sha, "anna", 40, 30, size)
    ]


async def test_a_stranger_s_photo_waits_for_its_event(shop: Any, shelf: PhotoShelf) -> None:
    """Somebody who never wrote has no row yet; the photo is there all the same."""
    sha = await take_photo(shop.database, shelf, "new", in_pieces(a_photo()), shop.clock.now())
    assert shelf.path(sha).is_file()
    assert shop.rows("SELECT count(*) FROM photos") == [(0,)]


async def test_a_notebook_holds_only_so_many_photos(shop: Any, shelf: PhotoShelf) -> None:
    """The thirteenth is refused before it is read; one of another person is not."""
    for person in ("anna", "berta"):
        shop.send("say hello", person)
    now = shop.clock.now()
    for shade in range(PHOTOS_PER_ORDER):
        await take_photo(shop.database, shelf, "anna", in_pieces(a_photo(shade)), now)
    with pytest.raises(PhotoError, match="enough"):
        await take_photo(shop.database, shelf, "anna", in_pieces(b"never read"), now)
    assert await take_photo(shop.database, shelf, "berta", in_pieces(a_photo()), now)


async def test_a_notebook_holds_only_so_many_bytes(
    shop: Any, shelf: PhotoShelf, monkeypatch: pytest.MonkeyPatch
) -> None:
    """Few large photos fill it as many small ones do."""
    shop.send("say hello")
    monkeypatch.setattr(photo_intake, "BYTES_PER_ORDER", 100)
    now = shop.clock.now()
    await take_photo(shop.database, shelf, "anna", in_pieces(a_photo()), now)
    with pytest.raises(PhotoError, match="enough"):
        await take_photo(shop.database, shelf, "anna", in_pieces(a_photo(9)), now)
