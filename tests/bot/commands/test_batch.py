"""`cagewright batch`."""

from __future__ import annotations

from pathlib import Path

import pytest

from bot.commands import demo
from bot.commands.batch import run
from bot.settings import Settings
from bot.storage.database import open_database

Output = pytest.CaptureFixture[str]


@pytest.fixture(scope="module")
def settings(tmp_path_factory: pytest.TempPathFactory) -> Settings:
    """The demo workshop, closed; what was on its bench is only cleared."""
    folder = tmp_path_factory.mktemp("shop")
    settings = Settings(database=folder / "data" / "shop.db", key_file=folder / "secret" / "key")
    demo.make(settings)
    opened = open_database(settings.database, settings.key_file)
    with opened.transaction() as connection:
        connection.execute("UPDATE orders SET stage = 'cleared' WHERE stage = 'on-the-bench'")
    opened.close()
    return settings


@pytest.fixture(autouse=True)
def there(settings: Settings, monkeypatch: pytest.MonkeyPatch) -> None:
    """Commands look there."""
    monkeypatch.setenv("CAGEWRIGHT_DATABASE", str(settings.database))
    monkeypatch.setenv("CAGEWRIGHT_KEY_FILE", str(settings.key_file))


def numbers(settings: Settings, stage: str) -> list[str]:
    """The orders at a stage."""
    opened = open_database(settings.database, settings.key_file)
    with opened.reading() as connection:
        rows = connection.execute("SELECT number FROM orders WHERE stage = ?", [stage]).fetchall()
    opened.close()
    return [row["number"] for row in rows]


def test_all_that_is_cleared_is_planned(tmp_path: Path, capsys: Output) -> None:
    """Into a folder that is made where there is none; the use of each stock is printed."""
    out = tmp_path / "new" / "plan"
    assert run([], out=out) == 0
    assert {file.name for file in out.iterdir()} == {"plan.pdf", "plan.dxf", "pick-list.csv"}
    printed = capsys.readouterr().out
    assert str(out / "plan.pdf") in printed
    assert printed.count(" %") >= 3


def test_what_is_not_cleared_is_not_planned(
    settings: Settings, tmp_path: Path, capsys: Output
) -> None:
    """One line says which and where it stands; nothing is written."""
    (number, *_) = numbers(settings, "handed-in")
    assert run([number], out=tmp_path / "plan") == 1
    assert "is not cleared: handed-in" in capsys.readouterr().out
    assert run(["48291742"], out=tmp_path / "plan") == 1
    assert "no order 482" in capsys.readouterr().out
    assert not (tmp_path / "plan").exists()


@pytest.mark.parametrize(
    ("given", "language", "named"), [(["12345678"], "en", "number"), ([], "xx", "language")]
)
def test_what_cannot_be_used_is_named_in_one_line(
    given: list[str], language: str, named: str, tmp_path: Path, capsys: Output
) -> None:
    """On standard error, with nothing on standard output."""
    assert run(given, out=tmp_path / "plan", language=language) == 2
    printed = capsys.readouterr()
    assert printed.out == ""
    assert printed.err.startswith(f"{named}: ")
    assert printed.err.count("\n") == 1
