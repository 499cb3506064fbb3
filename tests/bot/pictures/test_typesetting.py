"""The typesetter: data in, the same bytes out, nothing passed over."""

from __future__ import annotations

import pytest

from bot.pictures.typesetting import Typesetter, TypesettingWarningError

TEMPLATE = b"""#set page(width: 60pt, height: 20pt, margin: 0pt)
#set text(font: "DejaVu Sans Mono")
#for words in json(bytes(sys.inputs.sheet)) { page(words) }
"""


@pytest.fixture(scope="module")
def typesetter() -> Typesetter:
    """One for all tests here."""
    return Typesetter()


def test_a_png_is_a_file_a_page_and_a_pdf_is_one_file(typesetter: Typesetter) -> None:
    """Two pages are two PNGs and one PDF."""
    assert len(typesetter.typeset("x", TEMPLATE, '["a", "b"]', "png")) == 2
    assert len(typesetter.typeset("x", TEMPLATE, '["a"]', "svg")) == 1
    (pdf,) = typesetter.typeset("x", TEMPLATE, '["a", "b"]', "pdf")
    assert pdf.startswith(b"%PDF")


def test_the_same_data_gives_the_same_bytes(typesetter: Typesetter) -> None:
    """Also from another typesetter: no clock and no chance gets into a PDF."""
    one = typesetter.typeset("x", TEMPLATE, '["a"]', "pdf")
    assert Typesetter().typeset("x", TEMPLATE, '["a"]', "pdf") == one


def test_a_warning_is_an_error_that_names_the_sheet(typesetter: Typesetter) -> None:
    """A face that is not there would otherwise be replaced by another one."""
    with pytest.raises(TypesettingWarningError) as caught:
        typesetter.typeset("odd", b'#set text(font: "No Such Face")\nwords', "{}", "pdf")
    assert caught.value.sheet == "odd"
    assert caught.value.warnings
