"""`cagewright size`: one cage from a request, JSON in and JSON or lines to check out."""

from __future__ import annotations

import json
import sys
from pathlib import Path

from bot.contract import design_to_json, request_from_json
from bot.places import anything_set
from sizing.cage import Verdict, design_cage
from sizing.errors import RequestError
from sizing.workshop import Figures, default_figures

__all__ = ["run"]

_DONE, _NO, _UNUSABLE = 0, 1, 2
_MOST_BYTES = 1_000_000
_LONGEST = 80


def run(file: str | None, explain: bool = False) -> int:
    """Size the cage of the request in `file` (`-` or None: standard input) and print it.

    Gives the exit code: 0 for make and ask, 1 for cannot, 2 where the request is of no use;
    then there is one line on standard error and nothing on standard output.
    """
    try:
        figures = _figures() if anything_set() else default_figures()
        if figures is None:
            return _UNUSABLE
        request = request_from_json(_text(file))
    except RequestError as error:
        sys.stderr.write(f"{complaint(error)}\n")
        return _UNUSABLE
    except OSError as error:
        sys.stderr.write(f"{file}: {error.strerror or 'not readable'}; give a file or -\n")
        return _UNUSABLE
    design = design_cage(request, figures)
    if explain:
        from bot.explain import explain as as_lines

        answer = as_lines(request, design, figures)
    else:
        answer = json.dumps(design_to_json(design), ensure_ascii=False)
    sys.stdout.write(f"{answer}\n")
    return _NO if design.verdict is Verdict.CANNOT else _DONE


def _figures() -> Figures | None:
    """The workshop's figures; None after a line on standard error. Settings take time to load."""
    from bot.commands.trouble import trouble
    from bot.figures import workshop_figures
    from bot.settings import SettingsError, load_settings

    try:
        return workshop_figures(load_settings())
    except SettingsError as error:
        sys.stderr.write(f"{trouble(error)}\n")
        return None


def _text(file: str | None) -> bytes:
    if file is None or file == "-":
        text = sys.stdin.buffer.read(_MOST_BYTES + 1)
    else:
        with Path(file).open("rb") as stream:
            text = stream.read(_MOST_BYTES + 1)
    if len(text) > _MOST_BYTES:
        raise RequestError("request", f"more than {_MOST_BYTES} bytes", "json")
    return text


_WOULD_DO = {
    "json": "give one JSON object as the contract says",
    "an-object": "give an object",
    "a-list": "give a list of numbers",
    "a-number": "give a plain number",
    "a-whole-number": "give a whole number",
    "a-length": 'give millimetres as a number or {"readings": [...]}',
    "needed": "this field is needed",
    "no-such-field": "there is no such field; leave it out",
    "once": "give this field once",
    "at-least-one-reading": "give at least one reading",
    "at-most-20-readings": "give at most 20 readings",
    "above-0-to-50": "give millimetres above 0, at most 50",
    "0-to-50": "give millimetres from 0 to 50",
    "at-most-50": "give at most 50 mm",
}


def complaint(error: RequestError) -> str:
    """One line that names the field, what was seen and what would do."""
    kind, _, bounds = error.would_do.partition(" ")
    if kind == "one-of":
        advice = f"give one of {bounds}"
    elif bounds:
        low, high = bounds.split()
        unit = " mm" if kind == "a-length" else ""
        advice = f"give {low} to {high}{unit}"
    else:
        advice = _WOULD_DO[kind]
    field, seen = _plain(error.field), _plain(str(error.seen or ""))
    return f"{field}: {seen}; {advice}" if seen else f"{field}: {advice}"


def _plain(text: str) -> str:
    """`text` in one line that no terminal takes for an order."""
    return "".join(sign if sign.isprintable() else "�" for sign in text)[:_LONGEST]
