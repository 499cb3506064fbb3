"""What every source of chance keeps."""

from __future__ import annotations

import pytest

from bot.ports import Chance
from bot.world import SeededChance, SystemChance
from conversations.reference import complete


@pytest.fixture(params=[SystemChance, lambda: SeededChance(0)], ids=["system", "seeded"])
def chance(request: pytest.FixtureRequest) -> Chance:
    """Each source in turn."""
    made: Chance = request.param()
    return made


def test_a_payload_has_six_digits(chance: Chance) -> None:
    """It never begins with a nought, so it outlives a spreadsheet."""
    assert all(100_000 <= chance.payload() <= 999_999 for _ in range(5000))


def test_payloads_differ(chance: Chance) -> None:
    """Of a thousand draws hardly any is the same as another."""
    assert len({chance.payload() for _ in range(1000)}) > 990


def test_most_payloads_give_a_number(chance: Chance) -> None:
    """852 338 of 900 000: so drawing again is rare."""
    given = sum(complete(chance.payload()) is not None for _ in range(5000))
    assert 0.93 < given / 5000 < 0.965
