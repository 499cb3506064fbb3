"""All pictures in one folder, to be looked at."""

from __future__ import annotations

from pathlib import Path

import pytest

from bot.pictures.contact_sheet import main, write
from conversations.locale import languages
from sizing.drawings import HINTS


def test_it_writes_every_picture_in_every_language_and_a_page(tmp_path: Path) -> None:
    """A PNG and an SVG each, and a page that shows them."""
    folder = tmp_path / "new"
    *pictures, index = write(folder)
    assert len(pictures) == len(languages()) * (len(HINTS) + 1)
    assert all(file.with_suffix(".svg").exists() for file in pictures)
    page = index.read_text(encoding="utf-8")
    assert all(file.name in page for file in pictures)


def test_the_command_wants_exactly_one_folder(
    tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    """Otherwise it says how it is used and ends with 2."""
    assert main([]) == 2
    assert "DIR" in capsys.readouterr().err
    assert main([str(tmp_path)]) == 0
    assert "files" in capsys.readouterr().out
