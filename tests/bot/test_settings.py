"""What can be set from outside."""

from __future__ import annotations

from pathlib import Path

import pytest

from bot.settings import SettingsError, load_settings


@pytest.fixture(autouse=True)
def _own_home(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setenv("XDG_DATA_HOME", str(tmp_path / "data"))
    monkeypatch.setenv("XDG_CONFIG_HOME", str(tmp_path / "config"))


def test_without_a_word_everything_has_its_place(tmp_path: Path) -> None:
    """Database and key lie in different folders of the user; photos beside the database."""
    settings = load_settings()
    assert settings.database == tmp_path / "data/cagewright/workshop.db"
    assert settings.key_file == tmp_path / "config/cagewright/key"
    assert settings.photo_folder == tmp_path / "data/cagewright/photos"
    assert settings.host == "127.0.0.1"


def test_a_relative_home_is_no_home(monkeypatch: pytest.MonkeyPatch) -> None:
    """The base directory rules say that a relative folder is to be ignored."""
    monkeypatch.setenv("XDG_DATA_HOME", "here")
    assert load_settings().database == Path.home() / ".local/share/cagewright/workshop.db"


def test_the_line_wins_over_the_environment_and_that_over_the_file(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    """Each is used where the one before is silent."""
    file = tmp_path / "config/cagewright/settings"
    file.parent.mkdir(parents=True)
    file.write_text("CAGEWRIGHT_HOST=a\nCAGEWRIGHT_PORT=1\nCAGEWRIGHT_LOG_LEVEL=debug\n")
    monkeypatch.setenv("CAGEWRIGHT_HOST", "b")
    monkeypatch.setenv("CAGEWRIGHT_PORT", "2")
    settings = load_settings(host="c", port=None)
    assert (settings.host, settings.port, settings.log_level) == ("c", 2, "debug")


def test_another_file_can_be_named(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    """And has to exist."""
    file = tmp_path / "elsewhere"
    monkeypatch.setenv("CAGEWRIGHT_SETTINGS", str(file))
    with pytest.raises(SettingsError) as caught:
        load_settings()
    assert caught.value.field == "settings"
    file.write_text("CAGEWRIGHT_PORT=3\n")
    assert load_settings().port == 3


def test_a_token_does_not_show(monkeypatch: pytest.MonkeyPatch) -> None:
    """Printing the settings does not print what opens a door."""
    monkeypatch.setenv("CAGEWRIGHT_TELEGRAM_TOKEN", "123:secret")
    settings = load_settings()
    assert "secret" not in repr(settings)
    assert settings.telegram_token is not None
    assert settings.telegram_token.get_secret_value() == "123:secret"


@pytest.mark.parametrize(
    ("name", "value"), [("PORT", "many"), ("PORT", "70000"), ("LOG_LEVEL", "loud")]
)
def test_what_cannot_be_used_is_named(
    monkeypatch: pytest.MonkeyPatch, name: str, value: str
) -> None:
    """The error carries the setting's name, and not what stood there."""
    monkeypatch.setenv(f"CAGEWRIGHT_{name}", value)
    with pytest.raises(SettingsError) as caught:
        load_settings()
    assert caught.value.field == name.lower()
    assert value not in str(caught.value)


def test_a_list_that_is_none_is_named(monkeypatch: pytest.MonkeyPatch) -> None:
    """A list has to be written as JSON."""
    monkeypatch.setenv("CAGEWRIGHT_ALLOWED_HOSTS", "a, b")
    with pytest.raises(SettingsError) as caught:
        load_settings()
    assert caught.value.field == "allowed_hosts"


def test_the_key_may_not_lie_beside_the_database(tmp_path: Path) -> None:
    """A copy of the folder would carry the key along."""
    with pytest.raises(SettingsError) as caught:
        load_settings(database=tmp_path / "workshop.db", key_file=tmp_path / "key")
    assert caught.value.field == "key_file"


def test_paths_are_whole(monkeypatch: pytest.MonkeyPatch, tmp_path: Path) -> None:
    """A path that begins at home or here is made absolute once, at the start."""
    monkeypatch.chdir(tmp_path)
    settings = load_settings(database=Path("workshop.db"), key_file=Path("~/key"))
    assert settings.database == tmp_path / "workshop.db"
    assert settings.key_file == Path.home() / "key"
