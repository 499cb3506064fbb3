"""What the bot says of itself where nobody has written yet: commands and descriptions."""

from __future__ import annotations

from telegram import Bot, BotCommand, BotCommandScopeAllPrivateChats
from telegram.error import TelegramError

from bot.logs import log
from conversations.locale import catalogue, languages

__all__ = ["COMMANDS", "introduce"]

COMMANDS = ("start", "change", "repeat", "later", "status", "person", "help", "settings", "privacy")
"""Telegram's own four, and those that matter at the hive."""


async def introduce(bot: Bot) -> None:
    """Set commands and descriptions in every language; best effort, they are only shown."""
    for language in languages():
        texts = catalogue(language)
        # English also stands for all languages we do not speak.
        codes = (None, "en") if language == "en" else (language,)
        commands = [BotCommand(name, texts.text(f"telegram.command.{name}")) for name in COMMANDS]
        for code in codes:
            try:
                await bot.set_my_commands(
                    commands, scope=BotCommandScopeAllPrivateChats(), language_code=code
                )
                await bot.set_my_description(texts.text("telegram.description"), code)
                await bot.set_my_short_description(texts.text("telegram.short"), code)
            except TelegramError as error:
                log().warning("profile not set", code=type(error).__name__)
                return
