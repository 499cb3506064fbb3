"""How long a hint, a read-back picture and a work order take: warm, other content every time.

    python tests/benchmarks/pictures.py [ROUNDS]

Aims on a quiet machine: 15, 25 and 40 ms.
"""

from __future__ import annotations

import sys
from collections.abc import Callable
from dataclasses import replace
from datetime import date
from fractions import Fraction
from pathlib import Path
from statistics import median
from time import perf_counter

sys.path.insert(0, str(Path(__file__).parents[2]))

from bot.paperwork.order import PaperCage, PaperOrder
from bot.paperwork.renderer import PaperRenderer
from bot.pictures.sample import SAMPLE
from conversations.effects import Picture
from conversations.locale import languages
from sizing.drawings import CAGE, HINTS
from sizing.measures import Length, Request
from sizing.workshop import default_figures

AIMS = {"hint": 15, "read-back picture": 25, "work order": 40}


def request(turn: int) -> Request:
    """A request with other lengths each turn."""
    side = Length((Fraction(355) + Fraction(turn, 10),))
    return replace(SAMPLE, frame=replace(SAMPLE.frame, side_to_side=side))


def main(rounds: int) -> None:
    """Print the median and the best of each."""
    figures = default_figures()
    renderer = PaperRenderer(figures)
    hints = list(HINTS)

    def hint(turn: int) -> None:
        renderer.forget()
        language = languages()[turn % len(languages())]
        renderer.png(Picture(name=hints[turn % len(hints)]), language)

    def read_back(turn: int) -> None:
        renderer.png(Picture(name=CAGE, request=request(turn)), "en")

    def work_order(turn: int) -> None:
        cage = PaperCage.sized(request(turn), figures)
        order = PaperOrder("48291742", turn + 1, "cleared", (cage,), date(2026, 3, 2))
        renderer.papers.pdf("work-order", order, "en")

    kinds: dict[str, Callable[[int], None]] = {
        "hint": hint, "read-back picture": read_back, "work order": work_order,
    }  # fmt: skip
    for name, make in kinds.items():
        make(10_000)
        times = []
        for turn in range(rounds):
            start = perf_counter()
            make(turn)
            times.append((perf_counter() - start) * 1000)
        aim = AIMS[name]
        print(f"{name:20} median {median(times):6.1f} ms, best {min(times):6.1f}, aim {aim}")


if __name__ == "__main__":
    main(int(sys.argv[1]) if len(sys.argv) > 1 else 60)
