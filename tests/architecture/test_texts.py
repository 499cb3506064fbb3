"""The code and the catalogues know the same texts: no key without a text, none left over."""

from __future__ import annotations

import ast
import re
from collections.abc import Iterable, Iterator
from itertools import chain
from pathlib import Path

import pytest

from bot.channels.telegram.profile import COMMANDS
from bot.channels.web.bubbles import MENU
from bot.desk.queue import WHY
from bot.paperwork.papers import KINDS
from bot.paperwork.work_order import CAUTIONS as BENCH_CAUTIONS
from bot.paperwork.work_order import CHECKS
from bot.resizing import REASON
from conversations.answers import Reason, Unit
from conversations.effects import Answered
from conversations.follow_up import LONGER, MARKS, WAYS
from conversations.locale import catalogue, languages
from conversations.review import MOVES, Refusal, Role, Stage
from conversations.script import QUESTIONS, Kind
from conversations.steps import Step
from conversations.turns.wishes import WISHES
from sizing.accepted import SAME_KIND, WORKSHOP_DEFAULT
from sizing.alternatives import Remedy
from sizing.bees import Level
from sizing.cage import Caution
from sizing.data import table
from sizing.draft import Verdict
from sizing.fabrication.cuts import Stock, WirePart
from sizing.fabrication.flat import Part
from sizing.fabrication.sizes import Face
from sizing.fit import GapVerdict
from sizing.measures import (
    Above,
    Below,
    Floor,
    GapName,
    LidChoice,
    LidKind,
    Material,
    Measure,
    Purpose,
    Spacer,
)  # fmt: skip
from sizing.plausibility.findings import Severity
from sizing.plausibility.mistakes import Mistake
from sizing.standards import Obstacle

PACKAGES = ("bot", "conversations", "sizing")
FILE = re.compile(r".*\.(?:html|css|js|po|toml|typ)")
KEY = re.compile(r"[a-z][\w-]*(?:\.[\w-]+)+")
QUOTED = re.compile(r"""(["'])([a-z][\w.-]*)\1""")
CODED = {"button": "choice", "Finding": "finding", "_Relation": "finding"}
"""Calls whose first argument is the end of a key, and the room it belongs to."""
JOINED = re.compile(r"""(["'])([\w.-]+\.)\1 ~ [\w.]+|[\w.]+ ~ (["'])(\.[\w.-]+)\3""")
HOW = re.search(r"`how` one of `([^`]*)`", Answered.__doc__ or "")
SIZES = (
    "length_outside", "height_overall", "depth_outside", "ear_span", "drop_below_ledge",
    "lid_length", "lid_width", "length_inside", "depth_inside", "gap_under", "lid_clear",
    "guide_each",
    "floor_thickness", "ear_width", "notch_width", "notch_over_lug",
)  # fmt: skip
TOLD = ("clear", "bench", "made", "posted")
TROUBLE = ("form", "fast", "missing", "ours", "long", "photo", "name")
PHOTO_TROUBLE = ("too-big", "too-many-pixels", "not-a-picture", "broken", "enough")

FAMILIES: dict[str, Iterable[str]] = {
    "{}.title": [*QUESTIONS, Step.READ_BACK, Measure.TOP_BAR_THICKNESS],
    "{}.from_to": [*QUESTIONS],
    "{}.example": [step for step, one in QUESTIONS.items() if one.kind is not Kind.CHOICE],
    "{}.help": [step for step, one in QUESTIONS.items() if one.helped],
    "{}.parked": [step for step, one in QUESTIONS.items() if one.skippable or step.measure],
    "{}.choice.{}": [f"{step}.choice.{choice}"
                     for step, one in QUESTIONS.items() for choice in one.choices],
    "purpose.choice.{}": Purpose,
    "bench.bend.{}": ("outward", "away"),
    "bench.panel.{}": ("face", "floor"),
    "part.{}": Part,
    "material.choice.{}": Material,
    "paper.block.{}": ("owner", "document_type", "status", "number", "revision", "title", "creator",
                       "approved", "language", "tolerances", "issued", "scale", "sheet"),
    "paper.caution.{}": BENCH_CAUTIONS,
    "paper.check.{}": CHECKS,
    "paper.cut.{}": WirePart,
    "paper.cuts.{}": ("part", "size", "count"),
    "paper.face.{}": set(Face) - {Face.PART},
    "paper.panel.{}": ("face", "floor"),
    "batch.stock.{}": Stock,
    "paper.purpose.{}": Purpose,
    "paper.size.{}": SIZES,
    "paper.told.{}": Caution,
    "paper.measuring.{}": ("frame", "hive", "day"),
    "paper.wires.{}": ("panel", "wires", "gap", "pitch"),
    "choice.{}": [],
    "doubt.ask.{}": (LONGER, MARKS),
    "doubt.way.{}": [way for ways in WAYS.values() for way in ways],
    "choice.{}.words": ("yes", "no"),
    "precision.{}": Unit,
    "clarify.{}": set(Reason) - {Reason.DONT_KNOW},
    "clarify.{}.value": (Reason.TOO_BIG, Reason.TOO_SMALL),
    "cannot.{}": Obstacle,
    "assumed.{}": (SAME_KIND, WORKSHOP_DEFAULT),
    "gap.{}": GapName,
    "lid.kind.{}": LidKind,
    "floor.kind.{}": (Floor.FLAT,),
    "read_back.verdict.{}": Verdict,
    "read_back.gap.{}": (GapVerdict.TIGHT, GapVerdict.FAILS),
    "stage.{}": Stage,
    "status.{}": set(Stage) - {Stage.READ_BACK},
    "told.{}": TOLD,
    "desk.done.{}": MOVES,
    "refused.{}": Refusal,
    "reminder.notebook_{}": ("1", "2"),
    "wish.{}": WISHES,
    "finding.{}": [],
    "mistake.{}": list(Mistake),
    "desk.page.by.{}": ("beekeeper",),
    "desk.page.do.{}": MOVES,
    "desk.page.gap.{}": GapVerdict,
    "desk.page.how.{}": HOW[1].split() if HOW else [],
    "desk.page.paper.{}": KINDS,
    "desk.page.severity.{}": Severity,
    "desk.page.turn.{}": ("desk", "bench", "beekeeper", "nobody"),
    "desk.page.verdict.{}": Verdict,
    "desk.page.words.{}": ("ask", "turn-down", "clear", "note"),
    "desk.page.why.{}": WHY,
    "desk.page.reason.{}": ("handed-in", "changed", "asked-again", REASON),
    "desk.page.noted.{}": MOVES,
    "desk.page.role.{}": list(Role),
    "desk.page.way.{}": list(Remedy),
    "desk.page.level.{}": Level,
    "risk.{}": table("bees.toml")["risk"],
    "desk.page.member.{}": ("here", "invited", "left"),
    "telegram.command.{}": COMMANDS,
    "telegram.staff.say.{}": ("ask", "turn-down", "note", "clear"),
    "telegram.staff.word.{}": (*MOVES, "queue"),
    "unusable.{}": ("photo", "other"),
    "web.menu.{}": (*MENU, "start"),
    "web.trouble.{}.title": TROUBLE,
    "web.trouble.photo.{}": PHOTO_TROUBLE,
    "web.trouble.{}.{}": [f"web.trouble.{kind}.what" for kind in TROUBLE if kind != "photo"]
    + ["web.trouble.name.taken"]
    + [f"web.trouble.photo.{what}" for what in PHOTO_TROUBLE],
    "picture.above.{}": Above,
    "picture.below.{}": Below,
    "picture.lid.{}": set(LidChoice) - {LidChoice.AUTO},
    "picture.purpose.{}": Purpose,
    "picture.spacer.{}": Spacer,
}  # fmt: skip
"""Keys that are put together while the program runs: for each form, what goes into its hole.

Buttons and doubts are known by ids that stand in the code; they are found there.
"""


def of_family(form: str) -> Iterator[str]:
    """The keys of one form; where it has two holes the keys are listed whole."""
    for part in FAMILIES[form]:
        yield str(part) if form.count("{}") > 1 else form.format(part)


@pytest.fixture(scope="module")
def literals(trees: dict[Path, ast.Module], files: list[Path], root: Path) -> set[str]:
    """Every string of the code and the pages, and the key of each button and doubt."""
    found: set[str] = set()
    for tree in in_packages(trees):
        pieces = {piece for one in joined(tree) for piece in one.values}
        for node in ast.walk(tree):
            if isinstance(node, ast.Constant) and isinstance(node.value, str):
                found |= set() if node in pieces else {node.value}
            elif isinstance(node, ast.Call) and (key := coded(node)):
                found.add(key)
    for text in pages(files, root):
        found |= {match[2] for match in QUOTED.finditer(JOINED.sub("", text))}
    return found


@pytest.fixture(scope="module")
def forms(trees: dict[Path, ast.Module], files: list[Path], root: Path) -> set[str]:
    """Every string with holes in the code and the pages that could be a key."""
    found: set[str] = set()
    for one in chain.from_iterable(map(joined, in_packages(trees))):
        parts = [str(v.value) if isinstance(v, ast.Constant) else "{}" for v in one.values]
        found.add("".join(parts))
    for text in pages(files, root):
        for match in JOINED.finditer(text):
            found.add(f"{match[2]}{{}}" if match[2] else f"{{}}{match[4]}")
    return found


def in_packages(trees: dict[Path, ast.Module]) -> Iterator[ast.Module]:
    """The trees of what is installed, without tests and deployment."""
    return (tree for path, tree in trees.items() if path.parts[0] in PACKAGES)


def joined(tree: ast.Module) -> Iterator[ast.JoinedStr]:
    """Every f-string of a module."""
    return (node for node in ast.walk(tree) if isinstance(node, ast.JoinedStr))


def coded(call: ast.Call) -> str | None:
    """The key that belongs to the id of a button, or to the code of a doubt."""
    room = CODED.get(ast.unparse(call.func))
    own_label = room == "choice" and len(call.args) > 1
    first = call.args[0] if call.args else None
    if room is None or own_label or not isinstance(first, ast.Constant):
        return None
    return f"{room}.{first.value!s}"


def pages(files: list[Path], root: Path) -> Iterator[str]:
    """The text of every page template."""
    return ((root / path).read_text("utf-8") for path in files if path.suffix == ".html")


def test_every_key_in_the_code_has_a_text(literals: set[str]) -> None:
    """What is written as a key in the code is a key of the catalogues."""
    keys = catalogue("en").keys()
    rooms = {key.split(".")[0] for key in keys}
    meant = {
        text
        for text in literals
        if KEY.fullmatch(text) and text.split(".")[0] in rooms and not FILE.fullmatch(text)
    }
    assert len(meant) > 100
    assert meant - keys == set()


def test_every_key_put_together_in_the_code_is_of_a_known_family(forms: set[str]) -> None:
    """A form with holes that fits some key stands in the list above, and the list is in use."""
    keys = catalogue("en").keys()
    fitting = {
        form
        for form in forms
        if re.search(r"[a-z]", form)
        and any(re.fullmatch(re.escape(form).replace(r"\{\}", r"[\w-]+"), key) for key in keys)
    }
    assert fitting - set(FAMILIES) == set()
    assert set(FAMILIES) - forms == set()


@pytest.mark.parametrize("form", sorted(FAMILIES))
def test_every_member_of_a_family_has_a_text(form: str) -> None:
    """Whatever goes into the hole, there is a text in every language."""
    missing = [
        (language, key)
        for language in languages()
        for key in of_family(form)
        if not catalogue(language).has(key)
    ]
    assert missing == []


def test_no_text_is_left_over(literals: set[str]) -> None:
    """Each key of the catalogues is written in the code or a member of a family."""
    used = literals | set(chain.from_iterable(of_family(form) for form in FAMILIES))
    assert catalogue("en").keys() - used == set()


def test_every_measure_of_the_conversation_has_its_name() -> None:
    """Measures are named by their questions, in drawings, on paper and on the desk as well."""
    unnamed = {measure for measure in Measure if not catalogue("en").has(f"{measure}.title")}
    assert unnamed == set()
