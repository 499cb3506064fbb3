"""Effects are stored until they are done and come back the same."""

from __future__ import annotations

from collections.abc import Callable
from datetime import UTC, date, datetime
from fractions import Fraction

import pytest
from player import Player
from pydantic import ValidationError

from conversations.effects import (
    Choice,
    Contact,
    Count,
    DateValue,
    Effect,
    Free,
    LengthValue,
    Line,
    NumberValue,
    PhotoKept,
    Remind,
    Say,
    TextKey,
    Wipe,
    effect_from_json,
)

SAY = Say(
    to="desk:maria", question="lug_room", again=True, stage="question-out", number="48291742",
    refused="newer-version", language="pl",
    lines=(
        Line(
            key="echo.taken",
            values={
                "a": LengthValue(mm=Fraction(1437, 4), also="in"), "b": Count(n=3),
                "c": NumberValue(number="48291742"), "d": DateValue(day=date(2026, 3, 2)),
                "e": Free(text="<b>{x}</b>"), "f": TextKey(key="lid.title"),
            },
        ),
        Line(key="blank"),
    ),
    choices=(Choice(id="yes", label=Line(key="choice.yes")),),
)  # fmt: skip
EFFECTS: list[Effect] = [
    SAY,
    Contact(text="anna@example.org"),
    PhotoKept(photo="0" * 64, question="lug_room"),
    Remind(what="notebook-1", at=datetime(2026, 3, 3, tzinfo=UTC)),
    Wipe(),
]


@pytest.mark.parametrize("effect", EFFECTS, ids=lambda effect: effect.kind)
def test_an_effect_comes_back_from_json_the_same(effect: Effect) -> None:
    """Lengths stay exact, values keep their kinds."""
    assert effect_from_json(effect.model_dump_json()) == effect


def test_all_effects_of_a_whole_order_come_back_the_same(
    played: Callable[[str], Player], handed_in: str
) -> None:
    """Also the request of an order and the picture of a cage."""
    effects = played(
        f"{handed_in}desk:maria> ask lug_room v1: Again, please.\nanna> 393.5\n"
        "desk:maria> turn-down v2: Too wide.\nanna> start over\n"
    ).effects
    kinds = {effect.kind for effect in effects}
    assert {"order-version", "stage-moved", "noted", "answered", "journal"} <= kinds
    assert [effect_from_json(effect.model_dump_json()) for effect in effects] == effects


def test_what_is_no_effect_is_refused() -> None:
    """An unknown kind or field is not half understood."""
    with pytest.raises(ValidationError):
        effect_from_json('{"kind": "shout"}')
    with pytest.raises(ValidationError):
        effect_from_json('{"kind": "wipe", "all": true}')
