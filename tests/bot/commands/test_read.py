"""`cagewright read`: what one typed answer means, as JSON."""

from __future__ import annotations

import json
from typing import Any

import pytest

from bot.commands.read import run

Capture = pytest.CaptureFixture[str]


def answer(capsys: Capture, text: str, measure: str = "side_to_side", **given: str) -> Any:
    """What the command prints for one answer."""
    assert run(text, measure, given.get("language"), given.get("usual_unit")) == 0
    printed = capsys.readouterr()
    assert printed.err == ""
    return json.loads(printed.out)


@pytest.mark.parametrize(
    ("text", "echo"),
    [("363", "363 mm (36.3 cm)"), ("36,3 cm", "363 mm (36.3 cm)"),
     ("14 1/8", "358.8 mm (14 1/8 in)"), ("0,363 m", "363 mm (0.363 m)")],
)  # fmt: skip
def test_a_taken_answer_is_echoed_in_both_units(capsys: Capture, text: str, echo: str) -> None:
    """The JSON names the length in millimetres and in the unit that was typed."""
    assert answer(capsys, text)["echo"] == echo


def test_the_answer_has_the_fields_that_were_promised(capsys: Capture) -> None:
    """Outcome, values, exact, reason and echo, in this order and nothing else."""
    assert list(answer(capsys, "363").items()) == [
        ("outcome", "take"), ("values_mm", [363.0]), ("exact", True), ("reason", None),
        ("echo", "363 mm (36.3 cm)"),
    ]  # fmt: skip


def test_lengths_are_rounded_to_a_thousandth(capsys: Capture) -> None:
    """14 1/32 in is 356.39375 mm."""
    assert answer(capsys, "14 1/32 in")["values_mm"] == [356.394]


def test_proposed_values_stand_side_by_side(capsys: Capture) -> None:
    """A bundle is echoed value by value, each in its own unit."""
    bundle = answer(capsys, "43,5 cm 25 mm")
    assert bundle["outcome"] == "propose"
    assert bundle["values_mm"] == [435.0, 25.0]
    assert bundle["echo"] == "435 mm (43.5 cm), 25 mm (2.5 cm)"


def test_counts_are_plain_numbers(capsys: Capture) -> None:
    """Ten frames are 10."""
    frames = answer(capsys, "10 frames", "frames_held")
    assert (frames["values_mm"], frames["echo"]) == ([10.0], "10")


def test_questions_have_a_reason_and_no_echo(capsys: Capture) -> None:
    """Whatever the outcome, the command is done."""
    doubt = answer(capsys, "18", usual_unit="mm")
    assert (doubt["outcome"], doubt["reason"], doubt["echo"]) == ("ask", "which-unit", None)


def test_language_and_usual_unit_are_used(capsys: Capture) -> None:
    """`ok.` is about in Polish; the unit used before settles 18 for a yes."""
    assert answer(capsys, "ok. 36 cm", language="pl")["reason"] == "hedged"
    assert answer(capsys, "18", usual_unit="in")["values_mm"] == [457.2]


@pytest.mark.parametrize(
    ("measure", "language", "usual_unit", "option"),
    [("girth", None, None, "--measure"), ("side_to_side", "xx", None, "--language"),
     ("side_to_side", None, "m", "--usual-unit")],
)  # fmt: skip
def test_an_unknown_option_is_named_in_one_line(
    capsys: Capture, measure: str, language: str | None, usual_unit: str | None, option: str
) -> None:
    """Exit 2, one line on stderr that names the option and what would do, nothing on stdout."""
    assert run("363", measure, language, usual_unit) == 2
    printed = capsys.readouterr()
    assert printed.out == ""
    assert printed.err.count("\n") == 1
    assert printed.err.startswith(f"{option}: ")
    assert "one of" in printed.err
