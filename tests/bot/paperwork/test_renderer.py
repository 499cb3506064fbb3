"""What the chat shows of papers: a light picture to read on a phone, and the paper itself."""

from __future__ import annotations

from collections.abc import Callable
from datetime import date
from io import BytesIO
from typing import Any

import pytest
from PIL import Image

from bot.paperwork.renderer import PaperRenderer, as_order
from bot.pictures import Renderer
from bot.pictures.sample import SAMPLE
from bot.ports import Renderer as Port
from conversations.effects import Cage, Document, OrderCopy, Picture
from conversations.locale import languages
from sizing.workshop import Figures

Read = Callable[[bytes], list[Any]]
HEAVIEST = 100_000


def copy_of(stage: str = "handed-in", version: int = 1) -> OrderCopy:
    """What somebody keeps of an order."""
    return OrderCopy(
        number="48291742",
        version=version,
        stage=stage,
        day=date(2026, 3, 2),
        cages=(Cage(item=1, label="", pieces=1, request=SAMPLE),),
    )


@pytest.fixture(scope="module")
def renderer(figures: Figures) -> PaperRenderer:
    """One for all tests here."""
    return PaperRenderer(figures)


def test_it_fulfils_the_port(renderer: PaperRenderer) -> None:
    """It can be handed to whatever asks for `bot.ports.Renderer`, and draws hints as ever."""
    port: Port = renderer
    hint = Picture(name="below")
    assert port.png(hint, "en") == Renderer().png(hint, "en")


@pytest.mark.parametrize("language", languages())
def test_a_copy_is_a_light_picture_as_wide_as_a_phone_shows(
    renderer: PaperRenderer, language: str
) -> None:
    """720 pixels wide, black on white, and the same object when it is asked for again."""
    picture = Picture(name="copy", order=copy_of())
    png = renderer.png(picture, language)
    image = Image.open(BytesIO(png)).convert("L")
    assert image.width == 720
    assert image.height < 4 * image.width
    assert len(png) < HEAVIEST
    tones = [tone for tone, count in enumerate(image.histogram()) if count]
    assert tones[0] < 10
    assert tones[-1] > 250
    assert renderer.png(picture, language) is png


def test_another_version_or_stage_is_another_picture(renderer: PaperRenderer) -> None:
    """What was cleared does not look like what waits."""
    pictures = {
        renderer.png(Picture(name="copy", order=order), "en")
        for order in (copy_of(), copy_of("cleared"), copy_of(version=2))
    }
    assert len(pictures) == 3


def test_the_paper_of_a_message_is_the_copy_or_the_sheet_to_measure_by(
    renderer: PaperRenderer, read_pdf: Read
) -> None:
    """Each in the language of the message."""
    (copy,) = read_pdf(renderer.pdf(Document(name="copy", order=copy_of()), "pl"))
    assert "Twoja kopia" in copy.text
    sheet = read_pdf(renderer.pdf(Document(name="measuring-sheet"), "en"))
    assert "Take this to the hive" in sheet[0].text


def test_the_day_of_a_copy_is_that_of_its_stage(figures: Figures) -> None:
    """Handed in on that day, or cleared on it."""
    waiting, cleared = as_order(copy_of(), figures), as_order(copy_of("cleared"), figures)
    assert (waiting.handed_in, waiting.cleared) == (date(2026, 3, 2), None)
    assert (cleared.handed_in, cleared.cleared) == (None, date(2026, 3, 2))
