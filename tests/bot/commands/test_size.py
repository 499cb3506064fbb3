"""`size` as a command: what goes out where, and with which exit code."""

from __future__ import annotations

import io
import json
import subprocess
import sys
from pathlib import Path
from typing import Any

import pytest

from bot.commands.size import complaint, run
from sizing.errors import RequestError

REQUEST: dict[str, Any] = {
    "purpose": "isolate",
    "frame": {
        "side_to_side": 360, "top_to_bottom": 260, "lug_to_lug": 391, "lug_thickness": 10,
        "widest_wood": 35, "comb_thickness": 27,
    },
    "hive": {
        "inside_along": 375, "lug_room": 393, "ledge_down": 253, "ledge_up": 17, "below": "box",
        "inside_across": 375, "frames_held": 10,
    },
}  # fmt: skip


@pytest.fixture
def file(tmp_path: Path) -> Path:
    """A file with the request above."""
    path = tmp_path / "request.json"
    path.write_text(json.dumps(REQUEST), encoding="utf-8")
    return path


def with_hive(path: Path, **hive: object) -> str:
    """The same file with some of the hive changed."""
    path.write_text(json.dumps({**REQUEST, "hive": {**REQUEST["hive"], **hive}}), encoding="utf-8")
    return str(path)


@pytest.mark.parametrize(
    ("hive", "code", "verdict"),
    [({}, 0, "make"), ({"lug_room": None}, 0, "ask"), ({"inside_along": 366}, 1, "cannot")],
)
def test_json_in_all_three_verdicts(
    file: Path,
    capsys: pytest.CaptureFixture[str],
    hive: dict[str, object],
    code: int,
    verdict: str,
) -> None:
    """Make and ask end in 0, cannot in 1; standard output holds JSON and nothing else."""
    assert run(with_hive(file, **hive)) == code
    out, err = capsys.readouterr()
    assert json.loads(out)["verdict"] == verdict
    assert err == ""


def smallest(purpose: str = "isolate", side: str = "360") -> str:
    """The smallest request as text, so that its numbers can be anything."""
    frame = f'{{"side_to_side": {side}, "top_to_bottom": 260, "lug_to_lug": 391}}'
    return f'{{"purpose": "{purpose}", "frame": {frame}}}'


@pytest.mark.parametrize(
    ("text", "line"),
    [
        ("", "request: give one JSON object as the contract says"),
        ('{"frame": {}}', "purpose: this field is needed"),
        (smallest(side="-5"), "frame.side_to_side: -5; give 80 to 700 mm"),
        (smallest(purpose="breed"), "purpose: breed; give one of isolate, introduce"),
        (smallest(side="NaN"), "request: NaN; give a plain number"),
    ],
)
def test_what_cannot_be_used_is_one_line_on_standard_error(
    text: str, line: str, tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    """It names the field and what would do; nothing goes to standard output; exit 2."""
    path = tmp_path / "request.json"
    path.write_text(text, encoding="utf-8")
    assert run(str(path)) == 2
    out, err = capsys.readouterr()
    assert out == ""
    assert err == f"{line}\n"


def test_a_file_that_is_not_there(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    """It is named, in one line."""
    assert run(str(tmp_path / "none.json")) == 2
    out, err = capsys.readouterr()
    assert out == ""
    assert err.count("\n") == 1
    assert "none.json" in err


def test_a_file_that_is_far_too_long(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    """It is not read to its end."""
    path = tmp_path / "request.json"
    path.write_bytes(b" " * 1_000_001)
    assert run(str(path)) == 2
    assert "more than 1000000 bytes" in capsys.readouterr().err


@pytest.mark.parametrize("name", ["-", None])
def test_standard_input_is_read(
    name: str | None, monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]
) -> None:
    """Without a file, or with -, the request comes through standard input."""
    stream = io.TextIOWrapper(io.BytesIO(json.dumps(REQUEST).encode()))
    monkeypatch.setattr(sys, "stdin", stream)
    assert run(name) == 0
    assert json.loads(capsys.readouterr().out)["verdict"] == "make"


def test_explained_instead_of_json(file: Path, capsys: pytest.CaptureFixture[str]) -> None:
    """Lines to check by hand take the place of the JSON, with the same exit code."""
    assert run(str(file), explain=True) == 0
    assert capsys.readouterr().out.startswith("make: ")
    assert run(with_hive(file, inside_along=366), explain=True) == 1


def test_the_workshops_own_figures_are_used(
    file: Path, monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]
) -> None:
    """The cage is sized with the file of the settings, and says under which version."""
    own = file.with_name("figures.toml")
    own.write_text('version = "new"\n[figure.allowance_along]\nvalue = 9\nunit = "mm"\n', "utf-8")
    monkeypatch.setenv("CAGEWRIGHT_FIGURES", str(own))
    assert run(str(file)) == 0
    answer = json.loads(capsys.readouterr().out)
    assert answer["cage"]["length_outside"] == 369
    assert answer["workshop_version"].startswith("new-")
    own.write_text('version = "new"\n[figure.allowance_along]\nvalue = 90\nunit = "mm"\n', "utf-8")
    assert run(str(file)) == 2
    out, err = capsys.readouterr()
    assert (out, err) == ("", "figures: figure.allowance_along.value: 6 to 14 mm\n")


def test_every_refusal_has_its_words() -> None:
    """Whatever the contract refuses, there is advice for it in one line."""
    for would_do in ("json", "an-object", "a-list", "a-number", "a-whole-number", "a-length",
                     "needed", "no-such-field", "once", "at-least-one-reading",
                     "at-most-20-readings", "above-0-to-50", "0-to-50", "at-most-50",
                     "one-of a, b", "a-length 1 2", "a-whole-number 1 2"):  # fmt: skip
        line = complaint(RequestError("x.y", None, would_do))
        assert line.startswith("x.y: ")
        assert "\n" not in line


def test_names_and_values_from_outside_stay_in_their_line() -> None:
    """A line break or a terminal code in a name is not passed on; a long one is cut."""
    line = complaint(RequestError("a\nb", "\x1b[2J", "no-such-field"))
    assert line == "a�b: �[2J; there is no such field; leave it out"
    assert len(complaint(RequestError("x" * 500, None, "needed"))) < 120


def test_starting_loads_nothing_heavy() -> None:
    """Channels, papers and texts are not imported to size a cage."""
    code = "import sys, bot.commands.size, bot.explain; print(*sys.modules)"
    done = subprocess.run([sys.executable, "-c", code], capture_output=True, text=True, check=True)
    loaded = {name.partition(".")[0] for name in done.stdout.split()}
    heavy = {"typst", "jinja2", "starlette", "uvicorn", "babel", "sqlite_utils", "structlog",
             "cryptography", "PIL", "rich", "conversations", "pydantic_settings"}  # fmt: skip
    assert loaded & heavy == set()
