"""Pages: a template, a language, values. What a person typed is always escaped."""

from __future__ import annotations

import secrets
from collections.abc import Mapping
from datetime import datetime
from fractions import Fraction
from functools import cache
from typing import Any

from babel.dates import format_timedelta
from babel.lists import format_list
from babel.numbers import format_decimal, format_percent
from jinja2 import Environment, PackageLoader, StrictUndefined
from starlette.requests import Request
from starlette.responses import HTMLResponse

from conversations import reference
from conversations.locale import Catalogue, catalogue, languages

__all__ = ["Words", "device_language", "page", "part", "spoken"]


class Words:
    """The texts of one language, as the templates use them."""

    def __init__(self, language: str) -> None:
        self.language = language
        self._texts: Catalogue = catalogue(language)

    def __call__(self, key: str, **values: object) -> str:
        """The text under `key` with its values put in."""
        return self._texts.text(key).format(**values)

    def count(self, key: str, n: int) -> str:
        """The text under `key` in the form that goes with `n`."""
        return self._texts.plural(key, n).format(n=n)

    def has(self, key: str) -> bool:
        """Whether there is a text under `key`."""
        return self._texts.has(key)

    def figure(self, value: float | Fraction) -> str:
        """A number with at most two decimals."""
        return str(format_decimal(float(value), "#,##0.##", locale=self.language))

    def length(self, value: float | Fraction) -> str:
        """A length [mm] with its unit."""
        return f"{self.figure(value)} mm"

    def share(self, value: float) -> str:
        """A probability in whole percent, never rounded up to all."""
        return str(format_percent(min(value, 0.99), "#,##0 %", locale=self.language))

    def span(self, low: float | None, high: float | None, *, beyond: bool = False) -> str:
        """From where to where something may lie; None: no limit on that side. `beyond`: the
        limit itself is outside."""
        if low is None and high is None:
            return ""
        if high is None:
            return f"{'>' if beyond else '≥'} {self.figure(low or 0)}"
        if low is None:
            return f"{'<' if beyond else '≤'} {self.figure(high)}"
        if beyond:
            return f"> {self.figure(low)}, < {self.figure(high)}"
        return f"{self.figure(low)} … {self.figure(high)}"

    def ago(self, then: datetime, now: datetime) -> str:
        """How long ago `then` was."""
        return str(format_timedelta(then - now, add_direction=True, locale=self.language))

    def several(self, parts: list[str]) -> str:
        """A list as a sentence writes it."""
        return str(format_list(parts, locale=self.language))


def device_language(request: Request) -> str | None:
    """The language the browser asks for first, without its country."""
    first = request.headers.get("accept-language", "").split(",")[0].split(";")[0].strip()
    tag = first.split("-")[0].lower()
    return tag if tag.isascii() and tag.isalpha() and 2 <= len(tag) <= 3 else None


def spoken(language: str | None) -> str:
    """The language if we speak it, else English."""
    return language if language in languages() else "en"


def page(name: str, language: str, values: Mapping[str, Any], status: int = 200) -> HTMLResponse:
    """A whole page."""
    return HTMLResponse(part(name, language, values), status)


def part(name: str, language: str, values: Mapping[str, Any]) -> str:
    """A template filled in."""
    return _templates().get_template(name).render(t=Words(language), **values)


@cache
def _templates() -> Environment:
    made = Environment(
        loader=PackageLoader("bot.channels.web"),
        autoescape=True,
        undefined=StrictUndefined,
        trim_blocks=True,
        lstrip_blocks=True,
    )
    made.globals["fresh_id"] = lambda: secrets.token_urlsafe(12)
    made.filters["number"] = reference.format
    return made
