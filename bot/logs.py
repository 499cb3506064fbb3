"""What is written about the work: one JSON line an event, on stderr.

Only the fields listed here come through. Everything else is dropped, whoever passes it: what
people write, how to reach them and what opens a door are in no log. An exception is known by
its type alone, because its message may quote what somebody typed.
"""

from __future__ import annotations

import logging
import sys
from collections.abc import MutableMapping
from typing import Any, TextIO

import structlog

__all__ = ["FIELDS", "log", "set_up_logs"]

FIELDS = frozenset({
    "event", "level", "timestamp",
    "channel", "code", "count", "error", "host", "kind", "logger", "milliseconds", "number",
    "path", "pid", "port", "seq", "sqlite", "stage", "state", "status", "tries", "version",
})  # fmt: skip


def _only_listed(
    _logger: Any, _method: str, entry: MutableMapping[str, Any]
) -> MutableMapping[str, Any]:
    return {name: value for name, value in entry.items() if name in FIELDS}


def _type_of_error(
    _logger: Any, _method: str, entry: MutableMapping[str, Any]
) -> MutableMapping[str, Any]:
    error = entry.pop("exc_info", None)
    if error is True:
        error = sys.exc_info()[1]
    if isinstance(error, BaseException):
        entry["error"] = type(error).__name__
    return entry


class _Lines:
    """Writes each line to the stream it was given, or to what stderr is at that moment."""

    def __init__(self, stream: TextIO | None) -> None:
        self._stream = stream

    def msg(self, line: str) -> None:
        """Write one line."""
        print(line, file=self._stream or sys.stderr, flush=True)

    debug = info = warning = error = critical = msg


class _Foreign(logging.Handler):
    """What libraries log, without their words: who, how bad, which exception."""

    def emit(self, record: logging.LogRecord) -> None:
        error = record.exc_info[1] if record.exc_info else None
        fields = {} if error is None else {"error": type(error).__name__}
        log().log(record.levelno, "library", logger=record.name, **fields)


def set_up_logs(level: str = "info", stream: TextIO | None = None) -> None:
    """Send the log to `stream` (stderr), from `level` on; of libraries, warnings and worse."""
    structlog.configure(
        processors=[
            structlog.processors.add_log_level,
            structlog.processors.TimeStamper(fmt="iso", utc=True),
            _type_of_error,
            _only_listed,
            structlog.processors.JSONRenderer(sort_keys=True),
        ],
        wrapper_class=structlog.make_filtering_bound_logger(getattr(logging, level.upper())),
        logger_factory=lambda *_: _Lines(stream),
        cache_logger_on_first_use=False,
    )
    logging.basicConfig(level=logging.WARNING, handlers=[_Foreign()], force=True)


def log() -> structlog.typing.FilteringBoundLogger:
    """The log. A command that did not set it up gets warnings and worse on stderr."""
    if not structlog.is_configured():
        set_up_logs("warning")
    logger: structlog.typing.FilteringBoundLogger = structlog.get_logger()
    return logger
