"""The work order says what the design says, to scale, and its code is the order's number."""

from __future__ import annotations

import subprocess
import sys
from collections.abc import Callable
from hashlib import sha256
from itertools import combinations
from typing import Any

import pytest
import zxingcpp
from babel.numbers import parse_decimal
from PIL.Image import Image

from bot.paperwork.order import PaperOrder
from bot.paperwork.setting import Setter
from bot.paperwork.speech import Speech
from bot.paperwork.work_order import CHECKS, bench_drawing, size_text, work_order_data
from bot.pictures.sample import SAMPLE
from conversations.locale import catalogue, languages
from sizing.fabrication.sizes import sizes_of
from sizing.measures import Request
from sizing.workshop import Figures

Make = Callable[..., PaperOrder]
Read = Callable[[bytes], list[Any]]


@pytest.fixture
def pdf(setter: Setter, figures: Figures) -> Callable[[PaperOrder, str], bytes]:
    """Makes the work order of an order."""

    def made(order: PaperOrder, language: str) -> bytes:
        return setter.pdf("work_order", work_order_data(order, figures, Speech(language)))

    return made


Pdf = Callable[[PaperOrder, str], bytes]


@pytest.mark.parametrize("language", languages())
def test_every_size_of_the_design_stands_on_it_with_its_tolerance(
    make_order: Make, request_: Request, pdf: Pdf, read_pdf: Read, figures: Figures, language: str
) -> None:
    """Read by another library, each line of sizes has the number of the design."""
    order = make_order(request_)
    (page,) = read_pdf(pdf(order, language))
    text = " ".join(page.text.split())
    design = order.cages[0].design
    sizes = sizes_of(design.cage, design.lid, figures)
    assert len(sizes) >= 11
    for size in sizes:
        name, value, off = size_text(size, Speech(language))
        assert f"{name} {value} {off}".strip() in text, size
        if size.value is not None:
            said = float(parse_decimal(value, locale=language))
            assert said == pytest.approx(float(size.value), abs=0.005001)


@pytest.mark.parametrize("language", languages())
def test_it_has_one_page_a_cage_and_numbers_them(
    make_order: Make, request_: Request, pdf: Pdf, read_pdf: Read, language: str
) -> None:
    """One page for one cage, three for three: 1 / 3, 2 / 3, 3 / 3."""
    assert len(read_pdf(pdf(make_order(request_, label="Ramka " * 8), language))) == 1
    pages = read_pdf(pdf(make_order(SAMPLE, request_, SAMPLE), language))
    assert len(pages) == 3
    for n, page in enumerate(pages, 1):
        assert f"{n} / 3" in page.text
        assert (page.width, page.height) == pytest.approx((210, 297), abs=0.1)


def test_its_code_is_an_ordinary_qr_code_of_the_order_number(
    make_order: Make, pdf: Pdf, read_pdf: Read, render: Callable[[bytes], list[Image]]
) -> None:
    """Read from the page as it is printed; eight digits, the last two of which check the rest."""
    made = pdf(make_order(SAMPLE, SAMPLE), "en")
    for page, image in zip(read_pdf(made), render(made), strict=True):
        (code,) = zxingcpp.read_barcodes(image)
        assert code.format == zxingcpp.BarcodeFormat.QRCode
        assert code.text == "48291742"
        assert "482 917 42" in page.text.replace("\u00a0", " ")


def test_the_printed_scale_is_the_written_one(
    make_order: Make, request_: Request, pdf: Pdf, read_pdf: Read, figures: Figures
) -> None:
    """Measured in the PDF, the lid or the ears are as long as their number over the scale."""
    order = make_order(request_)
    cage = order.cages[0]
    (page,) = read_pdf(pdf(order, "en"))
    scale = bench_drawing(cage, figures, Speech("en")).scale
    assert f"1 : {scale} " in page.text
    wanted = float(cage.design.cage.length_outside) / scale
    widths = [right - left for left, _, right, _ in page.lines]
    # The path's box includes half a line at each end: 0.35 mm in all.
    assert min(abs(width - wanted) for width in widths) < 0.4
    tall = float(cage.design.cage.height_overall) / scale
    assert min(abs(bottom - top - tall) for _, top, _, bottom in page.lines) < 0.4


@pytest.mark.parametrize("language", languages())
def test_words_lie_neither_on_each_other_nor_off_the_page(
    make_order: Make, request_: Request, pdf: Pdf, read_pdf: Read, language: str
) -> None:
    """Boxes of words as another library finds them: apart, inside the margins."""
    (page,) = read_pdf(pdf(make_order(request_, label="Ramka mojego dziadka"), language))
    boxes = [(text, box) for text, box in page.words if text.strip()]
    assert len(boxes) > 60
    for text, (left, top, right, bottom) in boxes:
        assert left >= 19.5, text
        assert right <= 200.5, text
        assert top >= 8, text
        assert bottom <= 289, text
    clashes = [
        (one, other) for (one, a), (other, b) in combinations(boxes, 2) if much_overlap(a, b)
    ]
    assert clashes == []


def much_overlap(a: tuple[float, ...], b: tuple[float, ...]) -> bool:
    """Whether boxes cross by more than the slack of line boxes [mm]."""
    return min(a[2], b[2]) - max(a[0], b[0]) > 0.3 and min(a[3], b[3]) - max(a[1], b[1]) > 0.6


@pytest.mark.parametrize("language", languages())
def test_wires_pins_checks_and_cautions_are_on_it(
    make_order: Make, pdf: Pdf, read_pdf: Read, language: str
) -> None:
    """59 wires at a pitch of 6.17; the pins are the limits of the gap; every check has its line."""
    (page,) = read_pdf(pdf(make_order(), language))
    text = " ".join(page.text.replace("\u00a0", " ").split())
    speech = Speech(language)
    mark = speech.figure
    design = make_order().cages[0].design
    row = design.wire.panels[0].row
    pitch = row.gap + design.wire.diameter
    assert f"{row.wires} {mark(row.gap)} {mark(pitch)}" in text
    for length in ("4.3", "4.1"):
        assert f"{length.replace('.', mark_of(language))} mm" in text
    texts = catalogue(language)
    for check in CHECKS:
        assert texts.text(f"paper.check.{check}") in text
    for caution in ("cut_edges", "zinc_fume"):
        assert texts.text(f"paper.caution.{caution}")[:40] in text


def mark_of(language: str) -> str:
    """The decimal mark."""
    return {"en": ".", "pl": ","}[language]


def test_a_cage_that_lacks_a_length_says_not_to_make_it(
    make_order: Make, pdf: Pdf, read_pdf: Read
) -> None:
    """What is open stands large over the drawing."""
    lacking = make_order(SAMPLE.__class__(purpose=SAMPLE.purpose, frame=SAMPLE.frame))
    (page,) = read_pdf(pdf(lacking, "en"))
    assert "Do not make it yet" in page.text
    (usual,) = read_pdf(pdf(make_order(), "en"))
    assert "Do not make it" not in usual.text


def test_what_a_person_typed_is_never_markup(make_order: Make, pdf: Pdf, read_pdf: Read) -> None:
    """Signs that mean something to the typesetter are printed as they were typed."""
    odd = '#panic("x") *a* $1$ _b_ <c> \\ @d `e`'
    (page,) = read_pdf(pdf(make_order(SAMPLE, label=odd), "en"))
    assert odd in page.text


def test_another_process_makes_the_same_bytes(make_order: Make, figures: Figures, pdf: Pdf) -> None:
    """With another hash seed, without the fonts of the system, at another moment."""
    program = (
        "import hashlib, sys\n"
        "from datetime import date\n"
        "from bot.paperwork.order import PaperCage, PaperOrder\n"
        "from bot.paperwork.setting import Setter\n"
        "from bot.paperwork.speech import Speech\n"
        "from bot.paperwork.work_order import work_order_data\n"
        "from bot.pictures.sample import SAMPLE\n"
        "from sizing.workshop import default_figures\n"
        "figures = default_figures()\n"
        "order = PaperOrder('48291742', 3, 'cleared', (PaperCage.sized(SAMPLE, figures),),\n"
        "    date(2026, 3, 2), date(2026, 3, 3), 'maria')\n"
        "data = work_order_data(order, figures, Speech('en'))\n"
        "sys.stdout.write(hashlib.sha256(Setter().pdf('work_order', data)).hexdigest())\n"
    )
    other = subprocess.run(
        [sys.executable, "-c", program], capture_output=True, text=True, check=True,
        env={"PYTHONHASHSEED": "7", "HOME": "/nonexistent", "FONTCONFIG_FILE": "/dev/null"},
    )  # fmt: skip
    assert other.stdout == sha256(pdf(make_order(), "en")).hexdigest()
