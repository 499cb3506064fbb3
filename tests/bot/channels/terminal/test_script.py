"""A script of JSON lines holds a whole conversation through the real service."""

from __future__ import annotations

import json
import subprocess
import sys
from pathlib import Path
from typing import Any

import pytest
from PIL import Image

WHOLE: tuple[dict[str, Any], ...] = (
    {"from": "anna", "language": "en", "text": "hello"},
    {"from": "anna", "choose": "en"},
    {"from": "anna", "choose": "isolate"},
    {"from": "anna", "choose": "dont-know"},
    {"from": "anna", "text": "360 x 260 x 391"},
    {"from": "anna", "choose": "yes"},
    *({"from": "anna", "text": text} for text in ("10 mm", "35", "27", "375", "393", "253")),
    {"from": "anna", "text": "17 mm"},
    {"from": "anna", "choose": "box"},
    {"from": "anna", "text": "10"},
    {"from": "anna", "text": "Anna, anna@example.org"},
    {"from": "anna", "choose": "hand-in"},
)


@pytest.fixture
def talk(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Any:
    """Plays rows in a new process and gives its lines of output."""
    monkeypatch.setenv("CAGEWRIGHT_KEY_FILE", str(tmp_path / "key"))

    def play(*rows: object, arguments: tuple[str, ...] = ()) -> list[dict[str, Any]]:
        lines = [row if isinstance(row, str) else json.dumps(row) for row in rows]
        ran = subprocess.run(
            [sys.executable, "-m", "bot", "talk", *arguments, "-"],
            input="".join(f"{line}\n" for line in lines),
            capture_output=True, text=True, check=False, timeout=60,
        )  # fmt: skip
        assert ran.returncode == 0, ran.stderr
        return [json.loads(line) for line in ran.stdout.splitlines()]

    return play


def messages(out: list[dict[str, Any]], to: str = "anna") -> list[dict[str, Any]]:
    """What was said to one person."""
    return [row for row in out if row.get("to") == to]


def test_a_whole_order_from_hello_to_its_number(talk: Any) -> None:
    """The last message carries the number and the stage; the desk is told once."""
    out = talk(*WHOLE)
    last = messages(out)[-1]
    assert last["stage"] == "handed-in"
    assert len(last["number"]) == 8
    assert len(messages(out, "desk")) == 1
    assert [row["done"] for row in out if "done" in row] == list(range(1, len(WHOLE) + 1))


def test_the_same_script_gives_the_same_bytes_and_another_seed_another_number(talk: Any) -> None:
    """Order numbers included."""
    first, second = talk(*WHOLE), talk(*WHOLE)
    assert first == second
    other = talk(*WHOLE, arguments=("--seed", "7"))
    assert messages(other)[-1]["number"] != messages(first)[-1]["number"]


def test_a_second_script_goes_on_where_the_first_ended(talk: Any, tmp_path: Path) -> None:
    """The database holds the conversation; ids of the first run are not taken for repeats."""
    database = ("--database", str(tmp_path / "data" / "workshop.db"))
    talk(*WHOLE[:5], arguments=database)
    out = talk(*WHOLE[5:], arguments=database)
    assert messages(out)[-1]["stage"] == "handed-in"


def test_the_same_id_twice_is_one_event(talk: Any) -> None:
    """The repeat is answered with nothing at all."""
    out = talk({**WHOLE[0], "id": "one"}, {**WHOLE[0], "id": "one"})
    assert len(messages(out)) == 1


def test_a_line_that_cannot_be_used_is_named_and_the_talk_goes_on(talk: Any) -> None:
    """The error comes before the `done` of that line."""
    out = talk(WHOLE[0], "nonsense", {"from": "anna", "choose": "en"})
    errors = [row for row in out if "error" in row]
    assert [(row["line"], row["error"][:5]) for row in errors] == [(2, "line:")]
    assert out.index(errors[0]) + 1 == out.index({"done": 2})
    assert messages(out)[-1]["question"] == "purpose"


def test_pictures_are_written_where_they_are_wanted(talk: Any, tmp_path: Path) -> None:
    """Without a folder a message names its picture; with one it names the file."""
    assert messages(talk(*WHOLE[:2]))[-1]["picture"] == "purpose"
    folder = tmp_path / "pictures"
    out = talk(*WHOLE[:4], arguments=("--pictures", str(folder)))
    file = Path(messages(out)[-1]["picture"])
    assert file.parent == folder
    with Image.open(file) as picture:
        assert picture.width >= 720


def test_a_photo_is_kept_and_a_file_that_is_none_is_refused(talk: Any, tmp_path: Path) -> None:
    """The person is told that it is kept; the refusal names the field."""
    picture = tmp_path / "frame.jpg"
    Image.new("RGB", (64, 48), "wheat").save(picture)
    (tmp_path / "note.txt").write_text("no picture", encoding="utf-8")
    out = talk(
        *WHOLE[:4],
        {"from": "anna", "photo": str(picture)},
        {"from": "anna", "photo": str(tmp_path / "note.txt")},
        {"from": "anna", "photo": str(tmp_path / "nowhere.jpg")},
        arguments=("--database", str(tmp_path / "data" / "workshop.db")),
    )
    assert any("photo is kept" in row["text"] for row in messages(out))
    assert [row["error"].split(":")[0] for row in out if "error" in row] == ["photo", "photo"]
    assert len(list((tmp_path / "data" / "photos").rglob("*.jpg"))) == 1


def test_the_desk_asks_and_the_order_becomes_version_two(talk: Any) -> None:
    """The person is asked once more, answers, the desk is told, and version 1 is refused."""
    number = messages(talk(*WHOLE))[-1]["number"]
    desk = {"from": "desk:maria", "number": number}
    out = talk(
        *WHOLE,
        {**desk, "do": "take", "version": 1},
        {**desk, "do": "ask", "version": 1, "measure": "side_to_side", "note": "outside, please"},
        {"from": "anna", "text": "361"},
        {**desk, "do": "clear", "version": 1},
        {**desk, "do": "clear", "version": 2},
    )
    asked = [row for row in messages(out) if row["again"]]
    assert [(row["question"], row["number"]) for row in asked] == [("side_to_side", number)]
    assert "360" not in asked[0]["text"].partition("\n\n")[0]
    assert len(messages(out, "desk")) == 2
    refusals = [row for row in messages(out, "desk:maria") if "refused" in row]
    assert [row["refused"] for row in refusals] == ["newer-version"]
    assert messages(out)[-1]["stage"] == "cleared"


def test_time_passes_only_by_advance_and_what_is_due_happens(talk: Any) -> None:
    """After a day of silence the notebook is spoken of once."""
    out = talk(*WHOLE[:5], {"advance": "PT23H"}, {"advance": "PT2H"}, {"advance": "P1D"})
    after = {row["done"]: index for index, row in enumerate(out) if "done" in row}
    assert after[6] + 1 == after[6 + 1] - 1, "one message between 23 and 25 hours"
    assert after[7] + 1 == after[8], "and none the day after"
