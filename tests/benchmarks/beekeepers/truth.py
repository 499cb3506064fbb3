"""A frame and the hive it hangs in, as they truly are.

Drawn from the frame data, completed where that is silent from rows that speak and from
`spreads.toml`; nothing of the rules' own bands goes in. Lengths in mm, as floats: these are
things of wood, not readings.
"""

from __future__ import annotations

import random
import tomllib
from collections.abc import Sequence
from dataclasses import dataclass
from functools import cache
from pathlib import Path
from typing import Any

from sizing.standards import FrameKind, frame_kinds

ODD = "odd"
"""The kind of a size nobody publishes."""
TRIES = 500

FRAME_OF = {"dadant_blatt_it10": "dadant_blatt_bertrand", "zander_flach": "zander"}
"""Rows that give a hive or a height only, and the row of the same family that has the rest."""


@cache
def _tables() -> dict[str, dict[str, Any]]:
    text = Path(__file__).with_name("spreads.toml").read_text(encoding="utf-8")
    tables: dict[str, dict[str, Any]] = tomllib.loads(text)
    strange = tables.pop("strange")
    others = {name: table | strange.get(name, {}) for name, table in tables.items()}
    return {"usual": tables, "strange": others}


_world = ["usual"]


def be_strange() -> None:
    """From now on the world is the one nobody reckoned with: see `strange` in the table."""
    _world[:] = ["strange"]


def spreads() -> dict[str, Any]:
    """The table of spreads."""
    return _tables()[_world[0]]


@dataclass(frozen=True)
class Truth:
    """One frame in one hive.

    `lengths` by the name of the measure. `name` is what its owner calls the frame. `rise_under`
    is that of the box below, where there is one. The rest is what can be found out by looking.
    """

    kind: str
    name: str | None
    purpose: str
    lengths: dict[str, float]
    below: str
    above: str
    spacer: str
    frames_held: int
    rise_under: float
    side_bar: float
    top_bar: float
    bottom_bar: float
    wall: float
    ledge_width: float
    tape_case: float

    @property
    def space_below(self) -> float:
        """Lower edge of the body to the first hard thing under it."""
        return self.rise_under if self.below == "box" else self.lengths["below_space"]


def weighted(chance: random.Random, pairs: Sequence[Sequence[Any]]) -> Any:
    """One of the values, each with its weight."""
    return chance.choices([value for value, _ in pairs], [weight for _, weight in pairs])[0]


def around(chance: random.Random, middle: float, sd: float, most: float) -> float:
    """A normal draw that stays within `most` of the middle."""
    while abs(off := chance.gauss(0, sd)) > most:
        pass
    return middle + off


def usable() -> list[FrameKind]:
    """All kinds a cage can be made for."""
    return [kind for kind in frame_kinds() if kind.cannot is None]


def _given(kind: FrameKind, figure: str) -> float | None:
    value = kind.value(figure)
    if value is None and kind.id in FRAME_OF:
        other = next(row for row in frame_kinds() if row.id == FRAME_OF[kind.id])
        value = other.value(figure)
    return None if value is None else float(value)


def _donated(chance: random.Random, figure: str) -> float:
    """The figure of any row that has it."""
    rows = [kind.value(figure) for kind in usable()]
    return float(chance.choice([value for value in rows if value is not None]))


def _frame(chance: random.Random, kind: FrameKind) -> dict[str, float]:
    chain = spreads()["chain"]
    get = {
        name: _given(kind, name)
        for name in (
            "side_to_side", "top_to_bottom", "lug_to_lug", "lug_each", "inside_along",
            "end_gap_each", "body_depth", "top_bar_thickness", "side_bar_thickness",
        )
    }  # fmt: skip
    side_bar = get["side_bar_thickness"] or chance.choice(chain["side_bar"])
    top_bar = get["top_bar_thickness"] or _donated(chance, "top_bar_thickness")
    bottom_bar = chance.choice(chain["bottom_bar"])
    side, height, bar = get["side_to_side"], get["top_to_bottom"], get["lug_to_lug"]
    lug = get["lug_each"] or _donated(chance, "lug_each")
    if side is None and (inside := _given(kind, "inside_side_to_side")) is not None:
        side = inside + 2 * side_bar
    if side is None and get["inside_along"] is not None:
        side = get["inside_along"] - 2 * (get["end_gap_each"] or _donated(chance, "end_gap_each"))
    if side is None:
        side = bar - 2 * lug if bar is not None else _donated(chance, "side_to_side")
    if height is None and (inside := _given(kind, "inside_top_to_bottom")) is not None:
        height = inside + top_bar + bottom_bar
    if height is None and get["body_depth"] is not None:
        height = get["body_depth"] - chance.choice(chain["stack"])
    if height is None:
        height = _donated(chance, "top_to_bottom")
    return {
        "side_to_side": side, "top_to_bottom": height,
        "lug_to_lug": bar if bar is not None else side + 2 * lug,
        "side_bar": side_bar, "top_bar": top_bar, "bottom_bar": bottom_bar,
    }  # fmt: skip


def _odd_frame(chance: random.Random) -> dict[str, float]:
    odd, chain = spreads()["odd"], spreads()["chain"]
    side = chance.uniform(*odd["side_to_side"])
    return {
        "side_to_side": side, "top_to_bottom": chance.uniform(*odd["top_to_bottom"]),
        "lug_to_lug": side + 2 * chance.uniform(*odd["lug_each"]),
        "side_bar": chance.uniform(8, 19), "top_bar": chance.uniform(9, 20),
        "bottom_bar": chance.choice(chain["bottom_bar"]),
    }  # fmt: skip


def _lug_play(chance: random.Random) -> float:
    """Room less bar in a row that gives both."""
    rows = [
        (room, bar)
        for kind in usable()
        if (room := kind.value("lug_room")) is not None
        and (bar := kind.value("lug_to_lug")) is not None
    ]
    room, bar = chance.choice(rows)
    return float(room - bar)


def _stack(chance: random.Random, kind: FrameKind | None, height: float, lug: float) -> tuple[float, float]:  # fmt: skip  # noqa: E501
    """Depth of the body, and how far the top bar lies below its rim."""
    chain = spreads()["chain"]

    def given(name: str) -> float | None:
        return None if kind is None else _given(kind, name)

    depth = given("body_depth")
    if depth is None or depth < height:
        depth = height + chance.choice(chain["stack"])
    total = depth - height
    rise, up, hang = given("rise"), given("ledge_up"), given("hang")
    if rise is not None:
        return depth, rise
    if up is not None:
        return depth, up - lug
    if hang is not None:
        return depth, total - hang
    if chance.random() < chain["top_space_share"]:
        return depth, min(chance.uniform(*chain["top_rise"]), total - 1)
    return depth, chance.uniform(*chain["bottom_rise"])


def _hive(chance: random.Random, kind: FrameKind | None, frame: dict[str, float]) -> dict[str, float]:  # fmt: skip  # noqa: E501
    maker, odd = spreads()["maker"], spreads()["odd"]
    side, bar, lug = frame["side_to_side"], frame["lug_to_lug"], frame["lug_thickness"]
    inside = room = None
    end_gap = chance.uniform(*odd["end_gap_each"])
    if kind is not None:
        inside, room = _given(kind, "inside_along"), _given(kind, "lug_room")
        end_gap = _given(kind, "end_gap_each") or _donated(chance, "end_gap_each")
    inside = side + 2 * end_gap if inside is None else inside
    room = bar + _lug_play(chance) if room is None else room
    depth, rise = _stack(chance, kind, frame["top_to_bottom"], lug)
    depth = around(chance, depth, maker["depth_sd"], maker["hive_most"])
    up = around(chance, rise + lug, maker["ledge_sd"], maker["hive_most"])
    return {
        "inside_along": around(chance, inside, maker["hive_sd"], maker["hive_most"]),
        "lug_room": around(chance, room, maker["hive_sd"], maker["hive_most"]),
        "ledge_up": up, "ledge_down": depth - up,
    }  # fmt: skip


def _hangs(all_of: dict[str, float], space: float) -> bool:
    """Whether the frame truly hangs in this hive; beekeepers have no others."""
    gap = all_of["inside_along"] - all_of["side_to_side"]
    play = all_of["lug_room"] - all_of["lug_to_lug"]
    ledge = (all_of["lug_room"] - all_of["inside_along"]) / 2
    hang = all_of["ledge_down"] - (all_of["top_to_bottom"] - all_of["lug_thickness"])
    rise = all_of["ledge_up"] - all_of["lug_thickness"]
    lug = (all_of["lug_to_lug"] - all_of["side_to_side"]) / 2
    return (
        8 <= gap <= 30 and 0.3 <= play <= 8 and ledge >= 3.5 and lug >= 10
        and hang >= -2 and hang + space >= 4 and rise >= -0.5
    )  # fmt: skip


def _frame_there(chance: random.Random, kind: FrameKind | None) -> dict[str, float]:
    """The frame as its maker made it."""
    maker, chain = spreads()["maker"], spreads()["chain"]
    frame = _odd_frame(chance) if kind is None else _frame(chance, kind)
    lug = None if kind is None else _given(kind, "lug_thickness")
    if lug is None:
        lug = min(weighted(chance, chain["lug_thickness"]), frame["top_bar"])
    frame["lug_thickness"] = around(chance, lug, maker["small_sd"], 1)
    if kind is not None:
        for name in ("side_to_side", "top_to_bottom", "lug_to_lug"):
            frame[name] = around(chance, frame[name], maker["frame_sd"], maker["frame_most"])
    wide = None if kind is None else _given(kind, "top_bar_width")
    frame["lug_width"] = around(chance, wide or _donated(chance, "top_bar_width"), 0.3, 1)
    return frame


def _wood_and_comb(chance: random.Random, kind: FrameKind | None, bar_width: float) -> tuple[str, float, float]:  # fmt: skip  # noqa: E501
    chain = spreads()["chain"]
    wood = None if kind is None else _given(kind, "widest_wood")
    spacer = "shoulders"
    if wood is None:
        wood = chance.choice(chain["shoulder_width"])
        if chance.random() < chain["straight_share"]:
            spacer, wood = "straight", bar_width
    mean, sd, least, most = chain["comb"]
    comb = min(max(chance.gauss(mean, sd), least), most)
    return spacer, around(chance, wood, spreads()["maker"]["small_sd"], 1), comb


def _drawn(chance: random.Random, kind: FrameKind | None) -> Truth | None:
    chain, person = spreads()["chain"], spreads()["person"]
    frame = _frame_there(chance, kind)
    lengths = frame | _hive(chance, kind, frame)
    spacer, wood, comb = _wood_and_comb(chance, kind, frame["lug_width"])
    hang = lengths["ledge_down"] - (frame["top_to_bottom"] - frame["lug_thickness"])
    rise = lengths["ledge_up"] - frame["lug_thickness"]
    below = "box" if chance.random() < person["below_box"] else "floor"
    under = around(chance, rise, spreads()["maker"]["depth_sd"], 2)
    to_floor = max(0.0, chance.uniform(*chain["floor_gap"]) - hang)
    if hang > max(chain["stack"]):
        below, to_floor = "floor", 0.0
    lengths |= {"widest_wood": wood, "comb_thickness": comb, "below_space": to_floor}
    above = chance.choice(["box", "cover", "cloth"])
    lengths["above_space"] = hang if above == "box" else chance.uniform(*chain["cover_space"])
    if not _hangs(lengths, under if below == "box" else to_floor):
        return None
    held = None if kind is None else _given(kind, "frames_held")
    extra = {name: lengths.pop(name) for name in ("side_bar", "top_bar", "bottom_bar")}
    return Truth(
        kind=ODD if kind is None else kind.id, name=_name(chance, kind),
        purpose="introduce" if chance.random() < person["introduce"] else "isolate",
        lengths=lengths, below=below, above=above, spacer=spacer,
        frames_held=int(held or chance.choice([8, 9, 10, 10, 11, 12])), rise_under=under,
        wall=chance.uniform(*chain["wall"]), ledge_width=chance.uniform(*chain["ledge_width"]),
        tape_case=chance.uniform(*spreads()["fault"]["tape_case"]), **extra,
    )  # fmt: skip


def _name(chance: random.Random, kind: FrameKind | None) -> str | None:
    person = spreads()["person"]
    if kind is None or chance.random() >= person["names_frame"]:
        return None
    if chance.random() < person["wrong_name"]:
        return chance.choice(usable()).name
    return chance.choice([kind.name, *kind.aliases])


def draw(chance: random.Random, kind: str | None = None) -> Truth:
    """One frame and hive: of the kind asked for, else of any row of the data or an odd size."""
    rows: dict[str, FrameKind | None] = {row.id: row for row in usable()} | {ODD: None}
    if kind is None:
        odd = chance.random() < spreads()["odd"]["share"]
        kind = ODD if odd else chance.choice([row for row in rows if row != ODD])
    for _ in range(TRIES):
        if (found := _drawn(chance, rows[kind])) is not None:
            return found
    raise ValueError(f"no {kind} hangs in its hive in {TRIES} draws")
