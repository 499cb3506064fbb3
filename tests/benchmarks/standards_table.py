"""Prints how sure each known frame is in its own hive: verdict, joint, weakest gap.

python tests/benchmarks/standards_table.py
"""

from __future__ import annotations

import argparse
from functools import cache
from itertools import product

from own_hives import orders

from sizing.cage import Design, design_cage
from sizing.measures import Purpose, Tape

COLUMNS = list(product((Tape.II, Tape.III), (1, 2)))


@cache
def table(purpose: Purpose) -> list[tuple[str, list[Design]]]:
    """Each kind with its design for every tape class and number of readings."""
    columns = [list(orders(purpose, tape, readings)) for tape, readings in COLUMNS]
    return [
        (row[0][0].id, [design_cage(request) for _, request in row])
        for row in zip(*columns, strict=True)
    ]


def cell(design: Design) -> str:
    """Verdict, joint and weakest gap in few signs."""
    joint = design.fit.probability
    number = "open " if joint is None else f"{joint:.3f}"
    return f"{design.verdict:<6} {number} {design.fit.weakest or '':<13}"


def show() -> None:
    """Print one table a purpose."""
    heads = [f"class {tape}, read {'once' if count == 1 else 'twice'}" for tape, count in COLUMNS]
    for purpose in Purpose:
        print(f"\n{purpose:<24}" + "".join(f"{head:<27}" for head in heads))
        for name, designs in table(purpose):
            print(f"{name:<24}" + "".join(cell(design) for design in designs))


if __name__ == "__main__":
    argparse.ArgumentParser(description=__doc__).parse_args()
    show()
