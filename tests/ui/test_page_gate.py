"""Who may reach the page: other sites never, the network only with the passphrase, and only for a while."""

import asyncio
import os
import stat
from collections.abc import Callable
from concurrent.futures import ThreadPoolExecutor
from pathlib import Path
from typing import Any
from urllib.parse import quote

import pytest
import typer

from tests.ui.shop_samples import refused
from ui.commands.page_commands import add_page_commands
from ui.page.gate import COOKIE, STANDS_S, WRONG_A_MINUTE, WRONG_BY_ALL, Gate, OwnOrigins, Tries
from ui.shared.page_start import names_to_answer
from ui.shared.passphrase import (
    FEWEST_SIGNS,
    KeptPassphrase,
    is_right,
    is_signed,
    keep_passphrase,
    kept_passphrase,
    passphrase_file,
    signed_until,
)

WORDS = "three small olives"


@pytest.fixture(scope="module")
def kept(tmp_path_factory: pytest.TempPathFactory) -> KeptPassphrase:
    return keep_passphrase(WORDS, file=tmp_path_factory.mktemp("words") / "page.json")


class Asked:
    """A gate asked without a network: what came back, and whether the page behind was reached."""

    def __init__(self, make: Callable[[Any], Any]) -> None:
        self.reached = 0
        self.gate = make(self._page)

    async def _page(self, _scope: Any, _receive: Any, send: Any) -> None:
        self.reached += 1
        await send({"type": "http.response.start", "status": 200, "headers": []})
        await send({"type": "http.response.body", "body": b"the page"})

    def __call__(
        self, path: str = "/", *, method: str = "GET", kind: str = "http", words: str = "", address: str = "10.0.0.9",
        **headers: str,
    ) -> tuple[int, dict[str, str]]:  # fmt: skip
        bare, _, query = path.partition("?")
        sent: list[dict[str, Any]] = []
        body = f"words={quote(words)}".encode()
        scope = {
            "type": kind,
            "method": method,
            "path": bare,
            "raw_path": bare.encode(),
            "root_path": "",
            "query_string": query.encode(),
            "scheme": "http" if kind == "http" else "ws",
            "server": ("10.0.0.5", 8501),
            "client": (address, 50000),
            "headers": [
                (name.encode(), value.encode()) for name, value in {"host": "10.0.0.5:8501", **headers}.items()
            ],
        }

        async def receive() -> dict[str, Any]:
            return {"type": "http.request", "body": body, "more_body": False}

        async def send(message: dict[str, Any]) -> None:
            sent.append(message)

        with ThreadPoolExecutor(1) as beside:  # in a thread of its own: a browser's walk leaves a loop in this one
            beside.submit(lambda: asyncio.run(self.gate(scope, receive, send))).result()
        first = sent[0]
        told = {name.decode(): value.decode() for name, value in first.get("headers", ())}
        return int(first.get("status", first.get("code", 0))), told


def _gate(kept: KeptPassphrase, **changes: Any) -> Asked:
    return Asked(lambda app: Gate(app, kept=kept, **{"tries": Tries(), **changes}))


def _login(told: dict[str, str]) -> str:
    return told["set-cookie"].split(";")[0]


def test_without_a_login_a_page_leads_to_the_way_in_and_nothing_else_is_answered(kept: KeptPassphrase) -> None:
    asked = _gate(kept)
    assert asked("/jobs?job=a b")[1]["location"] == "/in?to=%2Fjobs%3Fjob%3Da%20b"
    assert asked("/_stcore/stream", kind="websocket")[0] == 4401
    for path, method in (("/_stcore/upload_file/x", "PUT"), ("/_stcore/host-config", "GET"), ("/", "POST")):
        assert asked(path, method=method)[0] == 401
    assert asked("/in")[0] == 200
    assert asked.reached == 0
    assert asked("/_stcore/health")[0] == 200


def test_the_right_words_open_it_until_the_login_ends(kept: KeptPassphrase) -> None:
    now = [1_000_000.0]
    asked = _gate(kept, clock=lambda: now[0])
    status, told = asked("/in?to=%2Fjobs", method="POST", words=WORDS)
    assert (status, told["location"]) == (303, "/jobs")
    assert {"HttpOnly", "SameSite=strict", f"Max-Age={STANDS_S}"} <= set(told["set-cookie"].split("; "))
    cookie = _login(told)
    assert WORDS not in cookie
    assert asked("/", cookie=cookie)[0] == 200
    assert asked("/_stcore/stream", kind="websocket", cookie=cookie)[0] == 200
    now[0] += STANDS_S
    assert asked("/", cookie=cookie)[0] == 303


@pytest.mark.parametrize("login", ["", "x", "9999999999.", "9999999999.00", "9999999999", "é.é", "-1.ab"])
def test_a_login_that_is_not_ours_opens_nothing(login: str, kept: KeptPassphrase) -> None:
    asked = _gate(kept)
    header = {"cookie": f"{COOKIE}={login}"} if login.isascii() else {}
    assert asked("/", **header)[0] == 303
    assert not is_signed(login, now_s=0.0, secret=kept.secret)
    assert is_signed(signed_until(5, secret=kept.secret), now_s=4.9, secret=kept.secret)
    assert not is_signed(signed_until(5, secret="00" * 32), now_s=4.9, secret=kept.secret)


def test_wrong_words_are_told_and_limited_by_address_and_together(kept: KeptPassphrase) -> None:
    now = [0.0]
    asked = _gate(kept, tries=Tries(lambda: now[0]))
    for _ in range(WRONG_A_MINUTE):
        assert asked("/in", method="POST", words="wrong words")[0] == 401
    assert asked("/in", method="POST", words=WORDS)[0] == 429, "the right words too: else they could be guessed on"
    assert asked("/in", method="POST", words=WORDS, address="10.0.0.10")[0] == 303, "others are not kept out"
    now[0] += 61
    assert asked("/in", method="POST", words=WORDS)[0] == 303
    tries = Tries(lambda: now[0])
    for n in range(WRONG_BY_ALL):
        tries.count(f"10.0.1.{n}")
    assert not tries.may_try("10.0.2.1")


def test_right_words_use_up_no_try(kept: KeptPassphrase) -> None:
    asked = _gate(kept)
    for _ in range(WRONG_A_MINUTE + 2):
        assert asked("/in", method="POST", words=WORDS)[0] == 303


@pytest.mark.parametrize("to", ["//evil.invalid", "/\\evil.invalid", "http://evil.invalid", "evil", "/a\r\nb", "/\\/e"])
def test_the_way_in_leads_to_no_other_site(to: str, kept: KeptPassphrase) -> None:
    status, told = _gate(kept)(f"/in?to={quote(to, safe='')}", method="POST", words=WORDS)
    assert (status, told["location"]) == (303, "/")


def test_what_another_site_sends_is_refused_before_anything_is_asked() -> None:
    asked = Asked(lambda app: OwnOrigins(app, names=("127.0.0.1", "localhost")))
    assert asked(origin="http://evil.invalid")[0] == 403
    assert asked(kind="websocket", origin="http://evil.invalid")[0] == 4403
    assert asked(kind="websocket", origin="null")[0] == 4403
    assert asked.reached == 0
    assert asked(kind="websocket", origin="http://127.0.0.1:8501")[0] == 200
    assert asked()[0] == 200


def test_only_the_hash_of_the_words_is_kept_and_for_nobody_elses_eyes(tmp_path: Path) -> None:
    file = tmp_path / "new" / "page.json"
    first = keep_passphrase(WORDS, file=file)
    assert WORDS not in file.read_text(encoding="utf-8")
    assert stat.S_IMODE(os.stat(file).st_mode) == 0o600
    assert kept_passphrase(file) == first
    assert (is_right(WORDS, first), is_right("other words", first), is_right("x" * 10_000, first)) == (
        True,
        False,
        False,
    )
    second = keep_passphrase(WORDS, file=file)
    assert (second.secret != first.secret, second.hash != first.hash) == (True, True), "older logins end"
    with pytest.raises(ValueError, match="7 characters were given; 8 to 200"):
        keep_passphrase("x" * (FEWEST_SIGNS - 1), file=file)
    file.write_text("[]", encoding="utf-8")
    with pytest.raises(ValueError, match="does not read as it was written"):
        kept_passphrase(file)


def test_without_a_passphrase_the_network_is_not_let_in(monkeypatch: pytest.MonkeyPatch) -> None:
    assert not passphrase_file().exists()
    told = refused("page", "--lan", "--address", "127.0.0.1")
    assert "page > lan: no passphrase is kept" in told
    assert "page > address: given without --lan" in refused("page", "--address", "10.0.0.5")
    assert "page > new-passphrase: given without --lan" in refused("demo", "--new-passphrase")
    monkeypatch.delenv("LINEPLAN_LAN", raising=False)
    assert names_to_answer() == ("127.0.0.1", "localhost")
    monkeypatch.setenv("LINEPLAN_LAN", "10.0.0.5")
    assert {"127.0.0.1", "localhost", "10.0.0.5"} <= set(names_to_answer())


def test_every_command_that_opens_the_page_takes_the_same_options() -> None:
    """They were told twice, once for each command."""
    app = typer.Typer()
    add_page_commands(app)
    commands = typer.main.get_command(app).commands  # type: ignore[attr-defined]
    options = {
        name: [one.opts for one in command.params if one.opts[0] != "--page"] for name, command in commands.items()
    }
    assert options["demo"] == [["job"], *options["page"]]
    assert {"--port", "--catalog", "--bare", "--store", "--lan", "--address", "--new-passphrase"} == {
        opts[0] for opts in options["page"]
    }
