"""Where figures come from."""

from __future__ import annotations

import pytest

from sizing.sources import HowKnown, source, sources


def test_a_source_has_title_author_and_year() -> None:
    """A book is cited by what finds it."""
    found = source("nastavkove-vcelareni")
    assert (found.author, found.year, found.known) == ("Kamler, Oliva, Ptáček", 1998, HowKnown.READ)


def test_every_source_is_whole() -> None:
    """No source without title and author; years are years."""
    for found in sources().values():
        assert found.title
        assert found.author
        assert found.year is None or 1800 < found.year < 2100


def test_an_unknown_source_is_an_error() -> None:
    """A name that is not in the data is not answered with something else."""
    with pytest.raises(KeyError):
        source("hearsay")
