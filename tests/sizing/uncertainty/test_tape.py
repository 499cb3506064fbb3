"""What the law allows a tape."""

from __future__ import annotations

from collections.abc import Iterator
from fractions import Fraction

import pytest

from sizing.errors import DataError
from sizing.measures import Tape
from sizing.uncertainty import tape as module
from sizing.uncertainty.tape import tape_limit


@pytest.mark.parametrize(
    ("tape", "length", "limit"),
    [
        ("I", 482, "0.3"),
        ("II", 482, "0.7"),
        ("III", 482, "1.3"),
        ("II", 1000, "0.7"),
        ("II", 1001, "0.9"),
        ("I", 50, "0.2"),
        ("III", 50, "0.6"),
        ("II", "50.1", "0.7"),
    ],
)
def test_the_limit_grows_by_the_metre_begun(tape: str, length: str | int, limit: str) -> None:
    """Directive 2014/32/EU, Annex X: a + bL + c, L in whole metres begun; short ones apart."""
    assert tape_limit(Tape(tape), Fraction(length)) == Fraction(limit)


def test_a_tape_without_a_class_promises_as_little_as_the_widest() -> None:
    """Unknown counts as III."""
    for length in (10, 400, 1500):
        assert tape_limit(Tape.UNKNOWN, Fraction(length)) == tape_limit(Tape.III, Fraction(length))


@pytest.fixture
def _fresh() -> Iterator[None]:
    module._classes.cache_clear()
    yield
    module._classes.cache_clear()


@pytest.mark.usefixtures("_fresh")
def test_a_class_that_is_not_whole_is_an_error_of_the_data(monkeypatch: pytest.MonkeyPatch) -> None:
    """A row without one of its parts is refused, not guessed."""
    monkeypatch.setattr(module, "table", lambda _: {"tape": {"III": {"a": 1}}})
    with pytest.raises(DataError):
        tape_limit(Tape.III, Fraction(100))
