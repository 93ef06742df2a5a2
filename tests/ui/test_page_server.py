"""The page's server: it answers to its own names, and ends with the command that started it."""

import os
import signal
import socket
import subprocess
import sys
from collections.abc import Iterator
from http.client import HTTPConnection, HTTPException
from time import monotonic, sleep

import pytest
from streamlit.config import get_config_options

from ui.page.server import settings_of_page
from ui.shared.page_start import ADDRESS

STARTS_WITHIN_S = 120
ENDS_WITHIN_S = 30


def free_port() -> int:
    with socket.socket() as probe:
        probe.bind((ADDRESS, 0))
        return int(probe.getsockname()[1])


def status_for(port: int, host: str, path: str = "/") -> int:
    asking = HTTPConnection(ADDRESS, port, timeout=10)
    try:
        asking.putrequest("GET", path, skip_host=True)
        asking.putheader("Host", host)
        asking.endheaders()
        return asking.getresponse().status
    finally:
        asking.close()


def is_open(port: int) -> bool:
    with socket.socket() as probe:
        return probe.connect_ex((ADDRESS, port)) == 0


@pytest.fixture
def page() -> Iterator[tuple[subprocess.Popen[bytes], int]]:
    port = free_port()
    code = f"import sys; sys.argv = ['lineplan', 'page', '--port', '{port}']; from ui.terminal import main; main()"
    running = subprocess.Popen([sys.executable, "-c", code], stdout=subprocess.PIPE, stderr=subprocess.STDOUT)
    try:
        begun = monotonic()
        while True:
            try:
                if status_for(port, f"{ADDRESS}:{port}", "/_stcore/health") == 200:
                    break
            except (OSError, HTTPException):
                assert running.poll() is None, running.communicate()[0].decode()
            assert monotonic() - begun < STARTS_WITHIN_S
            sleep(0.2)
        yield running, port
    finally:
        running.kill()
        running.communicate()


def test_every_setting_of_the_page_is_known_and_nothing_is_looked_through_after_each_click() -> None:
    settings = settings_of_page(8501)
    assert settings.keys() <= get_config_options(force_reparse=False).keys()
    assert settings["runner.postScriptGC"] is False


def test_the_page_answers_to_its_own_names_and_ends_when_told_to(page: tuple[subprocess.Popen[bytes], int]) -> None:
    running, port = page
    assert [status_for(port, f"{name}:{port}") for name in (ADDRESS, "localhost")] == [200, 200]
    strangers = ("evil.invalid", f"evil.invalid:{port}", "127.0.0.1.evil.invalid", "localhost.evil.invalid", "")
    for name in strangers:
        assert [status_for(port, name, path) for path in ("/", "/_stcore/health", "/_stcore/stream")] == [400] * 3
    os.kill(running.pid, signal.SIGTERM)
    running.wait(ENDS_WITHIN_S)
    assert not is_open(port)


def test_ctrl_c_ends_the_page_without_a_complaint(page: tuple[subprocess.Popen[bytes], int]) -> None:
    running, port = page
    os.kill(running.pid, signal.SIGINT)
    printed = running.communicate(timeout=ENDS_WITHIN_S)[0].decode()
    assert "Traceback" not in printed
    assert f"http://{ADDRESS}:{port}" in printed
    assert not is_open(port)
