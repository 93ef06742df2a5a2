"""Who may reach the page: other sites never, and in the workshop's network only who has typed the passphrase."""

import time
from collections import deque
from collections.abc import Callable, Collection
from html import escape
from typing import Any
from urllib.parse import parse_qs, quote, urlsplit

from starlette.concurrency import run_in_threadpool
from starlette.requests import HTTPConnection, Request
from starlette.responses import HTMLResponse, RedirectResponse, Response

from ui.shared.passphrase import KeptPassphrase, is_right, is_signed, signed_until

COOKIE = "lineplan_in"
STANDS_S = 12 * 3600
"""A login lasts a working day."""

WRONG_A_MINUTE, WRONG_BY_ALL = 5, 30
"""So many wrong tries a minute from one address, and from all together."""

MOST_ADDRESSES, LONGEST_FORM = 1000, 4096
WAY_IN, WAY_OUT, HEALTH = "/in", "/out", "/_stcore/health"
_SAFE_HEADERS = {
    "Content-Security-Policy": "; ".join(
        ("default-src 'none'", "style-src 'unsafe-inline'", "form-action 'self'", "frame-ancestors 'none'")
    ),
    "Cache-Control": "no-store",
    "Referrer-Policy": "same-origin",  # with none at all the form would come from nowhere, and be refused
}


class OwnOrigins:
    """Refuses what a page of another site sends; the server behind would ask elsewhere who this machine is."""

    def __init__(self, app: Any, *, names: Collection[str]) -> None:
        self.app, self.names = app, frozenset(names)

    async def __call__(self, scope: Any, receive: Any, send: Any) -> None:
        """Pass on what comes from a page of ours, or from no page."""
        if scope["type"] in ("http", "websocket"):
            origin = HTTPConnection(scope).headers.get("origin")
            if origin is not None and _host_of(origin) not in self.names:
                await _refuse(scope, receive, send, status=403, words="not from this page")
                return
        await self.app(scope, receive, send)


class Tries:
    """Wrong tries of the last minute, by address and together; nothing of them outlives the server."""

    def __init__(self, clock: Callable[[], float] = time.monotonic) -> None:
        self.clock = clock
        self._by_address: dict[str, deque[float]] = {}
        self._all: deque[float] = deque()

    def may_try(self, address: str) -> bool:
        """Whether there is a try left."""
        since = self.clock() - 60
        mine = self._by_address.get(address, deque())
        for moments in (mine, self._all):
            while moments and moments[0] <= since:
                moments.popleft()
        return len(mine) < WRONG_A_MINUTE and len(self._all) < WRONG_BY_ALL

    def count(self, address: str) -> None:
        """One more wrong try; counted before it is known to be wrong, so that many at once are no way round."""
        if len(self._by_address) >= MOST_ADDRESSES:
            self._by_address = {one: moments for one, moments in self._by_address.items() if moments}
        self._by_address.setdefault(address, deque()).append(self.clock())
        self._all.append(self.clock())

    def forgive(self, address: str) -> None:
        """The try that was counted last was right."""
        for moments in (self._by_address.get(address), self._all):
            if moments:
                moments.pop()


class Gate:
    """Lets in who has typed the passphrase; a websocket without a login is closed, a page leads to the way in."""

    def __init__(self, app: Any, *, kept: KeptPassphrase, tries: Tries, clock: Callable[[], float] = time.time) -> None:
        self.app, self.kept, self.tries, self.clock = app, kept, tries, clock

    async def __call__(self, scope: Any, receive: Any, send: Any) -> None:
        """Pass on, ask, or refuse."""
        if scope["type"] not in ("http", "websocket"):
            await self.app(scope, receive, send)
            return
        asked = HTTPConnection(scope)
        path = asked.url.path
        if path == WAY_IN and scope["type"] == "http":
            await (await self._way_in(Request(scope, receive)))(scope, receive, send)
        elif path == WAY_OUT and scope["type"] == "http":
            gone = RedirectResponse(WAY_IN, 303)
            gone.delete_cookie(COOKIE)
            await gone(scope, receive, send)
        elif path == HEALTH or self._is_in(asked):
            await self.app(scope, receive, send)
        elif scope["type"] == "http" and scope["method"] == "GET" and not path.startswith("/_stcore"):
            to = path + (f"?{asked.url.query}" if asked.url.query else "")
            await RedirectResponse(f"{WAY_IN}?to={quote(to, safe='')}", 303)(scope, receive, send)
        else:
            await _refuse(scope, receive, send, status=401, words="the passphrase is wanted")

    def _is_in(self, asked: HTTPConnection) -> bool:
        login = asked.cookies.get(COOKIE, "")
        return is_signed(login, now_s=self.clock(), secret=self.kept.secret)

    async def _way_in(self, request: Request) -> Response:
        to = _own_path(request.query_params.get("to", "/"))
        if request.method != "POST":
            return _form(to)
        address = request.client.host if request.client else ""
        if not self.tries.may_try(address):
            return _form(to, words="Too many wrong tries: wait a minute.", status=429)
        self.tries.count(address)
        words = await _words_sent(request)
        if not await run_in_threadpool(is_right, words, self.kept):
            return _form(to, words="These are not the words.", status=401)
        self.tries.forgive(address)
        welcome = RedirectResponse(to, 303)
        login = signed_until(int(self.clock()) + STANDS_S, secret=self.kept.secret)
        is_https = request.url.scheme == "https"
        welcome.set_cookie(COOKIE, login, max_age=STANDS_S, httponly=True, samesite="strict", secure=is_https)
        return welcome


async def _words_sent(request: Request) -> str:
    """What was typed in the form; "" for anything else."""
    body = b""
    async for piece in request.stream():
        body += piece
        if len(body) > LONGEST_FORM:
            return ""
    return parse_qs(body.decode("utf-8", "replace"), keep_blank_values=True).get("words", [""])[0]


def _own_path(to: str) -> str:
    """A path of this page to go to; the first screen where another place is named."""
    is_own = to.startswith("/") and not to.startswith(("//", "/\\")) and to.isprintable() and "\\" not in to
    return to if is_own else "/"


def _host_of(origin: str) -> str:
    try:
        return urlsplit(origin).hostname or ""
    except ValueError:
        return ""


async def _refuse(scope: Any, receive: Any, send: Any, *, status: int, words: str) -> None:
    if scope["type"] == "websocket":
        await receive()
        await send({"type": "websocket.close", "code": 4000 + status})
        return
    await HTMLResponse(escape(words), status, headers=_SAFE_HEADERS)(scope, receive, send)


def _form(to: str, *, words: str = "", status: int = 200) -> Response:
    told = f'<p role="alert">{escape(words)}</p>' if words else ""
    page = _PAGE.format(told=told, action=escape(f"{WAY_IN}?to={quote(to, safe='')}", quote=True))
    return HTMLResponse(page, status, headers=_SAFE_HEADERS)


_PAGE = """<!doctype html>
<html lang="en"><head><meta charset="utf-8"><meta name="viewport" content="width=device-width, initial-scale=1">
<title>lineplan: passphrase</title><style>
:root {{ color-scheme: light dark; font: 1rem/1.5 system-ui, sans-serif; }}
body {{ max-width: 24rem; margin: 15vh auto 0; padding: 0 1rem; color: light-dark(#1d2126, #eef1f3);
  background: light-dark(#fff, #14181c); }}
input, button {{ font: inherit; width: 100%; min-height: 44px; box-sizing: border-box; margin-top: 0.5rem;
  border-radius: 6px; border: 1px solid light-dark(#6d7883, #8a949d); padding: 0 0.7rem; }}
button {{ background: light-dark(#0a5a9c, #6cb4f0); color: light-dark(#fff, #10151a); border: 0; }}
[role=alert] {{ color: light-dark(#8c1710, #ff9c94); }}
</style></head><body><main><h1>lineplan</h1>{told}
<form method="post" action="{action}"><label for="words">The workshop's passphrase</label>
<input id="words" name="words" type="password" autocomplete="current-password" required autofocus>
<button>Open the page</button></form></main></body></html>"""
