"""Where settings and data lie."""

from __future__ import annotations

import os
from pathlib import Path

import pytest

from bot.places import PREFIX, anything_set, config_folder, data_folder


@pytest.fixture(autouse=True)
def home(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    """A user of whom nothing is known yet."""
    for name in [one for one in os.environ if one.startswith(PREFIX)]:
        monkeypatch.delenv(name)
    monkeypatch.setenv("XDG_CONFIG_HOME", str(tmp_path / "config"))
    monkeypatch.setenv("XDG_DATA_HOME", "not/absolute")
    monkeypatch.setenv("HOME", str(tmp_path))
    return tmp_path


def test_folders_follow_the_user_and_a_relative_one_counts_as_none(home: Path) -> None:
    """As the XDG rules say."""
    assert config_folder() == home / "config" / "cagewright"
    assert data_folder() == home / ".local/share" / "cagewright"


def test_nothing_is_set_until_the_environment_or_the_file_does(
    home: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    """Either is enough, whatever it sets, in any case of letters."""
    assert not anything_set()
    monkeypatch.setenv("cagewright_figures", "x")
    assert anything_set()
    monkeypatch.delenv("cagewright_figures")
    (home / "config" / "cagewright").mkdir(parents=True)
    assert not anything_set()
    (home / "config" / "cagewright" / "settings").touch()
    assert anything_set()
