"""Simulated orders from tape to hive: how many of the cages that are made hang and hold.

A true frame and hive are drawn and read with a tape that is off by anything the law allows,
to the full millimetre; the cage is sized from that, made with every cut off by anything its
tolerance allows, and hung round another frame, when the wood has moved.

    python tests/benchmarks/calibration.py [--orders 1500]
"""

from __future__ import annotations

import argparse
from dataclasses import dataclass
from fractions import Fraction
from itertools import pairwise, product

import numpy as np
from hanging import Many, all_hold, holds, made, sizes
from own_hives import Lengths, lengths, request, whole_kinds

from sizing.cage import Design, design_cage
from sizing.measures import Measure, Purpose, Request, Tape
from sizing.tolerances import deviation
from sizing.uncertainty.spread import spread
from sizing.uncertainty.tape import tape_limit
from sizing.uncertainty.wood import ACROSS_BODY, ACROSS_FRAME, growth
from sizing.workshop import default_figures

ORDERS = 1500
HUNG = 25
QUESTIONS = 2
"""So many second readings the conversation asks for in one order."""
REAL = {
    Tape.I: [Tape.I], Tape.II: [Tape.II], Tape.III: [Tape.III],
    Tape.UNKNOWN: [Tape.II, Tape.III],
}  # fmt: skip
"""What a tape may be in truth: whoever knows no class holds one of the two that are sold."""
BANDS = (0.0, 0.5, 0.7, 0.8, 0.9, 0.95, 0.98, 1.0)
FIGURES = default_figures()


@dataclass(frozen=True)
class Outcome:
    """One order: how sure it was, whether it was made, the share of its cages that hang."""

    joint: float
    make: bool
    hung: float


def true_lengths(chance: np.random.Generator) -> Lengths:
    """A frame and a body of a known kind as makers and years leave them."""
    kinds = whole_kinds()
    base = lengths(kinds[int(chance.integers(len(kinds)))])

    def about(value: Fraction, low: float, high: float) -> Fraction:
        return value + Fraction(round(float(chance.uniform(low, high)) * 1000), 1000)

    frame, hive = dict(base.frame), dict(base.hive)
    for name in ("side_to_side", "top_to_bottom", "lug_to_lug"):
        frame[name] = about(frame[name], -1.5, 1.5)
    hive["inside_along"] = about(frame["side_to_side"], 11, 18)
    hive["lug_room"] = about(frame["lug_to_lug"], 0.5, 4.5)
    hive["ledge_down"] = about(hive["ledge_down"], -5, 5)
    hive["ledge_up"] = about(hive["ledge_up"], -3, 3)
    frame["lug_thickness"] = about(frame["lug_thickness"], -1, 1)
    return Lengths(frame, hive, base.held, base.floor)


def read(value: Fraction, chance: np.random.Generator, off: float) -> Fraction:
    """What somebody reads of it, in whole millimetres; `off` is how far this tape is off here."""
    found = float(value) + off + chance.normal(0, float(FIGURES.landmark))
    return Fraction(max(1, round(found)))


def ordered(
    true: Lengths, purpose: Purpose, tape: Tape, chance: np.random.Generator, questions: int
) -> tuple[Request, Design]:
    """The order as it stands after the second readings the program itself asks for."""
    real = chance.choice(REAL[tape])
    offs = {}
    texts: dict[str, dict[str, tuple[Fraction, ...]]] = {"frame": {}, "hive": {}}
    for part, values in (("frame", true.frame), ("hive", true.hive)):
        for name, value in values.items():
            limit = float(tape_limit(real, value))
            offs[name] = float(chance.uniform(-limit, limit))
            texts[part][name] = (read(value, chance, offs[name]),)
    for _ in range(questions + 1):
        order = request(true, purpose, tape, readings=texts)
        design = design_cage(order)
        again = design.fit.measure_again
        if design.verdict != "ask" or again is None:
            break
        name = again.value
        part = "frame" if name in texts["frame"] else "hive"
        value = (true.frame if part == "frame" else true.hive)[name]
        texts[part][name] += (read(value, chance, offs[name]),)
    return order, design


def in_use(true: Lengths, floor: bool, chance: np.random.Generator) -> dict[str, Many]:
    """Other frames of that hive, and its bodies on other days."""
    body, wood = chance.uniform(-0.5, 0.5, HUNG), chance.uniform(-0.5, 0.5, HUNG)
    found: dict[str, Many] = {}
    for name, value in {**true.frame, **true.hive}.items():
        measure = Measure(name)
        lies = chance.normal(float(value), spread(measure, FIGURES), HUNG)
        swing = float(growth(value, FIGURES.moisture_swing))
        if measure in ACROSS_BODY:
            lies = lies + swing * body
        elif measure in ACROSS_FRAME:
            lies = lies + swing * wood
        found[name] = lies
    lug, height = (chance.normal(float(true.frame[name]), spread(Measure(name), FIGURES), HUNG)
                   for name in ("lug_thickness", "top_to_bottom"))  # fmt: skip
    found["below_space"] = np.zeros(HUNG) if floor else found["ledge_up"] - lug
    found["above_space"] = found["ledge_down"] - (height - lug)
    return found


def cut(design: Design, order: Request, chance: np.random.Generator) -> dict[str, Many]:
    """Pieces as they leave the bench."""
    pieces = {}
    for name, size in sizes(design, order, FIGURES).items():
        grade = FIGURES.cutting_ears if name == "ears" else FIGURES.cutting
        off = float(deviation(Fraction(size), grade) or 0)
        pieces[name] = size + chance.uniform(-off, off, HUNG)
    return pieces


def simulate(
    purpose: Purpose, tape: Tape, orders: int, *, questions: int = 0, seed: int = 1
) -> list[Outcome]:
    """So many orders; `questions` is how many second readings are asked for at most.

    Those that cannot be made are left out.
    """
    chance = np.random.default_rng(seed)
    outcomes = []
    for _ in range(orders):
        true = true_lengths(chance)
        order, design = ordered(true, purpose, tape, chance, questions)
        if design.fit.probability is None or design.verdict == "cannot":
            continue
        cages = made(design, cut(design, order, chance))
        hung = all_hold(holds(design, cages, in_use(true, true.floor, chance), FIGURES))
        outcomes.append(
            Outcome(design.fit.probability, design.verdict == "make", float(hung.mean()))
        )
    return outcomes


def bands(outcomes: list[Outcome]) -> list[tuple[float, float, int, float, float]]:
    """By bands of the joint: bounds, number of orders, mean joint, share that hangs."""
    found = []
    for low, high in pairwise(BANDS):
        inside = [one for one in outcomes if low <= one.joint < high or one.joint == high == 1]
        if inside:
            joint = float(np.mean([one.joint for one in inside]))
            hung = float(np.mean([one.hung for one in inside]))
            found.append((low, high, len(inside), joint, hung))
    return found


def made_and_hung(outcomes: list[Outcome]) -> tuple[float, float]:
    """The share of orders that is made, and of their cages the share that hangs."""
    hung = [one.hung for one in outcomes if one.make]
    return len(hung) / len(outcomes), float(np.mean(hung))


def main() -> None:
    """Print the tables."""
    words = argparse.ArgumentParser(description=__doc__)
    words.add_argument("--orders", type=int, default=ORDERS, help="so many of each kind")
    wanted = words.parse_args().orders
    for purpose, tape in product(Purpose, (Tape.I, Tape.II, Tape.III, Tape.UNKNOWN)):
        outcomes = simulate(purpose, tape, wanted)
        share, hung = made_and_hung(outcomes)
        asked = made_and_hung(simulate(purpose, tape, wanted, questions=QUESTIONS))
        print(f"\n{purpose}, tape {tape}: make {share:.3f}, of these hang {hung:.4f};"
              f" with what is asked for: {asked[0]:.3f}, {asked[1]:.4f}")  # fmt: skip
        for low, high, count, joint, hang in bands(outcomes):
            print(f"  joint {low:.2f} … {high:.2f}   {count:5} orders   joint {joint:.4f}"
                  f"   hang {hang:.4f}   {hang - joint:+.4f}")  # fmt: skip


if __name__ == "__main__":
    main()
