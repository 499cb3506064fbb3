"""Where the pages are."""

from __future__ import annotations

from pathlib import Path

import pytest

from bot.commands.address import address
from bot.settings import Settings


@pytest.mark.parametrize(
    ("host", "shown"),
    [
        ("127.0.0.1", "http://127.0.0.1:8765"),
        ("0.0.0.0", "http://127.0.0.1:8765"),
        ("::", "http://127.0.0.1:8765"),
        ("::1", "http://[::1]:8765"),
        ("workshop.local", "http://workshop.local:8765"),
    ],
)
def test_the_address_can_be_opened(tmp_path: Path, host: str, shown: str) -> None:
    """Where we listen everywhere, this machine is named; brackets go round what has colons."""
    settings = Settings(database=tmp_path / "data" / "w.db", key_file=tmp_path / "key", host=host)
    assert address(settings, 8765) == shown
