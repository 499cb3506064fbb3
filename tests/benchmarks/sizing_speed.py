"""How long a cage takes to be sized.

    python tests/benchmarks/sizing_speed.py

Every known frame in its own hive, both purposes, two tapes; the processor's time, the least of
three for each. The import is of a fresh Python.
"""

from __future__ import annotations

import subprocess
import sys
import time
from itertools import product
from statistics import median

from own_hives import orders

from sizing.cage import design_cage
from sizing.measures import Purpose, Request, Tape


def milliseconds(order: Request) -> float:
    """What the processor does for one design, the least of three times."""
    took = []
    for _ in range(3):
        before = time.process_time()
        design_cage(order)
        took.append((time.process_time() - before) * 1000)
    return min(took)


def imported() -> float:
    """Milliseconds of the processor to import the package, the least of three times."""
    script = (
        "import time; before = time.process_time(); import sizing.cage;"
        "print((time.process_time() - before) * 1000)"
    )
    times = []
    for _ in range(3):
        done = subprocess.run([sys.executable, "-c", script], capture_output=True, check=True)
        times.append(float(done.stdout))
    return min(times)


def main() -> None:
    """Measure and print."""
    every = [
        order
        for purpose, tape in product(Purpose, (Tape.II, Tape.UNKNOWN))
        for _, order in orders(purpose, tape, 1)
    ]
    design_cage(every[0])  # the data is read once
    took = [milliseconds(order) for order in every]
    print(f"sized: median {median(took):.2f} ms, most {max(took):.2f} ms of {len(took)} designs")
    print(f"import of sizing: {imported():.0f} ms")


if __name__ == "__main__":
    main()
