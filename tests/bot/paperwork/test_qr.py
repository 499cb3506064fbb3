"""The code of an order number: its modules, drawn, read back."""

from __future__ import annotations

import zxingcpp
from PIL import Image

from bot.paperwork.qr import QUIET, qr


def test_what_is_drawn_reads_back_and_is_not_micro() -> None:
    """Version 1 has 21 modules a side, a Micro code at most 17."""
    code = qr("48291742")
    side, runs = code["side"], code["runs"]
    assert side == 21 + 2 * QUIET
    assert isinstance(side, int)
    assert isinstance(runs, list)
    image = Image.new("L", (side, side), 255)
    for x, y, width in runs:
        for n in range(width):
            image.putpixel((x + n, y), 0)
    (read,) = zxingcpp.read_barcodes(image.resize((side * 6, side * 6), Image.Resampling.NEAREST))
    assert read.text == "48291742"
    assert read.format == zxingcpp.BarcodeFormat.QRCode
    assert read.ec_level == "H"
