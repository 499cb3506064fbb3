"""Orders of many shapes, one setter for all, and PDFs read by another library."""

from __future__ import annotations

from collections.abc import Callable, Iterator
from dataclasses import dataclass, replace
from datetime import date
from fractions import Fraction

import pypdfium2 as pdfium
import pytest
from PIL.Image import Image

from bot.commands import demo
from bot.paperwork.order import PaperCage, PaperOrder
from bot.paperwork.setting import Setter
from bot.pictures.sample import SAMPLE
from bot.settings import Settings
from bot.wiring import Workshop, open_workshop
from sizing.measures import Length, LidChoice, Purpose, Request
from sizing.workshop import Figures, default_figures

NUMBER = "48291742"
Box = tuple[float, float, float, float]


def mm(value: str) -> Length:
    """One reading."""
    return Length((Fraction(value),))


REQUESTS = {
    "usual": SAMPLE,
    "introduce": replace(SAMPLE, purpose=Purpose.INTRODUCE),
    "closed": replace(SAMPLE, lid=LidChoice.CLOSED, hive=replace(SAMPLE.hive, lug_room=mm("398"))),
    "notched": replace(SAMPLE, lid=LidChoice.CLOSED_BETWEEN_WALLS),
    "low rise": replace(SAMPLE, hive=replace(SAMPLE.hive, ledge_up=mm("12"))),
    "no depth": replace(SAMPLE, frame=replace(SAMPLE.frame, comb_thickness=None)),
    "no room for lugs": replace(SAMPLE, hive=replace(SAMPLE.hive, lug_room=None)),
    "long": replace(
        SAMPLE,
        frame=replace(SAMPLE.frame, side_to_side=mm("520"), lug_to_lug=mm("560")),
        hive=replace(SAMPLE.hive, inside_along=mm("535"), lug_room=mm("562")),
    ),
    "tall": replace(
        SAMPLE,
        frame=replace(SAMPLE.frame, top_to_bottom=mm("480")),
        hive=replace(SAMPLE.hive, ledge_down=mm("473")),
    ),
    "small": replace(
        SAMPLE,
        frame=replace(
            SAMPLE.frame, side_to_side=mm("120"), top_to_bottom=mm("100"), lug_to_lug=mm("150")
        ),
        hive=replace(
            SAMPLE.hive, inside_along=mm("135"), lug_room=mm("152"), ledge_down=mm("93")
        ),
    ),
}  # fmt: skip


@pytest.fixture(scope="session")
def figures() -> Figures:
    """The workshop's figures as they stand in the data."""
    return default_figures()


@pytest.fixture(scope="session")
def setter() -> Setter:
    """One for all tests."""
    return Setter()


@pytest.fixture(scope="session")
def make_order(figures: Figures) -> Callable[..., PaperOrder]:
    """Makes an order of some cages: `make_order(request, …, label=…)`."""

    def made(*requests: Request, label: str = "", contact: str = "") -> PaperOrder:
        cages = tuple(
            PaperCage.sized(request, figures, item=n, label=label)
            for n, request in enumerate(requests or (SAMPLE,), 1)
        )
        return PaperOrder(
            NUMBER, 3, "cleared", cages, date(2026, 3, 2), date(2026, 3, 3), "maria", contact
        )

    return made


@pytest.fixture(scope="session")
def requests_() -> dict[str, Request]:
    """All of the shapes by name."""
    return REQUESTS


@pytest.fixture(params=REQUESTS)
def request_(request: pytest.FixtureRequest) -> Request:
    """Cages that are usual, long, tall, small, little known, and of every lid."""
    return REQUESTS[request.param]


@dataclass(frozen=True)
class Page:
    """A page as another library reads it; boxes in mm from the upper left corner."""

    text: str
    width: float
    height: float
    words: tuple[tuple[str, Box], ...]
    lines: tuple[Box, ...]


MM = 25.4 / 72


def _words(page: pdfium.PdfPage, height: float) -> Iterator[tuple[str, Box]]:
    text = page.get_textpage()
    for n in range(text.count_rects()):
        left, bottom, right, top = text.get_rect(n)
        box = (left * MM, (height - top) * MM, right * MM, (height - bottom) * MM)
        yield text.get_text_bounded(left, bottom, right, top), box
    text.close()


def _lines(page: pdfium.PdfPage, height: float) -> Iterator[Box]:
    for drawn in page.get_objects(filter=[pdfium.raw.FPDF_PAGEOBJ_PATH], max_depth=8):
        left, bottom, right, top = drawn.get_bounds()
        yield left * MM, (height - top) * MM, right * MM, (height - bottom) * MM


@pytest.fixture(scope="session")
def render() -> Callable[[bytes], list[Image]]:
    """Renders the pages of a PDF as they are printed, 144 dots an inch."""

    def rendered(pdf: bytes) -> list[Image]:
        document = pdfium.PdfDocument(pdf)
        images = [page.render(scale=2).to_pil() for page in document]
        document.close()
        return images

    return rendered


@pytest.fixture(scope="session")
def read_pdf() -> Callable[[bytes], list[Page]]:
    """Reads a PDF into pages."""

    def read(pdf: bytes) -> list[Page]:
        pages = []
        document = pdfium.PdfDocument(pdf)
        for page in document:
            width, height = page.get_size()
            textpage = page.get_textpage()
            pages.append(
                Page(
                    text=textpage.get_text_bounded(),
                    width=width * MM,
                    height=height * MM,
                    words=tuple(_words(page, height)),
                    lines=tuple(_lines(page, height)),
                )
            )
            textpage.close()
            page.close()
        document.close()
        return pages

    return read


@pytest.fixture(scope="session")
def workshop(tmp_path_factory: pytest.TempPathFactory) -> Iterator[Workshop]:
    """The demo workshop, open; only to be read."""
    folder = tmp_path_factory.mktemp("shop")
    settings = Settings(database=folder / "data" / "shop.db", key_file=folder / "secret" / "key")
    demo.make(settings)
    with open_workshop(settings) as made:
        yield made
