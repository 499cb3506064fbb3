"""`cagewright papers`."""

from __future__ import annotations

from pathlib import Path

import pytest

from bot.commands import demo
from bot.commands.papers import run
from bot.settings import Settings, load_settings
from bot.wiring import open_workshop

Output = pytest.CaptureFixture[str]


@pytest.fixture(scope="module")
def place(tmp_path_factory: pytest.TempPathFactory) -> tuple[Settings, str]:
    """The demo workshop, closed, and an order that is on its bench."""
    folder = tmp_path_factory.mktemp("shop")
    settings = Settings(database=folder / "data" / "shop.db", key_file=folder / "secret" / "key")
    demo.make(settings)
    with open_workshop(settings) as workshop, workshop.database.reading() as connection:
        row = connection.execute(
            "SELECT number FROM orders WHERE stage = 'on-the-bench'"
        ).fetchone()
    return settings, str(row["number"])


@pytest.fixture
def number(place: tuple[Settings, str], monkeypatch: pytest.MonkeyPatch) -> str:
    """The order, in the database of the settings."""
    settings, found = place
    monkeypatch.setenv("CAGEWRIGHT_DATABASE", str(settings.database))
    monkeypatch.setenv("CAGEWRIGHT_KEY_FILE", str(settings.key_file))
    assert load_settings().database == settings.database
    return found


def test_the_papers_of_an_order_are_written_and_named(
    number: str, tmp_path: Path, capsys: Output
) -> None:
    """Into a folder that is made where there is none; each file has its line."""
    out = tmp_path / "new" / "papers"
    assert run(f"{number[:3]} {number[3:6]} {number[6:]}", out=out, language=None) == 0
    written = sorted(str(file) for file in out.iterdir())
    assert sorted(capsys.readouterr().out.split("\n")[:-1]) == written
    names = {Path(file).name.removeprefix(f"{number}-") for file in written}
    assert names >= {
        "work-order.pdf", "copy.pdf", "labels.pdf", "drawing-1.pdf", "drawing-1.png",
        "drawing-1.svg", "patterns.dxf", "cut-list.csv",
    }  # fmt: skip


def test_a_second_time_writes_the_same_bytes(number: str, tmp_path: Path) -> None:
    """Papers do not differ by when they were printed."""
    for name in ("a", "b"):
        assert run(number, out=tmp_path / name, language="pl") == 0
    files = [
        {file.name: file.read_bytes() for file in (tmp_path / name).iterdir()}
        for name in ("a", "b")
    ]
    assert files[0] == files[1]


def test_no_such_order_is_a_clear_no(number: str, tmp_path: Path, capsys: Output) -> None:
    """Said on stdout, with nothing written."""
    assert number != "48291742"
    assert run("48291742", out=tmp_path / "out", language=None) == 1
    assert "482\u00a0917\u00a042" in capsys.readouterr().out
    assert not (tmp_path / "out").exists()


@pytest.mark.parametrize(
    ("given", "language", "field"),
    [("12345678", None, "number"), ("48291742", "xx", "language")],
)
def test_what_cannot_be_used_is_named_in_one_line(
    number: str, tmp_path: Path, capsys: Output, given: str, language: str | None, field: str
) -> None:
    """On stderr, with what would do; nothing on stdout."""
    assert number
    assert run(given, out=tmp_path, language=language) == 2
    said = capsys.readouterr()
    assert said.out == ""
    assert said.err.startswith(f"{field}: ")
    assert said.err.count("\n") == 1


def test_a_folder_that_cannot_be_written_is_named(
    number: str, tmp_path: Path, capsys: Output
) -> None:
    """A file stands where the folder should be."""
    (tmp_path / "file").write_text("x")
    assert run(number, out=tmp_path / "file" / "out", language=None) == 2
    assert capsys.readouterr().err.startswith("out: ")
