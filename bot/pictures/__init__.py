"""Pictures for the chat: scenes with words, as PNG and SVG."""

from __future__ import annotations

from bot.pictures.renderer import PictureWarningError, Renderer

__all__ = ["PictureWarningError", "Renderer"]
