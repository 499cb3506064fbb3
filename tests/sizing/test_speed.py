"""Sizing a cage with everything that says how sure it is, and starting to be able to."""

from __future__ import annotations

import subprocess
import sys
import time
from itertools import product
from statistics import median

from own_hives import orders

from sizing.cage import design_cage
from sizing.measures import Purpose, Tape

SIZED = 5.0
"""Milliseconds of the processor for one design, joint and second readings included."""
IMPORTED = 150.0
"""Milliseconds of the processor to import the package."""
HEAVY = ("numpy", "scipy", "pydantic", "typst")


def milliseconds(order: object) -> float:
    """What the processor does for one design, the least of three times."""
    took = []
    for _ in range(3):
        before = time.process_time()
        design_cage(order)  # type: ignore[arg-type]
        took.append((time.process_time() - before) * 1000)
    return min(took)


def test_a_cage_is_sized_in_five_milliseconds() -> None:
    """The median over known frames, both purposes, two tapes: no two orders alike."""
    every = [
        order
        for purpose, tape in product(Purpose, (Tape.II, Tape.UNKNOWN))
        for _, order in orders(purpose, tape, 1)
    ]
    design_cage(every[0])  # the data is read once
    took = [milliseconds(order) for order in every]
    print(f"median {median(took):.2f} ms, most {max(took):.2f} ms of {len(took)} designs")
    assert median(took) <= SIZED


def test_the_package_is_imported_at_once_and_brings_nothing_heavy() -> None:
    """Plain Python: no solver, no arrays, nothing that takes its time."""
    script = (
        "import sys, time; before = time.process_time(); import sizing.cage;"
        "print((time.process_time() - before) * 1000);"
        f"print(*[name for name in {HEAVY} if name in sys.modules])"
    )
    took = []
    for _ in range(3):
        done = subprocess.run(
            [sys.executable, "-c", script], capture_output=True, text=True, check=True
        )
        first, heavy = done.stdout.split("\n")[:2]
        took.append(float(first))
        assert heavy == ""
    print(f"import of sizing: {min(took):.0f} ms")
    assert min(took) <= IMPORTED
