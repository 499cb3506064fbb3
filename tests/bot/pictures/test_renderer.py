"""Pictures come out as wide, as light and as equal as promised."""

from __future__ import annotations

import subprocess
import sys
from concurrent.futures import ThreadPoolExecutor
from hashlib import sha256
from io import BytesIO

import pytest
from PIL import Image, ImageChops

from bot.pictures import Renderer, TypesettingWarningError
from bot.pictures import renderer as module
from bot.pictures.layout import Sheet, compose
from bot.pictures.renderer import sheet_data
from bot.pictures.sample import SAMPLE
from conversations.effects import Picture
from conversations.locale import languages
from sizing.drawings import CAGE, HINTS, UnknownPictureError, scene_of
from sizing.measures import Request

HEAVIEST = 60_000
NARROWEST = 720


def opened(png: bytes) -> Image.Image:
    """The image of a PNG."""
    image = Image.open(BytesIO(png))
    image.load()
    return image


@pytest.mark.parametrize("language", languages())
def test_every_how_to_picture_is_wide_enough_and_light(
    renderer: Renderer, hints: tuple[Picture, ...], language: str
) -> None:
    """At least 720 px wide and under 60 kB, in every language."""
    for picture in hints:
        png = renderer.png(picture, language)
        assert opened(png).width >= NARROWEST, picture.name
        assert len(png) < HEAVIEST, picture.name


@pytest.mark.parametrize("language", languages())
def test_every_cage_picture_is_wide_enough_and_light(
    renderer: Renderer, cages: tuple[Picture, ...], language: str
) -> None:
    """For usual, tight, impossible and little known cages and every known frame."""
    for picture in cages:
        png = renderer.png(picture, language)
        assert opened(png).width >= NARROWEST, picture.request
        assert len(png) < HEAVIEST, picture.request


@pytest.mark.parametrize("language", languages())
def test_no_letter_lies_outside_the_box_that_was_counted_for_it(
    renderer: Renderer, hints: tuple[Picture, ...], cages: tuple[Picture, ...], language: str
) -> None:
    """Drawn alone, the words leave no ink outside their boxes: extents are not guessed short."""
    for picture in (*hints, *cages[:6]):
        sheet = compose(scene_of(picture.name, picture.request), language)
        sheet.marks.clear()
        boxes = [words.box for words in sheet.words]
        for words in sheet.words:
            assert words.block.lines
        image = opened(typeset(renderer, sheet_data(without_plates(sheet)))).convert("RGB")
        for left, top, right, bottom in boxes:
            hole = (int(left) - 1, int(top) - 1, int(right) + 2, int(bottom) + 2)
            image.paste((255, 255, 255), hole)
        blank = Image.new("RGB", image.size, (255, 255, 255))
        assert ImageChops.difference(image, blank).getbbox() is None, picture.name


def without_plates(sheet: Sheet) -> Sheet:
    """The sheet with black words on nothing."""
    sheet.words = [type(words)(words.block, words.x, words.y) for words in sheet.words]
    return sheet


def typeset(renderer: Renderer, data: str) -> bytes:
    """A PNG of sheet data, past the cache."""
    return renderer._typesetter.typeset("", module._template(), data, "png")[0]


def test_an_svg_holds_the_same_sheet(renderer: Renderer) -> None:
    """It is as wide as the PNG and needs no font of the reader."""
    svg = renderer.svg(Picture(name="side_to_side"), "en").decode()
    assert svg.startswith("<svg")
    assert 'width="720pt"' in svg
    assert "<text" not in svg


def test_two_renderers_make_the_same_bytes() -> None:
    """Nothing of the moment gets into a picture."""
    for name, request in (("inside_along", None), (CAGE, SAMPLE)):
        picture = Picture(name=name, request=request)
        assert Renderer().png(picture, "en") == Renderer().png(picture, "en")
        assert Renderer().svg(picture, "en") == Renderer().svg(picture, "en")


def test_another_process_makes_the_same_bytes(renderer: Renderer) -> None:
    """Also with another hash seed and without the fonts of the system."""
    program = (
        "import hashlib, sys\n"
        "from bot.pictures import Renderer\n"
        "from conversations.effects import Picture\n"
        "png = Renderer().png(Picture(name='lid'), 'en')\n"
        "sys.stdout.write(hashlib.sha256(png).hexdigest())\n"
    )
    environment = {"PYTHONHASHSEED": "7", "HOME": "/nonexistent", "FONTCONFIG_FILE": "/dev/null"}
    other = subprocess.run(
        [sys.executable, "-c", program], capture_output=True, text=True, check=True,
        env=environment,
    )  # fmt: skip
    assert other.stdout == sha256(renderer.png(Picture(name="lid"), "en")).hexdigest()


def test_threads_may_share_a_renderer() -> None:
    """Four at once get what one alone gets."""
    names = list(HINTS)[:8]
    alone = [Renderer().png(Picture(name=name), "en") for name in names]
    shared = Renderer()
    with ThreadPoolExecutor(4) as pool:
        together = list(pool.map(lambda name: shared.png(Picture(name=name), "en"), names))
    assert together == alone


def test_the_same_picture_is_made_once() -> None:
    """Asked again, it is the very same object; another language or request is another."""
    renderer = Renderer()
    first = renderer.png(Picture(name="below"), "en")
    assert renderer.png(Picture(name="below"), "en") is first
    assert renderer.png(Picture(name="above"), "en") != first


def test_an_unknown_picture_is_an_error_that_names_it(renderer: Renderer) -> None:
    """So that a slip in a script of questions is found at once."""
    with pytest.raises(UnknownPictureError) as caught:
        renderer.png(Picture(name="wing_length"), "en")
    assert caught.value.name == "wing_length"


def test_an_unknown_language_is_an_error_that_names_it(renderer: Renderer) -> None:
    """There are no half-translated pictures."""
    with pytest.raises(KeyError, match="xx"):
        renderer.png(Picture(name="side_to_side"), "xx")


def test_a_doubt_of_the_typesetter_is_an_error(monkeypatch: pytest.MonkeyPatch) -> None:
    """Warnings about our own template are not passed over."""
    warned = b'#set text(font: "No Such Face")\nwords'
    monkeypatch.setattr(module, "_template", lambda: warned)
    with pytest.raises(TypesettingWarningError) as caught:
        Renderer().png(Picture(name="side_to_side"), "en")
    assert caught.value.sheet == "side_to_side"
    assert caught.value.warnings


def test_words_are_never_read_as_markup(
    renderer: Renderer, monkeypatch: pytest.MonkeyPatch
) -> None:
    """Signs that mean something to the typesetter come out as themselves."""
    plain = renderer.png(Picture(name="below"), "en")
    odd = '#panic("x") *a* $1$ _b_ <c> \\'
    monkeypatch.setattr("bot.pictures.layout.say", lambda *_: odd)
    fresh = Renderer().png(Picture(name="below"), "en")
    assert opened(fresh).size == opened(plain).size
    assert fresh != plain


def test_a_picture_keeps_its_request_apart() -> None:
    """Two orders with different lengths get different pictures."""
    renderer = Renderer()
    other = Request(purpose=SAMPLE.purpose, frame=SAMPLE.frame)
    assert renderer.png(Picture(name=CAGE, request=SAMPLE), "en") != renderer.png(
        Picture(name=CAGE, request=other), "en"
    )
