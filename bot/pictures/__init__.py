"""Pictures for the chat: scenes with words, as PNG and SVG."""

from __future__ import annotations

from bot.pictures.renderer import Renderer
from bot.pictures.typesetting import Typesetter, TypesettingWarningError

__all__ = ["Renderer", "Typesetter", "TypesettingWarningError"]
