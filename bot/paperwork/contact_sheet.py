"""Writes every paper in every language to a folder, as PDF and as PNG a page, for looking at:
`python -m bot.paperwork.contact_sheet DIR`."""

from __future__ import annotations

import sys
from dataclasses import replace
from datetime import date
from html import escape
from pathlib import Path

from bot.paperwork.customer_copy import customer_copy_data
from bot.paperwork.labels import labels_data
from bot.paperwork.measuring_sheet import measuring_sheet_data
from bot.paperwork.order import PaperCage, PaperOrder
from bot.paperwork.setting import Setter
from bot.paperwork.speech import Speech
from bot.paperwork.work_order import work_order_data
from bot.pictures.sample import SAMPLE
from conversations.locale import languages
from sizing.measures import LidChoice, Purpose
from sizing.workshop import Figures, default_figures

__all__ = ["main", "write"]

_PPI = 110.0
_DAY = date(2026, 3, 2)


def _order(figures: Figures) -> PaperOrder:
    """An invented order of three kinds of cage."""
    requests = (
        replace(SAMPLE, pieces=2),
        replace(SAMPLE, purpose=Purpose.INTRODUCE),
        replace(SAMPLE, lid=LidChoice.CLOSED_BETWEEN_WALLS),
    )
    cages = tuple(
        PaperCage.sized(request, figures, item=n) for n, request in enumerate(requests, 1)
    )
    return PaperOrder(
        "48291742", 1, "cleared", cages, _DAY, _DAY, "maria", "Iwo, iwo@example.org"
    )  # fmt: skip


def write(folder: Path) -> list[Path]:
    """Writes all papers and `index.html` into `folder`; the files written."""
    folder.mkdir(parents=True, exist_ok=True)
    figures, setter = default_figures(), Setter()
    order, written, shown = _order(figures), [], []
    for language in languages():
        speech = Speech(language)
        papers = {
            "work_order": work_order_data(order, figures, speech),
            "copy": customer_copy_data(order, figures, speech),
            "labels": labels_data(order, speech),
            "measuring": measuring_sheet_data(speech),
        }
        for name, data in papers.items():
            pdf = folder / f"{name}.{language}.pdf"
            pdf.write_bytes(setter.pdf(name, data))
            written.append(pdf)
            for n, png in enumerate(setter.pages(name, data, "png", _PPI), 1):
                page = folder / f"{name}.{language}.{n}.png"
                page.write_bytes(png)
                shown.append(page)
    figures_html = "\n".join(
        f'<figure><img src="{escape(page.name)}" width="480"><figcaption>{escape(page.stem)}'
        "</figcaption></figure>"
        for page in shown
    )
    index = folder / "index.html"
    index.write_text(
        f'<!doctype html><meta charset="utf-8"><title>Papers</title>\n{figures_html}\n', "utf-8"
    )
    return [*written, *shown, index]


def main(arguments: list[str]) -> int:
    """Runs the command; 2 where it is not given exactly one folder."""
    if len(arguments) != 1:
        sys.stderr.write("usage: python -m bot.paperwork.contact_sheet DIR\n")
        return 2
    sys.stdout.write(f"{len(write(Path(arguments[0])))} files\n")
    return 0


if __name__ == "__main__":
    raise SystemExit(main(sys.argv[1:]))
