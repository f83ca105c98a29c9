"""Who may speak to the page: this machine, this run, this origin; and what the page itself may load.

Every request needs a Host that names this machine, and the run's token in a cookie that the address printed at the
terminal sets. What changes anything needs the token in a header besides, and an Origin, where one is sent, that
is the page's own. Bodies are bounded. The content policy allows the page's own files and nothing else.
"""

from __future__ import annotations

import hmac

from starlette.datastructures import Headers
from starlette.requests import Request
from starlette.responses import PlainTextResponse, RedirectResponse, Response
from starlette.types import ASGIApp, Message, Receive, Scope, Send

HEADER = "x-cardwright-run"
LIMIT = 256 * 1024  # bytes of a request; the longest edit is a few thousand
POLICY = (
    "default-src 'none'; script-src 'self'; style-src 'self'; img-src 'self'; media-src 'self'; "
    "connect-src 'self'; base-uri 'none'; form-action 'none'; frame-ancestors 'none'"
)
SAFE = (
    (b"content-security-policy", POLICY.encode()),
    (b"x-content-type-options", b"nosniff"),
    (b"referrer-policy", b"no-referrer"),
    (b"cross-origin-resource-policy", b"same-origin"),
    (b"cross-origin-opener-policy", b"same-origin"),
    (b"cache-control", b"no-store"),
)
READS = frozenset({"GET", "HEAD"})


class Guard:
    """Stands before the application and refuses what has no business there, with a reason."""

    def __init__(self, app: ASGIApp, token: str, port: int) -> None:
        self.app = app
        self.token = token
        self.hosts = frozenset({f"127.0.0.1:{port}", f"localhost:{port}"})
        self.cookie = f"cardwright-{port}"

    async def __call__(self, scope: Scope, receive: Receive, send: Send) -> None:
        if scope["type"] != "http":
            await self.app(scope, receive, send)
            return
        answer = self._answer(Request(scope))
        safe = _with_headers(send)
        if answer is not None:
            await answer(scope, receive, safe)
            return
        body = await _body(receive) if scope["method"] not in READS else b""
        if body is None:
            await _refusal(413, "This is too long for an edit.")(scope, receive, safe)
            return
        await self.app(scope, _replayed(body, receive), safe)

    def _answer(self, request: Request) -> Response | None:
        """The refusal, or the redirection that takes the token out of the address; None for a welcome request."""
        headers = request.headers
        if headers.get("host", "").lower() not in self.hosts:
            return _refusal(403, "This page is served to this machine alone, under its own address.")
        token = request.query_params.get("run", "")
        if request.method == "GET" and request.url.path == "/" and self._is_token(token):
            response = RedirectResponse("/", status_code=303)
            response.set_cookie(self.cookie, self.token, httponly=True, samesite="strict", path="/")
            return response
        if not self._is_token(request.cookies.get(self.cookie, "")):
            return _refusal(403, "Open the page with the address that stands at the terminal.")
        return None if request.method in READS else self._write_answer(headers)

    def _write_answer(self, headers: Headers) -> Response | None:
        origin = headers.get("origin")
        if origin is not None and origin.lower() not in {f"http://{host}" for host in self.hosts}:
            return _refusal(403, "This did not come from the review page.")
        if headers.get("sec-fetch-site", "same-origin") != "same-origin":
            return _refusal(403, "This did not come from the review page.")
        if not self._is_token(headers.get(HEADER, "")):
            return _refusal(
                403, "This page belongs to an earlier run. Load it again from the terminal's address."
            )
        if headers.get("content-type", "").partition(";")[0].strip().lower() != "application/json":
            return _refusal(415, "An edit is sent as JSON.")
        return None

    def _is_token(self, given: str) -> bool:
        return hmac.compare_digest(given.encode(), self.token.encode())


def _refusal(status: int, reason: str) -> Response:
    return PlainTextResponse(reason + "\n", status_code=status)


async def _body(receive: Receive) -> bytes | None:
    """The whole body of a request, None where it is longer than any edit."""
    data = b""
    while True:
        message = await receive()
        data += bytes(message.get("body", b""))
        if len(data) > LIMIT:
            return None
        if message["type"] != "http.request" or not message.get("more_body"):
            return data


def _replayed(body: bytes, receive: Receive) -> Receive:
    given = False

    async def replay() -> Message:
        nonlocal given
        if given:
            return await receive()
        given = True
        return {"type": "http.request", "body": body, "more_body": False}

    return replay


def _with_headers(send: Send) -> Send:
    async def sending(message: Message) -> None:
        if message["type"] == "http.response.start":
            there = {name.lower() for name, _ in message["headers"]}
            added = [pair for pair in SAFE if pair[0] not in there]
            message = {**message, "headers": [*message["headers"], *added]}
        await send(message)

    return sending
