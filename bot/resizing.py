"""An order sized once more, with the figures the workshop works with now: what would change."""

from __future__ import annotations

import json
from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass
from typing import Any

from bot.contract import request_from_json
from bot.designing import designed
from conversations.effects import Cage, OrderVersion
from conversations.review import CHANGEABLE, Stage
from sizing.workshop import Figures

__all__ = ["OPERATOR", "REASON", "Difference", "Resizing", "resizing"]

OPERATOR, REASON = "operator", "resized"

_VERSION = "workshop_version"
_NAMED_BY = ("gap", "panel", "code", "id", "measure")
"""Which value of an entry of a list says what the entry is about."""
_BACK_TO_THE_DESK = {Stage.CLEARED: Stage.ON_THE_DESK}
"""An order that was cleared is looked at again before it is made otherwise."""


@dataclass(frozen=True, slots=True)
class Difference:
    """A value of a design that becomes another one; None: it is not there."""

    item: int
    name: str
    before: object
    after: object


@dataclass(frozen=True, slots=True)
class Resizing:
    """An order as it is, and as it would be with these figures.

    `before`: the versions of the figures it was sized with. `can_be_made`: whether a new
    version may still be made of it.
    """

    number: str
    version: int
    stage: str
    before: tuple[str, ...]
    after: str
    differences: tuple[Difference, ...]
    cages: tuple[Cage, ...]

    @property
    def changes_nothing(self) -> bool:
        """Whether it is sized with these figures already."""
        return not self.differences and set(self.before) == {self.after}

    @property
    def can_be_made(self) -> bool:
        """Whether the order has not gone to the bench, and nobody withdrew it."""
        return Stage(self.stage) in CHANGEABLE | _BACK_TO_THE_DESK.keys()

    def as_version(self) -> OrderVersion:
        """The next version of the order, sized with these figures."""
        stage = Stage(self.stage)
        return OrderVersion(
            number=self.number,
            version=self.version + 1,
            stage=_BACK_TO_THE_DESK.get(stage, stage).value,
            cages=self.cages,
            by=OPERATOR,
            reason=REASON,
        )


def resizing(order: Mapping[str, Any], figures: Figures) -> Resizing:
    """What becomes of `order` (in the form of the contract) with these figures."""
    differences: list[Difference] = []
    cages: list[Cage] = []
    for kept in order["cages"]:
        cage = Cage(
            item=kept["item"],
            label=kept["label"],
            pieces=kept["pieces"],
            request=request_from_json(json.dumps(kept["request"])),
        )
        cages.append(cage)
        before = dict(_values(kept["design"]))
        after = dict(_values(designed(cage, figures).design))
        differences += [
            Difference(cage.item, name, before.get(name), after.get(name))
            for name in dict.fromkeys((*before, *after))
            if before.get(name) != after.get(name)
        ]
    return Resizing(
        number=order["number"],
        version=order["version"],
        stage=order["stage"],
        before=tuple(dict.fromkeys(kept["design"][_VERSION] for kept in order["cages"])),
        after=figures.version,
        differences=tuple(differences),
        cages=tuple(cages),
    )


def _values(value: object, name: str = "") -> Iterator[tuple[str, object]]:
    """Every single value of a design with its dotted name, entries of lists by what they name."""
    if isinstance(value, Mapping):
        for key, part in value.items():
            if key != _VERSION:
                yield from _values(part, f"{name}.{key}" if name else key)
    elif isinstance(value, list) and any(isinstance(part, Mapping) for part in value):
        for place, part in enumerate(value):
            yield from _values(part, f"{name}.{_own_name(part, place)}")
    else:
        yield name, _plain(value)


def _own_name(part: Mapping[str, Any], place: int) -> str:
    found = [str(part[key]) for key in _NAMED_BY if part.get(key) is not None]
    return "-".join(found) or str(place)


def _plain(value: object) -> object:
    if isinstance(value, Sequence) and not isinstance(value, str):
        return tuple(value)
    return value
