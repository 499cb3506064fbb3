"""What is noticed of what goes wrong while orders are taken: the aims that are met.

`intake.py` measures with thousands of orders and prints intervals. Here the same seeds give the
same few orders each time: a limit that fails is a change of the rules, not of chance.
"""

from __future__ import annotations

from dataclasses import dataclass

import pytest
from beekeepers.faults import FAULTS, names
from beekeepers.scoring import Result
from intake import SMALL, asked_about, faulty, honest, simulate

SEED = 7
NOT_AIMED_AT = "hook-play"
"""No logic finds it: all long lengths are off together, by less than makers differ."""
SLIPS_OF_DIGITS = ("digits-swapped", "one-digit")


@dataclass(frozen=True)
class Sample:
    """Orders with each fault, with hive answers and (in the large sample) without, and honest
    ones."""

    with_hive: dict[str, list[Result]]
    frame_alone: dict[str, list[Result]]
    honest: list[Result]


def orders(each: int, alone: int, clean: int) -> Sample:
    """So many orders of each sort."""

    def of(amount: int, *, hive: bool) -> dict[str, list[Result]]:
        return {
            name: [simulate(task) for task in faulty(SEED, amount, name, hive=hive)]
            for name in names(hive)
        }

    return Sample(
        of(each, hive=True), of(alone, hive=False) if alone else {},
        [simulate(task) for task in honest(SEED, clean)],
    )  # fmt: skip


LARGE = pytest.param((20, 8, 170), marks=pytest.mark.slow)


@pytest.fixture(scope="module", params=[(5, 0, 40), LARGE])
def sample(request: pytest.FixtureRequest) -> Sample:
    """A small sample, and a large one of another size for the slow tests."""
    return orders(*request.param)


def caught(results: list[Result]) -> float:
    """The share of faults that were noticed."""
    return sum(bool(result.caught) for result in results) / len(results)


def aimed_at(groups: dict[str, list[Result]]) -> list[Result]:
    """All orders but those with a hook's play."""
    return [one for name, some in groups.items() if name != NOT_AIMED_AT for one in some]


def test_gross_faults_are_noticed(sample: Sample) -> None:
    """The aim is 98 in 100 of each with hive answers, 80 of each of the frame's without.

    Measured on 200 orders each: 98 to 100 with hive answers, 85 to 100 without.
    """
    gross = {
        name: some
        for name, some in sample.with_hive.items()
        if name not in (*SLIPS_OF_DIGITS, NOT_AIMED_AT)
    }
    assert len(gross) == len(FAULTS) - 3
    assert caught([one for some in gross.values() for one in some]) >= 0.96
    for name, some in gross.items():
        assert caught(some) >= 0.8, name
    for name, some in sample.frame_alone.items():
        if name in gross:
            assert caught(some) >= 0.65, name


def test_slips_of_digits_are_noticed(sample: Sample) -> None:
    """The aims are 95 in 100 of swapped digits, 93 of one wrong digit over 5 mm.

    Measured with hive answers: 100 (98 to 100) and 98 (95 to 99).
    """
    assert caught(sample.with_hive["digits-swapped"]) >= 0.95
    large = [one for one in sample.with_hive["one-digit"] if one.error > SMALL]
    assert caught(large) >= 0.93


def test_the_right_story_stands_first(sample: Sample) -> None:
    """The aim is 85 in 100 of those that were weighed, with hive answers; 87 (85 to 88) are.

    Comb and opening are one place on the frame, and so are most slips of a digit.
    """
    told = [one.right_first for one in aimed_at(sample.with_hive) if one.right_first is not None]
    assert sum(told) >= 0.8 * len(told)


def test_hardly_a_cage_is_made_wrong_through_a_fault(sample: Sample) -> None:
    """The aim is 5 in 1000 orders with a fault, and 2 (1 to 5) were measured; a sample this small
    may hold more. Range checks alone let more than a tenth pass."""
    wrong = [one for one in aimed_at(sample.with_hive) if one.misfit]
    assert len(wrong) <= 1 + 0.01 * len(aimed_at(sample.with_hive))
    alone = [one for one in aimed_at(sample.with_hive) if one.range_misfit]
    assert len(alone) >= 0.1 * len(aimed_at(sample.with_hive))


def test_honest_people_are_hardly_suspected(sample: Sample) -> None:
    """The aim is a question of suspicion in at most 2 of 100 honest orders; 1.4 (0.9 to 2.0) get
    one."""
    assert sum(map(asked_about, sample.honest)) <= 0.02 * len(sample.honest) + 1
    assert sum(one.suspicions + one.agains for one in sample.honest) <= 0.1 * len(sample.honest)


def test_every_talk_ends_in_an_order(sample: Sample) -> None:
    """With a fault or without, and no separating question is unknown to the simulation."""
    everyone = [*sample.honest, *aimed_at(sample.with_hive), *aimed_at(sample.frame_alone)]
    assert [one for one in everyone if one.verdict is None] == []
    assert [one for one in everyone if one.unknown] == []
