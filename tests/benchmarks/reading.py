"""How long it takes to read one answer, by the way it is written.

    python tests/benchmarks/reading.py

Each kind is read many times over and the least time counts, so that a busy machine does not
show; beside it stands how that compares with a plain number.
"""

from __future__ import annotations

import time

from conversations.answers import read
from sizing.measures import Measure

KINDS = {
    "plain number": ("363", "en"),
    "centimetres with a comma": ("36,3 cm", "pl"),
    "inches and a fraction": ('14 1/8"', "en"),
    "one sign for the fraction": ("14⅛ Zoll", "de"),
    "feet and inches": ("1' 2 1/8\"", "en"),
    "words round it": ("zmierzyłem, wyszło 36,3 cm", "pl"),
    "two lengths": ("435 × 300", "en"),
    "hedged": ("приблизно 36 см", "uk"),
    "does not know": ("no lo sé", "es"),
    "a telephone number": ("+48 600 100 200", "pl"),
    "a long story": ("I measured it twice today and it came out as 363 mm, thanks", "en"),
}
ROUNDS, REPEATS = 30, 50


def microseconds(text: str, language: str) -> float:
    """The least mean time of one read over many rounds."""
    best = float("inf")
    for _ in range(ROUNDS):
        before = time.perf_counter()
        for _ in range(REPEATS):
            read(text, Measure.SIDE_TO_SIDE, language=language)
        best = min(best, (time.perf_counter() - before) / REPEATS)
    return best * 1e6


def main() -> None:
    """Measure and print."""
    times = {kind: microseconds(*typed) for kind, typed in KINDS.items()}
    for kind, one in times.items():
        print(f"{kind:28} {one:7.1f} µs  {one / times['plain number']:5.1f} ×")
    print(f"{'mean':28} {sum(times.values()) / len(times):7.1f} µs")


if __name__ == "__main__":
    main()
