"""Writes every picture in every language to a folder: `python -m bot.pictures.contact_sheet DIR`.

For looking at, by people. One PNG a picture and language, and one page that shows them all.
"""

from __future__ import annotations

import sys
from html import escape
from pathlib import Path

from bot.pictures.renderer import Renderer
from bot.pictures.sample import SAMPLE
from conversations.effects import Picture
from conversations.locale import languages
from sizing.drawings import CAGE, HINTS

__all__ = ["main", "write"]


def write(folder: Path) -> list[Path]:
    """Writes all pictures and `index.html` into `folder`; the files written."""
    folder.mkdir(parents=True, exist_ok=True)
    renderer = Renderer()
    written = []
    for language in languages():
        for name in (*HINTS, CAGE):
            picture = Picture(name=name, request=SAMPLE if name == CAGE else None)
            file = folder / f"{name}.{language}.png"
            file.write_bytes(renderer.png(picture, language))
            file.with_suffix(".svg").write_bytes(renderer.svg(picture, language))
            written.append(file)
    figures = "\n".join(
        f'<figure><img src="{escape(file.name)}" width="360"><figcaption>{escape(file.stem)}'
        "</figcaption></figure>"
        for file in written
    )
    page = f'<!doctype html><meta charset="utf-8"><title>Pictures</title>\n{figures}\n'
    index = folder / "index.html"
    index.write_text(page, encoding="utf-8")
    return [*written, index]


def main(arguments: list[str]) -> int:
    """Runs the command; 2 where it is not given exactly one folder."""
    if len(arguments) != 1:
        sys.stderr.write("usage: python -m bot.pictures.contact_sheet DIR\n")
        return 2
    sys.stdout.write(f"{len(write(Path(arguments[0])))} files\n")
    return 0


if __name__ == "__main__":
    raise SystemExit(main(sys.argv[1:]))
