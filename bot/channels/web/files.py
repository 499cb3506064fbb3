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
from bot.paperwork import order as paper_order
from bot.paperwork.papers import KINDS
from conversations.effects import Picture, Say
from conversations.locale import languages
from conversations.review import Role
from sizing.drawings import HINTS

__all__ = ["papers_for", "routes"]

LABELS = "labels"

KEPT = {"Cache-Control": "private, max-age=86400, immutable"}
"""What a name here stands for never changes."""
FRESH = {"Cache-Control": "private, no-cache"}
"""What a name here stands for changes with the order."""


def routes() -> list[Route]:
    """The addresses of the files."""
    return [
        Route("/files/picture/{seq:int}.png", _picture),
        Route("/files/paper/{seq:int}.pdf", _paper),
        Route("/files/photo/{sha}.jpg", _photo),
        Route("/files/hint/{language}/{name}.png", _hint),
        Route("/files/cage/{number}/{version:int}/{item:int}.png", _cage),
        Route("/files/order/{number}/{kind}.pdf", _order_paper),
    ]


def papers_for(role: Role) -> tuple[str, ...]:
    """The papers that role may open: on labels stands how to reach somebody."""
    return tuple(kind for kind in KINDS if kind != LABELS or role is not Role.BENCH)


def _picture(request: Request) -> Response:
    say = _said_to_visitor(request)
    if say is not None and say.picture is not None:
        png = parts_of(request).renderer.png(say.picture, say.language)
        return Response(png, media_type="image/png", headers=KEPT)
    raise Trouble(404, "missing")


def _paper(request: Request) -> Response:
    say = _said_to_visitor(request)
    if say is not None and say.document is not None:
        pdf = parts_of(request).renderer.pdf(say.document, say.language)
        return Response(pdf, media_type="application/pdf", headers=KEPT)
    raise Trouble(404, "missing")


def _said_to_visitor(request: Request) -> Say | None:
    """The message of that row, if it was said to whoever asks."""
    parts, who = parts_of(request), visitor(request, CHAT_COOKIE)
    if who is None:
        return None
    seq = request.path_params["seq"]
    letters = parts.outbox.since(who.person, seq - 1)
    return letters[0].say if letters and letters[0].seq == seq else None


def _photo(request: Request) -> Response:
    parts, who = parts_of(request), visitor(request, CHAT_COOKIE)
    sha = request.path_params["sha"]
    theirs = who is not None and _sent(parts, who.person, sha)
    staff = staff_of(request)
    if theirs or (staff is not None and staff.role is not Role.BENCH and _sent(parts, None, sha)):
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


def _order_paper(request: Request) -> Response:
    """A paper of an order as it stands, for staff: the bench's in the language of who asks, the
    customer's in the customer's."""
    parts, staff = parts_of(request), staff_of(request)
    kind = request.path_params["kind"]
    if staff is not None and kind in papers_for(staff.role):
        found = paper_order.read(parts.database, request.path_params["number"], parts.figures)
        if found is not None:
            language = found.language if kind == "copy" else staff.language
            pdf = parts.papers.pdf(kind, found, language)
            return Response(pdf, media_type="application/pdf", headers=FRESH)
    raise Trouble(404, "missing")
