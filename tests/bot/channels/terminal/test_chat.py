"""The chat a person holds in a terminal."""

from __future__ import annotations

import os
import subprocess
import sys
from pathlib import Path


def chat(folder: Path, *typed: str, arguments: tuple[str, ...] = ()) -> str:
    """What is on the screen after these lines were typed."""
    ran = subprocess.run(
        [
            sys.executable, "-m", "bot", "talk", "--language", "en",
            "--database", str(folder / "data" / "workshop.db"), *arguments,
        ],
        input="".join(f"{line}\n" for line in typed), capture_output=True, text=True,
        check=False, timeout=60,
        env={**os.environ, "CAGEWRIGHT_KEY_FILE": str(folder / "key"), "COLUMNS": "200"},
    )  # fmt: skip
    assert ran.returncode == 0, ran.stderr
    return ran.stdout


def test_choices_have_letters_and_answers_are_typed(tmp_path: Path) -> None:
    """The first letter takes the first choice; a number stays a number."""
    screen = chat(tmp_path, "a", "a", "a", "36,1")
    assert "a  English" in screen
    assert "Side to side: 361 mm (36.1 cm)" in screen
    assert screen.rstrip().endswith(">")


def test_a_talk_goes_on_after_the_terminal_was_closed(tmp_path: Path) -> None:
    """The second start asks what was open, and nothing that was answered."""
    chat(tmp_path, "a", "a", "a", "361")
    screen = chat(tmp_path, "262")
    assert "Top to bottom: 262 mm (26.2 cm)" in screen
    assert "Side to side\n" not in screen


def test_a_message_can_be_edited_by_its_number(tmp_path: Path) -> None:
    """The prompt counts what was sent; `:edit` says which of them changes."""
    screen = chat(tmp_path, "a", "a", "a", "356", ":edit 2 365")
    assert "2> " in screen
    assert "Changed: Side to side 356 mm (35.6 cm) → 365 mm (36.5 cm)" in screen


def test_a_command_it_does_not_know_is_explained(tmp_path: Path) -> None:
    """A line with a colon in front never reaches the conversation."""
    screen = chat(tmp_path, "a", ":frob", ":photo nowhere.jpg")
    assert ":photo FILE" in screen
    assert "There is no such file." in screen
