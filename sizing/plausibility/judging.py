"""Every doubt about one order, in the order in which it is told."""

from __future__ import annotations

from typing import TYPE_CHECKING

from sizing.plausibility.customs import remarks
from sizing.plausibility.mixups import suspicions, weigh
from sizing.plausibility.relations import doubts, lengths_of

if TYPE_CHECKING:
    from sizing.measures import Request
    from sizing.plausibility.findings import Finding

__all__ = ["all_doubts"]


def all_doubts(request: Request) -> tuple[Finding, ...]:
    """What cannot well be true in `request`: bands, relations, stories weighed, remarks [mm].

    Source: `data/ranges.toml`, `data/mixups.toml`, `data/frames.toml`; each finding names its own.
    """
    lengths = lengths_of(request)
    return (*doubts(request), *suspicions(lengths, weigh(lengths)), *remarks(lengths))
