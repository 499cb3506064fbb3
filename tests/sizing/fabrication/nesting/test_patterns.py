"""Patterns against trying out every count of every piece."""

from __future__ import annotations

from itertools import product

from hypothesis import given
from hypothesis import strategies as st

from sizing.fabrication.nesting.patterns import best_pattern, greedy_pattern, maximal_patterns

BARS = st.lists(
    st.tuples(st.integers(2, 20), st.integers(0, 3), st.integers(0, 30)), min_size=1, max_size=5
)


def every(sizes: list[int], most: list[int], room: int) -> list[tuple[int, ...]]:
    """All counts that fit, by trying all of them."""
    return [
        counts
        for counts in product(*(range(one + 1) for one in most))
        if sum(n * size for n, size in zip(counts, sizes, strict=True)) <= room
    ]


@given(BARS, st.integers(1, 50))
def test_maximal_patterns_are_those_to_which_nothing_can_be_added(
    pieces: list[tuple[int, int, int]], room: int
) -> None:
    """Each of them once."""
    sizes, most, _ = map(list, zip(*pieces, strict=True))
    fitting = set(every(sizes, most, room))

    def grown(counts: tuple[int, ...], i: int) -> tuple[int, ...]:
        return (*counts[:i], counts[i] + 1, *counts[i + 1 :])

    maximal = {
        counts
        for counts in fitting
        if not any(grown(counts, i) in fitting for i in range(len(sizes)))
    }
    found = maximal_patterns(sizes, most, room, 10_000)
    assert found is not None
    assert set(found) == maximal
    assert len(found) == len(maximal)


def test_too_many_patterns_are_none() -> None:
    """One more than the limit is too many."""
    sizes, most = [5, 4, 3, 2], [2, 3, 4, 5]
    found = maximal_patterns(sizes, most, 10, 1000)
    assert found is not None
    assert maximal_patterns(sizes, most, 10, len(found)) == found
    assert maximal_patterns(sizes, most, 10, len(found) - 1) is None


@given(BARS, st.integers(1, 50))
def test_the_dearest_pattern_is_worth_most(pieces: list[tuple[int, int, int]], room: int) -> None:
    """No other that fits is worth more, and it fits itself."""
    sizes, most, prices = map(list, zip(*pieces, strict=True))
    fitting = every(sizes, most, room)

    def worth(counts: tuple[int, ...]) -> int:
        return sum(n * price for n, price in zip(counts, prices, strict=True))

    found = best_pattern(prices, sizes, most, room, 1_000_000)
    assert found.counts in fitting
    assert worth(found.counts) == found.value == found.at_most == max(map(worth, fitting))


@given(BARS, st.integers(1, 50), st.integers(1, 4))
def test_a_search_cut_short_says_how_much_better_it_could_be(
    pieces: list[tuple[int, int, int]], room: int, steps: int
) -> None:
    """The dearest pattern is worth no more than it says."""
    sizes, most, prices = map(list, zip(*pieces, strict=True))
    whole = best_pattern(prices, sizes, most, room, 1_000_000)
    short = best_pattern(prices, sizes, most, room, steps)
    assert short.value <= whole.value <= short.at_most


def test_greedy_takes_the_first_first() -> None:
    """Two of 5 fill the bar; of 4 wanted twice and 3, one each leaves 3 of 10 for none."""
    assert greedy_pattern([5, 4, 3], [3, 2, 1], 10) == (2, 0, 0)
    assert greedy_pattern([5, 4, 3], [0, 1, 1], 10) == (0, 1, 1)
