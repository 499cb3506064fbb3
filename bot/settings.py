"""What can be set from outside: in the environment, or in a settings file.

A name here is a name there with `CAGEWRIGHT_` in front: `database` is `CAGEWRIGHT_DATABASE`.
The environment wins over the file; what a command is told on its own line wins over both.
"""

from __future__ import annotations

import json
import os
from pathlib import Path
from typing import Annotated, Literal, Self

from pydantic import Field, SecretStr, ValidationError, field_validator, model_validator
from pydantic_settings import BaseSettings, NoDecode, SettingsConfigDict

from bot.places import FILE_VARIABLE, PREFIX, config_folder, data_folder

__all__ = ["Settings", "SettingsError", "load_settings"]


class SettingsError(Exception):
    """The operator's: a setting cannot be used. `field` is its name, `would_do` what would do."""

    def __init__(self, field: str, would_do: str) -> None:
        super().__init__(field, would_do)
        self.field = field
        self.would_do = would_do


class Settings(BaseSettings):
    """All settings, read once at the start of a command."""

    model_config = SettingsConfigDict(env_prefix=PREFIX, frozen=True, extra="ignore")

    database: Path = Field(default_factory=lambda: data_folder() / "workshop.db")
    """The one file that holds what the workshop knows of people and orders."""
    key_file: Path = Field(default_factory=lambda: config_folder() / "key")
    """The key that opens what is sealed; in another folder than the database."""
    photos: Path | None = None
    """Where photos are kept; without it a folder `photos` beside the database."""
    figures: Path | None = None
    """The workshop's own figures (TOML); without it the built-in ones."""
    host: str = "127.0.0.1"
    port: int = Field(default=8765, ge=0, le=65535)
    allowed_hosts: Annotated[tuple[str, ...], NoDecode] = ("localhost", "127.0.0.1", "[::1]")
    """The names under which the pages may be asked for."""
    telegram_token: SecretStr | None = None
    telegram_api: str = "https://api.telegram.org"
    log_level: Literal["debug", "info", "warning", "error"] = "info"

    @field_validator("allowed_hosts", mode="before")
    @classmethod
    def _from_json(cls, value: object) -> object:
        # Read here and not by the library, so that a mistake in it has the setting's name.
        return json.loads(value) if isinstance(value, str) else value

    @field_validator("database", "key_file", "photos", "figures")
    @classmethod
    def _absolute(cls, path: Path | None) -> Path | None:
        return None if path is None else path.expanduser().absolute()

    @model_validator(mode="after")
    def _key_apart(self) -> Self:
        # A copy of the database's folder must not carry the key along with it.
        if self.key_file.parent == self.database.parent:
            raise SettingsError("key_file", "a-file-outside-the-folder-of-the-database")
        return self

    @property
    def photo_folder(self) -> Path:
        """Where photos are kept."""
        return self.photos or self.database.parent / "photos"


def load_settings(**told: object) -> Settings:
    """The settings of file and environment, with what the command was told on top.

    What is None was not told. Raises `SettingsError`.
    """
    given = {name: value for name, value in told.items() if value is not None}
    file = os.environ.get(FILE_VARIABLE)
    if file is not None and not Path(file).is_file():
        raise SettingsError("settings", "a-file-that-exists")
    path = Path(file) if file is not None else config_folder() / "settings"
    try:
        return Settings(_env_file=path, **given)  # type: ignore[call-arg, arg-type]
    except ValidationError as error:
        first = error.errors(include_input=False, include_url=False)[0]
        raise SettingsError(".".join(map(str, first["loc"])), str(first["type"])) from None
