"""Pictures and photos, each only for whom it is meant; to everybody else there is no such file."""

from __future__ import annotations

import json

from starlette.requests import Request
from starlette.responses import FileResponse, Response
from starlette.routing import Route

from bot.channels.web.identity import CHAT_COOKIE, visitor
from bot.channels.web.parts import Parts, parts_of
from bot.channels.web.signed_in import staff_of
from bot.channels.web.trouble import Trouble
from bot.contract import request_from_json
from bot.desk import order
from conversations.effects import Picture
from conversations.locale import languages
from sizing.drawings import HINTS

__all__ = ["routes"]

KEPT = {"Cache-Control": "private, max-age=86400, immutable"}
"""What a name here stands for never changes."""


def routes() -> list[Route]:
    """The addresses of the files."""
    return [
        Route("/files/picture/{seq:int}.png", _picture),
        Route("/files/photo/{sha}.jpg", _photo),
        Route("/files/hint/{language}/{name}.png", _hint),
        Route("/files/cage/{number}/{version:int}/{item:int}.png", _cage),
    ]


def _picture(request: Request) -> Response:
    parts, who = parts_of(request), visitor(request, CHAT_COOKIE)
    if who is not None:
        seq = request.path_params["seq"]
        letters = parts.outbox.since(who.person, seq - 1)
        if letters and letters[0].seq == seq and letters[0].say.picture is not None:
            png = parts.renderer.png(letters[0].say.picture, letters[0].say.language)
            return Response(png, media_type="image/png", headers=KEPT)
    raise Trouble(404, "missing")


def _photo(request: Request) -> Response:
    parts, who = parts_of(request), visitor(request, CHAT_COOKIE)
    sha = request.path_params["sha"]
    theirs = who is not None and _sent(parts, who.person, sha)
    if theirs or (staff_of(request) is not None and _sent(parts, None, sha)):
        path = parts.shelf.path(sha)
        if path.is_file():
            return FileResponse(path, media_type="image/jpeg", headers=KEPT)
    raise Trouble(404, "missing")


def _sent(parts: Parts, person: str | None, sha: str) -> bool:
    """Whether this person, or for None anybody, sent the photo."""
    with parts.database.reading() as connection:
        row = connection.execute(
            "SELECT 1 FROM photos WHERE sha = :sha AND (:person IS NULL OR person = :person)",
            {"sha": sha, "person": person},
        ).fetchone()
    return row is not None


def _hint(request: Request) -> Response:
    """How to measure something, as the beekeeper is shown it; for staff."""
    parts, wanted = parts_of(request), request.path_params
    name, language = wanted["name"], wanted["language"]
    if staff_of(request) is not None and language in languages() and name in HINTS:
        png = parts.renderer.png(Picture(name=name), language)
        return Response(png, media_type="image/png", headers=KEPT)
    raise Trouble(404, "missing")


def _cage(request: Request) -> Response:
    parts, staff = parts_of(request), staff_of(request)
    if staff is not None:
        wanted = request.path_params
        sheet = order.read(parts.database, wanted["number"])
        for cage in sheet.cages if sheet and sheet.version == wanted["version"] else ():
            if cage["item"] == wanted["item"]:
                picture = Picture(
                    name="cage", request=request_from_json(json.dumps(cage["request"]))
                )
                png = parts.renderer.png(picture, staff.language)
                return Response(png, media_type="image/png", headers=KEPT)
    raise Trouble(404, "missing")
