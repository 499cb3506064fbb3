"""Where the pages are, as a person on this machine opens them."""

from __future__ import annotations

from bot.settings import Settings

__all__ = ["address"]

EVERYWHERE = frozenset({"0.0.0.0", "::"})  # noqa: S104 - compared with, not listened on


def address(settings: Settings, port: int) -> str:
    """The address of the pages, without a slash at its end."""
    host = "127.0.0.1" if settings.host in EVERYWHERE else settings.host
    shown = f"[{host}]" if ":" in host else host
    return f"http://{shown}:{port}"
