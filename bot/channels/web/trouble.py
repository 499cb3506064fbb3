"""What a page says when it can't do what was asked: a kind line, and what to do next."""

from __future__ import annotations

from collections.abc import Mapping

from starlette.exceptions import HTTPException
from starlette.requests import Request
from starlette.responses import JSONResponse, Response

from bot.channels.web.page import Words, device_language, page, spoken
from bot.logs import log
from bot.storage.errors import UnavailableError

__all__ = [
    "Trouble",
    "asks_for_json",
    "show_http",
    "show_ours",
    "show_too_long",
    "show_trouble",
    "show_unavailable",
]


class Trouble(Exception):  # noqa: N818 - it is a page, not an error of ours
    """A request that is not done. `kind` chooses the texts `web.trouble.KIND.title` and
    `web.trouble.KIND.WHAT`, into which `values` go."""

    def __init__(self, status: int, kind: str, what: str = "what", **values: object) -> None:
        super().__init__(status, kind, what)
        self.status = status
        self.kind = kind
        self.what = what
        self.values = values
        self.headers: Mapping[str, str] = {}


def asks_for_json(request: Request) -> bool:
    """Whether it is the live chat that asks, which shows one line by itself."""
    return request.headers.get("accept", "") == "application/json"


async def show_trouble(request: Request, error: Exception) -> Response:
    """Answer with what `Trouble` says."""
    assert isinstance(error, Trouble)
    language = spoken(device_language(request))
    words = Words(language)
    title = words(f"web.trouble.{error.kind}.title")
    what = words(f"web.trouble.{error.kind}.{error.what}", **error.values)
    response: Response
    if asks_for_json(request):
        response = JSONResponse({"title": title, "what": what}, error.status)
    else:
        path = request.url.path
        back = "/desk" if path.startswith("/desk") else "/chat"
        back = path if path == "/desk/staff" and error.kind == "name" else back
        values = {"title": title, "what": what, "back": back, "at_desk": back != "/chat"}
        response = page("trouble.html", language, values, error.status)
    response.headers.update(error.headers)
    return response


async def show_http(request: Request, error: Exception) -> Response:
    """Answer what the framework refused: no such page, a form that can't be read."""
    assert isinstance(error, HTTPException)
    kind = "missing" if error.status_code in (404, 405) else "form"
    trouble = Trouble(error.status_code, kind)
    trouble.headers = error.headers or {}
    return await show_trouble(request, trouble)


async def show_too_long(request: Request) -> Response:
    """What was sent is longer than what is read here."""
    return await show_trouble(request, Trouble(413, "long"))


async def show_unavailable(request: Request, error: Exception) -> Response:
    """The database can't be written just now: nothing was taken, it is to be sent again."""
    assert isinstance(error, UnavailableError)
    log().error("database unavailable", code=error.code)
    trouble = Trouble(503, "ours")
    trouble.headers = {"Retry-After": "5"}
    return await show_trouble(request, trouble)


async def show_ours(request: Request, error: Exception) -> Response:
    """Something of ours failed; the log says what kind, the page that nothing is lost."""
    log().error("page failed", exc_info=error)
    return await show_trouble(request, Trouble(500, "ours"))
