"""Simulated beekeepers order cages; what is noticed of what goes wrong, and what is not.

    python tests/benchmarks/intake.py --orders 400
    python tests/benchmarks/intake.py --fault inside-length --no-hive

Each of the fourteen faults has `--orders` orders, with hive answers and without; ten times as
many orders are honest; as many as for one fault have two faults at once. Shares are in percent
with their 95 % intervals. The same seed gives the same orders.
"""

from __future__ import annotations

import argparse
import sys
from collections import Counter, defaultdict
from collections.abc import Iterable
from concurrent.futures import ProcessPoolExecutor
from dataclasses import dataclass, replace
from itertools import combinations
from multiprocessing import get_context
from pathlib import Path
from statistics import mean

sys.path.insert(0, str(Path(__file__).parent))

from beekeepers.faults import FAULTS, names
from beekeepers.person import make
from beekeepers.scoring import Result, judge, share
from beekeepers.truth import ODD, be_strange, usable

HONEST = 10
"""So many honest orders to one of each fault."""
SMALL = 5.0
"""A wrong digit that changes less [mm] is counted apart."""


@dataclass(frozen=True)
class Task:
    """One order to be simulated."""

    seed: str
    faults: tuple[str, ...] = ()
    hive: bool = True
    kind: str | None = None


def simulate(task: Task) -> Result:
    """One order from the first word to what would be made."""
    return judge(make(task.seed, task.faults, hive=task.hive, kind=task.kind))


def faulty(seed: int, orders: int, fault: str, *, hive: bool) -> list[Task]:
    """Orders with one fault."""
    return [Task(f"{seed}-{fault}-{hive}-{n}", (fault,), hive) for n in range(orders)]


def honest(seed: int, orders: int, *, hive: bool = True) -> list[Task]:
    """Honest orders, as many of every kind, and of odd sizes one in seven."""
    kinds = [*(kind.id for kind in usable())]
    kinds += [ODD] * round(len(kinds) * 0.15 / 0.85)
    return [
        Task(f"{seed}-honest-{hive}-{n}", (), hive, kinds[n % len(kinds)]) for n in range(orders)
    ]


def twice_faulty(seed: int, orders: int) -> list[Task]:
    """Orders with two faults at once, every pair in turn."""
    pairs = [
        pair for pair in combinations([name for name in FAULTS if name != "hook-play"], 2)
        if not set(pair) <= {"inside-height", "comb-for-wood"}
        and not set(pair) <= {"inside-length", "lugs-included"}
    ]  # fmt: skip
    return [Task(f"{seed}-two-{n}", pairs[n * 7 % len(pairs)]) for n in range(orders)]


def run(tasks: list[Task], jobs: int, label: str) -> list[Result]:
    """All of them, on `jobs` processes, with a line of progress on stderr."""
    done: list[Result] = []
    with ProcessPoolExecutor(jobs, mp_context=get_context("fork")) as pool:
        for result in pool.map(simulate, tasks, chunksize=10):
            done.append(result)
            if len(done) % 50 == 0 or len(done) == len(tasks):
                print(f"\r{label}: {len(done)} of {len(tasks)}   ", end="", file=sys.stderr)
    print(file=sys.stderr)
    return done


# --- what is printed ------------------------------------------------------------------


def by_fault(results: Iterable[Result]) -> dict[str, list[Result]]:
    """The orders by their fault; a wrong digit by its size."""
    found: dict[str, list[Result]] = defaultdict(list)
    for result in results:
        name = " + ".join(result.faults)
        if name == "one-digit":
            name += " > 5 mm" if result.error > SMALL else " ≤ 5 mm"
        found[name].append(result)
    return found


HEAD = (
    "fault", "n", "caught", "by reading/question/desk/fit", "right first", "misfit (make)",
    "misfit (make, ask)", "ranges: caught", "ranges: misfit",
)  # fmt: skip
WIDTHS = (18, 5, 19, 29, 19, 18, 18, 19, 17)


def _row(cells: Iterable[str]) -> str:
    return " ".join(cell.ljust(width) for cell, width in zip(cells, WIDTHS, strict=True)).rstrip()


def _line(name: str, results: list[Result]) -> str:
    ways = Counter(result.caught[0] for result in results if result.caught)
    parts = " / ".join(str(ways[way]) for way in ("reading", "question", "finding", "fit"))
    first = [result.right_first for result in results if result.right_first is not None]
    return _row((
        name, str(len(results)), share(bool(result.caught) for result in results), parts,
        share(first),
        share(bool(result.misfit) and result.verdict == "make" for result in results),
        share(bool(result.misfit) for result in results),
        share(result.in_range_only for result in results),
        share(result.range_misfit for result in results),
    ))  # fmt: skip


def fault_table(title: str, results: list[Result]) -> list[str]:
    """One line a fault."""
    lines = ["", title, _row(HEAD)]
    groups = by_fault(results)
    lines += [_line(name, groups[name]) for name in groups]
    rest = [result for result in results if "hook-play" not in result.faults]
    if len(groups) > 1:
        lines.append(_line("all but hook play", rest))
    failing = Counter(
        f"{' + '.join(result.faults)}: {name}" for result in rest for name in result.misfit
    )
    lines.append("misfits through: " + ", ".join(f"{k} {v}" for k, v in failing.most_common(8)))
    unknown = Counter(name for result in results for name in result.unknown)
    if unknown:
        lines.append(f"separating questions without an answer here: {dict(unknown)}")
    return lines


def asked_about(result: Result) -> bool:
    """Whether the person was asked a question of suspicion."""
    return result.suspicions + result.agains > 0


def doubted(result: Result) -> bool:
    """Whether the desk sees a doubt."""
    return bool(result.desk_findings)


def honest_table(title: str, results: list[Result]) -> list[str]:
    """What honest people are put through."""
    kinds: dict[str, list[Result]] = defaultdict(list)
    for result in results:
        kinds[result.kind].append(result)

    worst = sorted(kinds, key=lambda kind: -mean(map(asked_about, kinds[kind])))[:3]
    most_doubted = sorted(kinds, key=lambda kind: -mean(map(doubted, kinds[kind])))[:3]
    made = [result for result in results if result.verdict == "make"]
    messages = sorted(result.messages for result in results)
    codes = Counter(code for result in results for code in result.desk_findings)
    turns = {
        "suspicion": [result.suspicions for result in results],
        "again": [result.agains for result in results],
        "surer": [result.surer for result in results],
        "reading": [result.readings for result in results],
        "precision": [result.precisions for result in results],
    }
    lines = ["", title]
    lines.append(f"orders {len(results)}, verdicts {dict(Counter(r.verdict for r in results))}")
    lines.append(f"any suspicion question   {share(asked_about(r) for r in results)}")
    lines += [
        f"  worst kind {kind}  {share(asked_about(r) for r in kinds[kind])}" for kind in worst
    ]
    doubts = share(bool(result.desk_findings) for result in results)
    lines.append(f"a doubt at the desk      {doubts}  {dict(codes.most_common(6))}")
    lines += [
        f"  worst kind {kind}  {share(doubted(r) for r in kinds[kind])}" for kind in most_doubted
    ]
    parts = " + ".join(f"{name} {mean(counts):.3f}" for name, counts in turns.items())
    lines.append(
        f"extra turns, mean        {sum(mean(counts) for counts in turns.values()):.3f} = {parts}"
    )
    high, most = messages[len(messages) * 95 // 100], messages[-1]
    lines.append(f"messages, mean           {mean(messages):.1f}; 95 of 100 to {high}, most {most}")
    lines.append(f"made cages that hang     {share(r.hangs for r in made)}")
    lines += [
        f"  of who rounds to {step or 'parts of an inch'}: "
        f"{share(r.hangs for r in made if r.rounds_to == step)}"
        for step in (1, 5, 10, 0)
    ]
    return lines


def main() -> None:
    """Run and print."""
    parser = argparse.ArgumentParser(
        description=__doc__, formatter_class=argparse.RawTextHelpFormatter
    )
    parser.add_argument("--orders", type=int, default=400, help="orders a fault")
    parser.add_argument("--fault", action="append", choices=sorted(FAULTS), help="only this one")
    parser.add_argument("--no-hive", action="store_true", help="only without hive answers")
    parser.add_argument("--honest-only", action="store_true", help="no faults at all")
    parser.add_argument("--seed", type=int, default=0)
    parser.add_argument("--jobs", type=int, default=2)
    parser.add_argument("--strange", action="store_true", help="a world nobody reckoned with")
    asked = parser.parse_args()
    if asked.strange:
        be_strange()
    for hive in (True, False):
        if asked.honest_only or (hive and asked.no_hive):
            continue
        chosen = [name for name in names(hive) if not asked.fault or name in asked.fault]
        tasks = [task for f in chosen for task in faulty(asked.seed, asked.orders, f, hive=hive)]
        title = f"One fault, {'with' if hive else 'without'} hive answers"
        print("\n".join(fault_table(title, run(tasks, asked.jobs, title))), flush=True)
    if asked.fault:
        return
    if not asked.honest_only:
        results = run(twice_faulty(asked.seed, asked.orders), asked.jobs, "Two faults")
        together = [replace(result, faults=("two faults",)) for result in results]
        print("\n".join(fault_table("Two faults at once", together)), flush=True)
    for hive in (True, False):
        title = f"Honest orders, {'with' if hive else 'without'} hive answers"
        tasks = honest(asked.seed, asked.orders * HONEST // (1 if hive else 5), hive=hive)
        print("\n".join(honest_table(title, run(tasks, asked.jobs, title))), flush=True)


if __name__ == "__main__":
    main()
