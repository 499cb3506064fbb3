"""The chat on the front page is true."""

from __future__ import annotations

import re
from pathlib import Path

from player import Player


def test_the_chat_in_the_readme_ends_in_its_number() -> None:
    """It is played line by line, so that it can't go stale."""
    readme = Path(__file__).parents[2] / "README.md"
    chats = re.findall(r"```chat\n(.*?)```", readme.read_text(encoding="utf-8"), re.DOTALL)
    assert len(chats) == 1
    player = Player()
    player.play(chats[0])
    assert player.numbers == ["48291742"]
    assert chats[0].rstrip().endswith("482 917 42")
