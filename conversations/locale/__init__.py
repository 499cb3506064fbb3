"""The texts, by key and language: gettext catalogues, compiled in memory when first used.

A folder is a language; every `.po` file in it is read. The msgid is the key of the text, so
that English is a catalogue like any other and adding a language is adding a folder.
A text with a count has plural forms under the same key.
"""

from __future__ import annotations

import gettext
from collections.abc import Callable
from functools import cache, partial
from importlib import resources
from importlib.resources.abc import Traversable
from io import BytesIO
from typing import TypeAlias

from babel.messages.mofile import write_mo
from babel.messages.pofile import read_po

__all__ = ["Catalogue", "catalogue", "languages"]

_Plural: TypeAlias = Callable[[int], str]


class Catalogue:
    """All texts of one language."""

    def __init__(self, language: str, singular: dict[str, str], plural: dict[str, _Plural]) -> None:
        self.language = language
        self._singular = singular
        self._plural = plural

    def text(self, key: str) -> str:
        """The text under `key`; `KeyError` where this language has none."""
        return self._singular[key]

    def plural(self, key: str, n: int) -> str:
        """The form of the text under `key` that goes with `n`; `KeyError` as above."""
        return self._plural[key](n)

    def is_plural(self, key: str) -> bool:
        """Whether the text under `key` has plural forms."""
        return key in self._plural

    def has(self, key: str) -> bool:
        """Whether this language has a text under `key`."""
        return key in self._singular or key in self._plural

    def keys(self) -> frozenset[str]:
        """All keys this language has a text for."""
        return frozenset(self._singular) | frozenset(self._plural)


@cache
def languages() -> tuple[str, ...]:
    """The codes of the languages in which a whole conversation can be held, English first."""
    folders = (folder for folder in resources.files(__package__).iterdir() if folder.is_dir())
    found = (folder.name for folder in folders if folder.joinpath("chat.po").is_file())
    return tuple(sorted(found, key=lambda code: (code != "en", code)))


@cache
def catalogue(language: str) -> Catalogue:
    """The texts of `language`; `KeyError` where there is no such folder."""
    if language not in languages():
        raise KeyError(language)
    singular: dict[str, str] = {}
    plural: dict[str, _Plural] = {}
    folder = resources.files(__package__).joinpath(language)
    for file in sorted(folder.iterdir(), key=lambda file: file.name):
        if file.name.endswith(".po"):
            _read(file, language, singular, plural)
    return Catalogue(language, singular, plural)


def _read(
    file: Traversable, language: str, singular: dict[str, str], plural: dict[str, _Plural]
) -> None:
    """Add the texts of one file; gettext itself chooses among plural forms."""
    compiled = BytesIO()
    with file.open("rb") as source:
        entries = read_po(source, locale=language)
    write_mo(compiled, entries)
    compiled.seek(0)
    translations = gettext.GNUTranslations(compiled)
    for entry in entries:
        if not entry.id:
            continue
        key = entry.id if isinstance(entry.id, str) else entry.id[0]
        if key in singular or key in plural:
            raise ValueError(f"{language}: {key} stands twice")
        if isinstance(entry.id, str):
            if entry.string:
                singular[key] = translations.gettext(key)
        elif entry.string and all(entry.string):
            plural[key] = partial(translations.ngettext, key, key)
