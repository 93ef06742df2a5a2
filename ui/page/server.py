"""The server of the page, a process of its own: `server.py PORT`. It answers to the names of this machine only.

In the workshop's network it asks for the passphrase first.
"""

import gc
import sys
from contextlib import suppress
from importlib import import_module
from pathlib import Path
from pkgutil import iter_modules
from threading import Thread, main_thread
from typing import Any

import streamlit as st
from starlette.middleware import Middleware
from starlette.middleware.trustedhost import TrustedHostMiddleware

from catalog import CatalogError
from ui.page import forms, views
from ui.page.gate import Gate, OwnOrigins, Tries
from ui.page.looks import LOOKS
from ui.shared.catalog_choice import catalog_of_files
from ui.shared.page_start import (
    address_to_serve,
    catalog_to_start_with,
    is_open_to_network,
    names_to_answer,
    starts_bare,
)
from ui.shared.passphrase import kept_passphrase, passphrase_file

MOST_SENT_MB = 12
"""A photograph of a telephone; what is larger is refused in the browser."""


def serve(port: int) -> None:
    """Serve until the process is told to stop.

    Another site that has its name lead to this machine finds the page closed: it would read what the page shows.

    Source: DNS rebinding: C. Jackson and others, "Protecting browsers from DNS rebinding attacks", ACM CCS 2007; from
    memory.
    """
    names = names_to_answer()
    middleware = [
        Middleware(TrustedHostMiddleware, allowed_hosts=list(names), www_redirect=False),
        Middleware(OwnOrigins, names=names),
    ]
    if is_open_to_network():
        passphrase = kept_passphrase(passphrase_file())
        if passphrase is None:
            raise SystemExit("no passphrase is kept: start the page by `lineplan page --lan`, which asks for one")
        middleware.append(Middleware(Gate, kept=passphrase, tries=Tries()))
    Thread(target=_warm_up_unless_told_to_stop, daemon=True).start()
    st.App(Path(__file__).parent / "app.py", middleware=middleware).run(config=settings_of_page(port))


def _warm_up_unless_told_to_stop() -> None:
    """A library that is loaded while the process ends refuses, which is no fault of anything."""
    try:
        _warm_up()
    except RuntimeError:
        if main_thread().is_alive():
            raise


def _warm_up() -> None:
    """Load what the first window needs while nobody waits for it; what stays is not looked at as garbage again."""
    with suppress(ImportError):  # the page plans without a store too
        import_module("catalog.store")
    for package in (forms, views):
        for module in iter_modules(package.__path__, f"{package.__name__}."):
            import_module(module.name)
    with suppress(CatalogError):  # the page tells what is wrong with it
        catalog_of_files(catalog_to_start_with(), is_bare=starts_bare())
    gc.collect()
    gc.freeze()


def settings_of_page(port: int) -> dict[str, Any]:
    """How the server of the page is set.

    Garbage is left to Python, which looks for it when there is some: after each click Streamlit would look through all
    that is kept for all windows, which took longer than the page needs to answer.
    """
    address = address_to_serve()
    return {
        "server.address": address,
        "browser.serverAddress": address,
        "server.port": port,
        "server.headless": True,
        "server.fileWatcherType": "none",
        "browser.gatherUsageStats": False,
        "client.toolbarMode": "minimal",
        "runner.magicEnabled": False,
        "runner.postScriptGC": False,
        "server.maxUploadSize": MOST_SENT_MB,
        **LOOKS,
    }


if __name__ == "__main__":
    try:
        serve(int(sys.argv[1]))
    except KeyboardInterrupt:
        sys.exit(0)
