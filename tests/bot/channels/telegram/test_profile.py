"""What the bot says of itself before anybody wrote."""

from __future__ import annotations

import pytest
from bot_api import TOKEN, Running
from telegram import Bot

from bot.channels.telegram.profile import COMMANDS, introduce
from conversations.locale import catalogue, languages
from conversations.turns.wishes import named


@pytest.mark.parametrize("command", COMMANDS)
def test_every_command_shown_is_understood(command: str) -> None:
    """A command in the list that leads nowhere would be worse than none."""
    assert named(f"/{command}") is not None


@pytest.mark.parametrize("language", languages())
def test_descriptions_keep_to_their_lengths(language: str) -> None:
    """Command 256, description 512, short description 120 characters (Bot API)."""
    texts = catalogue(language)
    assert all(1 <= len(texts.text(f"telegram.command.{name}")) <= 256 for name in COMMANDS)
    assert len(texts.text("telegram.description")) <= 512
    assert len(texts.text("telegram.short")) <= 120


async def test_a_refusal_is_no_matter(other_side: Running) -> None:
    """They are only shown; the conversation goes on without them."""
    other_side.api.scripted["setMyCommands"].append(("500",))
    async with Bot(TOKEN, base_url=f"{other_side.url}/bot") as bot:
        await introduce(bot)
    assert other_side.api.commands == {}
