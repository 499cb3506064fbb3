"""What the chat shows and sends: pictures, copies of orders as pictures, papers as PDF."""

from __future__ import annotations

from functools import lru_cache
from io import BytesIO

from PIL import Image

from bot.paperwork.customer_copy import customer_copy_data
from bot.paperwork.order import PaperCage, PaperOrder
from bot.paperwork.papers import Papers
from bot.paperwork.setting import Setter
from bot.paperwork.speech import Speech
from bot.pictures import Renderer
from conversations.effects import Cage, Document, OrderCopy, Picture
from conversations.review import Stage
from sizing.workshop import Figures

__all__ = ["PaperRenderer", "as_order"]

_PPI = 144.0
"""The copy's picture is 360 pt wide: 720 pixels."""
_GREYS = 16
_KEPT = 64


def as_order(copy: OrderCopy, figures: Figures) -> PaperOrder:
    """The order a message tells of, sized as it was when it was handed in."""
    cleared = copy.stage == Stage.CLEARED
    return PaperOrder(
        number=copy.number,
        version=copy.version,
        stage=copy.stage,
        cages=tuple(_sized(cage, figures) for cage in copy.cages),
        handed_in=None if cleared else copy.day,
        cleared=copy.day if cleared else None,
    )


def _sized(cage: Cage, figures: Figures) -> PaperCage:
    return PaperCage.sized(cage.request, figures, item=cage.item, label=cage.label)


class PaperRenderer(Renderer):
    """Makes pictures and papers; fulfils `bot.ports.Renderer`."""

    def __init__(self, figures: Figures) -> None:
        super().__init__(figures)
        self._workshop_figures = figures
        self._setter = Setter(self._typesetter)
        self._papers = Papers(figures, self._setter)
        self._kept_copies = lru_cache(_KEPT)(self._copy)

    @property
    def papers(self) -> Papers:
        """The papers of whole orders, for staff."""
        return self._papers

    def png(self, picture: Picture, language: str) -> bytes:
        """The picture as a PNG, 720 px wide; the copy of an order as tall as it gets."""
        if picture.order is None:
            return super().png(picture, language)
        return self._kept_copies(picture.order, language)

    def pdf(self, document: Document, language: str) -> bytes:
        """The paper as a PDF."""
        if document.order is None:
            return self._papers.measuring_sheet(language)
        return self._papers.pdf("copy", as_order(document.order, self._workshop_figures), language)

    def _copy(self, copy: OrderCopy, language: str) -> bytes:
        order = as_order(copy, self._workshop_figures)
        data = customer_copy_data(order, self._workshop_figures, Speech(language), phone=True)
        return _lighter(self._setter.pages("copy", data, "png", _PPI)[0])


def _lighter(png: bytes) -> bytes:
    """The same page in sixteen greys: a quarter of the bytes, for a bad signal."""
    page = Image.open(BytesIO(png)).convert("L").point([tone // 16 for tone in range(256)])
    page.putpalette([tone * 17 for tone in range(_GREYS) for _ in "rgb"])
    made = BytesIO()
    page.save(made, "PNG", bits=4)
    return made.getvalue()
