"""Every paper can be looked at, in every language, by one command."""

from __future__ import annotations

from pathlib import Path

import pytest

from bot.paperwork.contact_sheet import main
from conversations.locale import languages


def test_every_paper_is_written_in_every_language(
    tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    """As a PDF, and each of its pages as a picture that the index shows."""
    assert main([str(tmp_path)]) == 0
    assert capsys.readouterr().out == f"{len(list(tmp_path.iterdir()))} files\n"
    index = (tmp_path / "index.html").read_text("utf-8")
    for language in languages():
        for name, pages in (("work_order", 3), ("copy", 3), ("labels", 1), ("measuring", 2)):
            assert (tmp_path / f"{name}.{language}.pdf").read_bytes().startswith(b"%PDF")
            for n in range(1, pages + 1):
                assert f'src="{name}.{language}.{n}.png"' in index


def test_without_a_folder_it_says_how(capsys: pytest.CaptureFixture[str]) -> None:
    """One line, and nothing is written."""
    assert main([]) == 2
    assert capsys.readouterr().err.startswith("usage: ")
