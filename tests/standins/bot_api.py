"""A Bot API on this machine: enough of it for a whole conversation, and for its bad days."""

from __future__ import annotations

import asyncio
import json
import re
import socket
import threading
import time
from collections import defaultdict, deque
from dataclasses import dataclass, field, replace
from html.parser import HTMLParser
from typing import Any

import uvicorn
from starlette.applications import Starlette
from starlette.requests import ClientDisconnect, Request
from starlette.responses import JSONResponse, Response
from starlette.routing import Route

TOKEN = "1234:stand-in"
TAGS = {"b", "strong", "i", "em", "u", "s", "code", "pre", "a", "blockquote"}


class DroppedError(Exception):
    """The connection ends without an answer."""


class _Tags(HTMLParser):
    """Finds tags that do not exist or are not closed."""

    def __init__(self) -> None:
        super().__init__(convert_charrefs=True)
        self.open: list[str] = []
        self.bad: str | None = None
        self.text = ""

    def handle_starttag(self, tag: str, attrs: list[tuple[str, str | None]]) -> None:
        if tag not in TAGS or any(value is None for _, value in attrs):
            self.bad = f"unsupported start tag {tag}"
        self.open.append(tag)

    def handle_endtag(self, tag: str) -> None:
        if not self.open or self.open.pop() != tag:
            self.bad = f"unexpected end tag {tag}"

    def handle_data(self, data: str) -> None:
        self.text += data


@dataclass
class Sent:
    """A message that was taken: `text` without tags."""

    id: int
    chat: int
    text: str
    html: str
    photo: str | None
    buttons: list[tuple[str, str]]
    at: float


@dataclass
class Person:
    """Somebody with this program on their phone."""

    user: int
    language: str | None = "en"
    name: str = "Anna"


@dataclass
class BotApi:
    """The other side. `scripted`: for each method, what the next calls are answered with instead:
    `("429", 3)`, `("403",)`, `("500",)`, `("drop-before",)`, `("drop-after",)`."""

    updates: list[dict[str, Any]] = field(default_factory=list)
    confirmed: int = 0
    sent: list[Sent] = field(default_factory=list)
    calls: dict[str, int] = field(default_factory=lambda: defaultdict(int))
    edited: dict[int, Sent] = field(default_factory=dict)
    answered: list[str] = field(default_factory=list)
    scripted: dict[str, deque[tuple[Any, ...]]] = field(default_factory=lambda: defaultdict(deque))
    blocked: set[int] = field(default_factory=set)
    files: dict[str, bytes] = field(default_factory=dict)
    documents: list[tuple[int, bytes]] = field(default_factory=list)
    commands: dict[str | None, list[str]] = field(default_factory=dict)
    problems: list[str] = field(default_factory=list)
    conflict: bool = False
    closing: bool = False
    _next_update: int = 1000
    _next_message: int = 1
    _lock: threading.RLock = field(default_factory=threading.RLock)
    _uploaded: int = 0

    # --- what people do ---------------------------------------------------------------

    def _update(self, kind: str, body: dict[str, Any]) -> dict[str, Any]:
        with self._lock:
            update = {"update_id": self._next_update, kind: body}
            self._next_update += 1
            self.updates.append(update)
            return update

    def _message(self, who: Person, **content: Any) -> dict[str, Any]:
        sender = {"id": who.user, "is_bot": False, "first_name": who.name}
        if who.language is not None:
            sender["language_code"] = who.language
        with self._lock:
            number = self._next_message
            self._next_message += 1
        return {
            "message_id": number,
            "date": int(time.time()),
            "chat": {"id": who.user, "type": "private", "first_name": who.name},
            "from": sender,
            **content,
        }

    def says(self, who: Person, text: str, reply_to: int | None = None) -> dict[str, Any]:
        """Somebody types something."""
        content: dict[str, Any] = {"text": text}
        if reply_to is not None:
            content["reply_to_message"] = {"message_id": reply_to, "date": 0}
        return self._update("message", self._message(who, **content))

    def sends(self, who: Person, **content: Any) -> dict[str, Any]:
        """Somebody sends anything else: a voice note, a place, a picture."""
        return self._update("message", self._message(who, **content))

    def photographs(self, who: Person, picture: bytes, **content: Any) -> dict[str, Any]:
        """Somebody sends a photo."""
        with self._lock:
            self._uploaded += 1
            name = f"in-{self._uploaded}"
            self.files[name] = picture
        size = {"file_id": name, "file_unique_id": name, "width": 640, "height": 480}
        return self.sends(who, photo=[{**size, "file_size": len(picture)}], **content)

    def edits(self, who: Person, message: int, text: str) -> dict[str, Any]:
        """Somebody edits a message they sent."""
        body = {**self._message(who, text=text), "message_id": message}
        return self._update("edited_message", {**body, "edit_date": int(time.time())})

    def blocks(self, who: Person) -> dict[str, Any]:
        """Somebody blocks the bot."""
        change = {
            "chat": {"id": who.user, "type": "private", "first_name": who.name},
            "from": {"id": who.user, "is_bot": False, "first_name": who.name},
            "date": int(time.time()),
            "old_chat_member": {"status": "member"},
            "new_chat_member": {"status": "kicked"},
        }
        return self._update("my_chat_member", change)

    def taps(self, who: Person, sent: Sent, label: str) -> dict[str, Any]:
        """Somebody taps the button of that label."""
        data = next(data for shown, data in sent.buttons if shown == label)
        return self.taps_data(who, sent.id, data)

    def taps_data(self, who: Person, message: int, data: str) -> dict[str, Any]:
        """Somebody taps, or a bad client says so."""
        query = {
            "id": str(self._next_update),
            "from": {"id": who.user, "is_bot": False, "first_name": who.name},
            "chat_instance": "1",
            "data": data,
            "message": {
                "message_id": message,
                "date": int(time.time()),
                "chat": {"id": who.user, "type": "private", "first_name": who.name},
            },
        }
        return self._update("callback_query", query)

    def to(self, who: Person) -> list[Sent]:
        """What reached this person."""
        with self._lock:
            return [one for one in self.sent if one.chat == who.user]

    # --- what the bot asks ------------------------------------------------------------

    async def answer(self, method: str, given: dict[str, Any]) -> Any:
        """The result of a method, or (code, description, parameters) of a refusal."""
        self.calls[method] += 1
        if method != "getUpdates" and self.scripted[method]:
            kind, *rest = self.scripted[method].popleft()
            if kind == "429":
                return 429, "Too Many Requests: retry later", {"retry_after": rest[0]}
            if kind == "drop-before":
                raise DroppedError
            if kind == "drop-after":
                await self._do(method, given)
                raise DroppedError
            return int(kind), f"scripted {kind}", {}
        return await self._do(method, given)

    async def _do(self, method: str, given: dict[str, Any]) -> Any:
        if method == "getMe":
            return {"id": 1234, "is_bot": True, "first_name": "Cages", "username": "cages_bot"}
        if method == "getUpdates":
            return await self._get_updates(given)
        if method in ("sendMessage", "sendPhoto"):
            return self._send(method, given)
        if method == "sendDocument":
            return self._document(given)
        if method in ("editMessageText", "editMessageReplyMarkup"):
            return self._edit(method, given)
        if method == "answerCallbackQuery":
            self.answered.append(given["callback_query_id"])
            return True
        if method == "getFile":
            name = given["file_id"]
            return {"file_id": name, "file_unique_id": name, "file_path": f"photos/{name}.jpg"}
        if method == "setMyCommands":
            wanted = json.loads(given["commands"])
            self.commands[given.get("language_code")] = [one["command"] for one in wanted]
            return True
        if method in ("setMyDescription", "setMyShortDescription"):
            return True
        return 404, f"Not Found: method {method}", {}

    async def _get_updates(self, given: dict[str, Any]) -> Any:
        if self.conflict:
            return 409, "Conflict: terminated by other getUpdates request", {}
        if "offset" in given:
            self.confirmed = max(self.confirmed, int(given["offset"]))
        until = time.monotonic() + min(float(given.get("timeout", 0)), 30)
        while True:
            with self._lock:
                self.updates = [u for u in self.updates if u["update_id"] >= self.confirmed]
                if self.updates:
                    return self.updates[: int(given.get("limit", 100))]
            if self.closing or time.monotonic() >= until:
                return []
            await asyncio.sleep(0.005)

    def _send(self, method: str, given: dict[str, Any]) -> Any:
        chat = int(given["chat_id"])
        if chat in self.blocked:
            return 403, "Forbidden: bot was blocked by the user", {}
        html = given.get("text", given.get("caption", "")) or ""
        tags = _Tags()
        tags.feed(html if given.get("parse_mode") == "HTML" else html.replace("<", "&lt;"))
        most = 4096 if method == "sendMessage" else 1024
        buttons = self._buttons(given)
        problem = self._problem(method, tags, most, buttons)
        if problem is not None:
            self.problems.append(problem)
            return 400, f"Bad Request: {problem}", {}
        photo = self._photo(given) if method == "sendPhoto" else None
        if photo == "":
            return 400, "Bad Request: wrong file identifier/HTTP URL specified", {}
        with self._lock:
            number = self._next_message
            self._next_message += 1
            self.sent.append(Sent(number, chat, tags.text, html, photo, buttons, time.monotonic()))
        body = {
            "message_id": number, "date": int(time.time()),
            "chat": {"id": chat, "type": "private", "first_name": "Anna"},
        }  # fmt: skip
        if photo:
            size = {"file_id": photo, "file_unique_id": photo, "width": 720, "height": 480}
            return {**body, "photo": [size], "caption": tags.text}
        return {**body, "text": tags.text}

    def _document(self, given: dict[str, Any]) -> Any:
        chat = int(given["chat_id"])
        if chat in self.blocked:
            return 403, "Forbidden: bot was blocked by the user", {}
        with self._lock:
            number = self._next_message
            self._next_message += 1
            self.documents.append((chat, given["document"]))
        return {
            "message_id": number, "date": int(time.time()),
            "chat": {"id": chat, "type": "private", "first_name": "Anna"},
            "document": {"file_id": f"paper-{number}", "file_unique_id": f"paper-{number}"},
        }  # fmt: skip

    def now(self, sent: Sent) -> Sent:
        """How the message looks now."""
        return self.edited.get(sent.id, sent)

    def _edit(self, method: str, given: dict[str, Any]) -> Any:
        number = int(given["message_id"])
        sent = next((one for one in self.sent if one.id == number), None)
        if sent is None or sent.chat != int(given["chat_id"]):
            return 400, "Bad Request: message to edit not found", {}
        before, buttons, tags = self.now(sent), self._buttons(given), _Tags()
        html = given["text"] if method == "editMessageText" else before.html
        tags.feed(html)
        if problem := self._problem("sendMessage", tags, 4096, buttons):
            self.problems.append(problem)
            return 400, f"Bad Request: {problem}", {}
        after = replace(before, text=tags.text, html=html, buttons=buttons)
        if after == before:
            return 400, "Bad Request: message is not modified", {}
        self.edited[number] = after
        chat = {"id": sent.chat, "type": "private", "first_name": "Anna"}
        return {"message_id": number, "date": int(time.time()), "chat": chat, "text": tags.text}

    def _buttons(self, given: dict[str, Any]) -> list[tuple[str, str]]:
        rows = (
            json.loads(given["reply_markup"])["inline_keyboard"] if "reply_markup" in given else []
        )
        return [(one["text"], one["callback_data"]) for row in rows for one in row]

    @staticmethod
    def _problem(method: str, tags: _Tags, most: int, buttons: list[tuple[str, str]]) -> str | None:
        if tags.bad or tags.open:
            return f"can't parse entities: {tags.bad or 'unclosed ' + tags.open[-1]}"
        if len(tags.text) > most:
            return "message is too long"
        if method == "sendMessage" and not tags.text.strip():
            return "message text is empty"
        if any(not 1 <= len(data.encode()) <= 64 for _, data in buttons):
            return "BUTTON_DATA_INVALID"
        return None

    def _photo(self, given: dict[str, Any]) -> str:
        photo = given["photo"]
        if isinstance(photo, str):
            return photo if photo in self.files else ""
        self._uploaded += 1
        name = f"out-{self._uploaded}"
        self.files[name] = photo
        return name


def _application(api: BotApi) -> Starlette:
    async def method(request: Request) -> Response:
        if request.path_params["token"] != TOKEN:
            return JSONResponse(
                {"ok": False, "error_code": 401, "description": "Unauthorized"}, 401
            )
        given: dict[str, Any] = {}
        try:
            async with request.form() as form:
                for name, value in form.items():
                    given[name] = value if isinstance(value, str) else await value.read()
        except ClientDisconnect:
            return Response(status_code=400)  # whoever asked was killed while asking
        # A picture is named by the part it lies in.
        for name, value in list(given.items()):
            if isinstance(value, str) and value.startswith("attach://"):
                given[name] = given[value.removeprefix("attach://")]
        result = await api.answer(request.path_params["method"], given)
        if isinstance(result, tuple):
            code, description, parameters = result
            body = {"ok": False, "error_code": code, "description": description}
            return JSONResponse({**body, "parameters": parameters}, code)
        return JSONResponse({"ok": True, "result": result})

    async def file(request: Request) -> Response:
        name = re.sub(r"^photos/|\.jpg$", "", request.path_params["path"])
        return Response(api.files[name], media_type="application/octet-stream")

    return Starlette(
        routes=[
            Route("/bot{token}/{method}", method, methods=["GET", "POST"]),
            Route("/file/bot{token}/{path:path}", file),
        ]
    )


class Running:
    """The other side, listening in a thread of its own."""

    def __init__(self, api: BotApi) -> None:
        self.api = api
        self._socket = socket.create_server(("127.0.0.1", 0))
        self.url = f"http://127.0.0.1:{self._socket.getsockname()[1]}"
        config = uvicorn.Config(
            _abrupt(_application(api)), log_config=None, lifespan="off", access_log=False,
            timeout_graceful_shutdown=1,
        )  # fmt: skip
        self._server = uvicorn.Server(config)
        self._thread = threading.Thread(target=self._run, daemon=True)
        self._thread.start()
        while not self._server.started:
            time.sleep(0.005)

    def _run(self) -> None:
        asyncio.run(self._server.serve(sockets=[self._socket]))

    def stop(self) -> None:
        """Stop listening."""
        self.api.closing = True
        self._server.should_exit = True
        self._thread.join(timeout=10)


def _abrupt(application: Starlette) -> Any:
    """Ends the connection where the other side is to drop it: a header that promises more bytes
    than come makes the client see a broken answer."""

    async def serve(scope: Any, receive: Any, send: Any) -> None:
        try:
            await application(scope, receive, send)
        except DroppedError:
            headers = [(b"content-length", b"1000"), (b"content-type", b"application/json")]
            await send({"type": "http.response.start", "status": 200, "headers": headers})
            await send({"type": "http.response.body", "body": b"{", "more_body": False})

    return serve
