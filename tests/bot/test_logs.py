"""What is written about the work, and what never is."""

from __future__ import annotations

import io
import json
import logging
from collections.abc import Iterator
from typing import Any

import pytest
import structlog
from hypothesis import given
from hypothesis import strategies as st

from bot.logs import FIELDS, log, set_up_logs


@pytest.fixture(autouse=True)
def _as_before() -> Iterator[None]:
    handlers, level = logging.root.handlers[:], logging.root.level
    yield
    structlog.reset_defaults()
    logging.root.handlers[:] = handlers
    logging.root.setLevel(level)


def lines(stream: io.StringIO) -> list[dict[str, Any]]:
    """What was written, line by line."""
    return [json.loads(line) for line in stream.getvalue().splitlines()]


def test_a_line_is_one_json_value() -> None:
    """With the moment, the level and what was named."""
    stream = io.StringIO()
    set_up_logs(stream=stream)
    log().info("turn done", kind="text", milliseconds=3)
    [line] = lines(stream)
    assert line.pop("timestamp").endswith("Z")
    assert line == {"event": "turn done", "level": "info", "kind": "text", "milliseconds": 3}


@given(st.dictionaries(st.from_regex(r"[a-z_]{1,12}", fullmatch=True), st.text()))
def test_nothing_but_the_listed_fields_comes_through(fields: dict[str, str]) -> None:
    """Whatever is passed: what is not listed is dropped, and a line stays one line."""
    stream = io.StringIO()
    set_up_logs(stream=stream)
    told = {name: value for name, value in fields.items() if name not in ("event", "level")}
    log().warning("something", **told)
    [line] = lines(stream)
    assert set(line) <= FIELDS


def test_an_exception_is_known_by_its_type_alone() -> None:
    """Its message may quote what somebody typed."""
    stream = io.StringIO()
    set_up_logs(stream=stream)
    try:
        int("+48 601 234 567")
    except ValueError:
        log().exception("failed")
    log().warning("failed", exc_info=KeyError("+48"))
    assert [line["error"] for line in lines(stream)] == ["ValueError", "KeyError"]
    assert "+48" not in stream.getvalue()


def test_libraries_are_heard_without_their_words() -> None:
    """Who warned, how badly, with which exception; not what it said."""
    stream = io.StringIO()
    set_up_logs(stream=stream)
    logging.getLogger("httpx").info("GET https://example.org/bot123:secret")
    logging.getLogger("httpx").warning("no answer from %s", "bot123:secret")
    try:
        int("x")
    except ValueError:
        logging.getLogger("asyncio").exception("secret")
    assert "secret" not in stream.getvalue()
    assert [(line["logger"], line.get("error")) for line in lines(stream)] == [
        ("httpx", None),
        ("asyncio", "ValueError"),
    ]


def test_less_than_the_level_is_not_written() -> None:
    """At `warning`, an info line is left out."""
    stream = io.StringIO()
    set_up_logs("warning", stream)
    log().info("quiet")
    log().warning("loud")
    assert [line["event"] for line in lines(stream)] == ["loud"]


def test_a_command_that_set_nothing_up_keeps_its_output_clean(
    capsys: pytest.CaptureFixture[str],
) -> None:
    """Warnings go to stderr, nothing to stdout."""
    structlog.reset_defaults()
    log().info("quiet")
    log().warning("loud")
    written = capsys.readouterr()
    assert written.out == ""
    assert json.loads(written.err)["event"] == "loud"
