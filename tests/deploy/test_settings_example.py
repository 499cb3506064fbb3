"""The example lists every setting with the value it has when nothing is said."""

from __future__ import annotations

import re
from pathlib import Path

import pytest

import environment
from bot.places import PREFIX
from bot.settings import Settings, load_settings

EXAMPLE = Path(environment.__file__).with_name("settings.example")


def test_the_example_lists_all_settings() -> None:
    """No setting is missing there and none is there that the program does not know."""
    named = re.findall(rf"^# {PREFIX}(\w+)=", EXAMPLE.read_text("utf-8"), re.MULTILINE)
    assert sorted(named) == sorted(name.upper() for name in Settings.model_fields)


def test_the_example_says_the_defaults(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    """With every line of the example switched on, nothing is other than without it."""
    for name in ("XDG_DATA_HOME", "XDG_CONFIG_HOME"):
        monkeypatch.delenv(name, raising=False)
    plain = Settings()
    told = tmp_path / "settings"
    lines = re.sub(rf"^# (?={PREFIX}\w+=.)", "", EXAMPLE.read_text("utf-8"), flags=re.MULTILINE)
    told.write_text(lines, encoding="utf-8")
    monkeypatch.setenv("CAGEWRIGHT_SETTINGS", str(told))
    loaded = load_settings()
    assert loaded.photos == plain.photo_folder
    assert loaded.model_copy(update={"photos": None}) == plain
