"""An order number as an ordinary QR code: outlines of its dark modules."""

from __future__ import annotations

from itertools import groupby

__all__ = ["QUIET", "Code", "qr"]

QUIET = 4
"""Modules left white around the code (ISO/IEC 18004)."""

Code = dict[str, object]
"""How many modules a side has, quiet zone included, and where dark runs lie, ready for JSON."""


def qr(content: str) -> Code:
    """The code of `content`, always of the ordinary kind, never Micro.

    Error correction H: a third of it may be covered by a thumb of grease and it still reads.
    """
    import segno  # noqa: PLC0415 - only papers need it, the chat starts without

    code = segno.make_qr(content, error="h", boost_error=False)
    runs = []
    for y, row in enumerate(code.matrix):
        x = 0
        for dark, modules in groupby(row):
            width = len(list(modules))
            if dark:
                runs.append([x + QUIET, y + QUIET, width])
            x += width
    return {"side": len(code.matrix) + 2 * QUIET, "runs": runs}
