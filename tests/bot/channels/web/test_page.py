"""Texts, figures and moments as the pages write them."""

from __future__ import annotations

import re
from datetime import UTC, datetime, timedelta
from fractions import Fraction
from importlib import resources

import pytest
from starlette.requests import Request

from bot.channels.web.page import Words, device_language, part, spoken
from conversations.locale import catalogue, languages

NOW = datetime(2026, 3, 2, 9, tzinfo=UTC)
KEY = re.compile(r't\("([a-z_.-]+)"')


@pytest.mark.parametrize(
    ("header", "language"),
    [
        ("pl-PL,pl;q=0.9,en;q=0.8", "pl"),
        ("EN", "en"),
        ("de;q=0.5", "de"),
        ("*", None),
        ("", None),
        ("x-klingon", None),
        ("12", None),
    ],
)
def test_the_device_language_is_the_first_one_asked_for(header: str, language: str | None) -> None:
    """Without its country; what is no language is none."""
    scope = {"type": "http", "headers": [(b"accept-language", header.encode())]}
    assert device_language(Request(scope)) == language


def test_a_language_we_do_not_speak_is_english() -> None:
    """So there is a page for everybody."""
    assert [spoken(language) for language in ("pl", "xx", None)] == ["pl", "en", "en"]


@pytest.mark.parametrize("language", languages())
def test_every_text_of_the_templates_is_there(language: str) -> None:
    """Each key that a template names has a text in each language."""
    templates = resources.files("bot.channels.web") / "templates"
    keys = {key for file in templates.iterdir() for key in KEY.findall(file.read_text("utf-8"))}
    whole = {key for key in keys if not key.endswith((".", "_"))}
    assert len(whole) > 50
    assert [key for key in sorted(whole) if not catalogue(language).has(key)] == []


def test_figures_are_written_as_the_language_does() -> None:
    """A decimal comma in Polish, no more than two decimals, no needless ones."""
    assert Words("en").figure(Fraction(1, 3)) == "0.33"
    assert Words("pl").length(36.5) == "36,5 mm"
    assert Words("en").figure(360.0) == "360"


@pytest.mark.parametrize(
    ("low", "high", "written"),
    [(None, None, ""), (0.5, None, "≥ 0.5"), (None, 4.3, "≤ 4.3"), (0, 9.5, "0 … 9.5")],
)
def test_a_span_says_its_limits(low: float | None, high: float | None, written: str) -> None:
    """From, to, both or neither."""
    assert Words("en").span(low, high) == written


@pytest.mark.parametrize(
    ("low", "high", "written"),
    [(None, None, ""), (0.5, None, "> 0.5"), (None, 4.3, "< 4.3"), (0, 9.5, "> 0, < 9.5")],
)
def test_a_limit_that_is_itself_outside_has_another_sign(
    low: float | None, high: float | None, written: str
) -> None:
    """Past it, and on it."""
    assert Words("en").span(low, high, beyond=True) == written


def test_moments_are_as_long_ago_as_they_are() -> None:
    """In words of the language."""
    assert Words("en").ago(NOW - timedelta(hours=3), NOW) == "3 hours ago"
    assert Words("pl").ago(NOW - timedelta(days=2), NOW) == "2 dni temu"


def test_lists_read_like_sentences() -> None:
    """The last two are joined by a word."""
    assert Words("en").several(["a", "b"]) == "a and b"
    assert Words("pl").several([]) == ""


def test_a_missing_text_is_noticed() -> None:
    """Better no page than a page with a key on it."""
    with pytest.raises(KeyError):
        Words("en")("web.no_such_text")


def test_values_are_escaped() -> None:
    """Whatever goes into a template is words, never markup."""
    html = part("trouble.html", "en", {"title": "<i>", "what": "&", "back": ""})
    assert "&lt;i&gt;" in html
    assert "<p>&amp;</p>" in html


def test_a_share_is_never_rounded_up_to_all() -> None:
    """Whole percent, as the language writes them."""
    assert Words("en").share(0.9457) == "95 %"
    assert Words("pl").share(0.9999) == "99 %"
