"""The JSON of `size`: request in, design out."""

from __future__ import annotations

from bot.contract.answer import design_to_json, finding_to_json
from bot.contract.request import request_from_json, request_to_json

__all__ = ["design_to_json", "finding_to_json", "request_from_json", "request_to_json"]
