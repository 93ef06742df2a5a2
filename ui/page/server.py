"""The server of the page, a process of its own: `server.py PORT`. It answers to the names of this machine only."""

import sys
from pathlib import Path

import streamlit as st
from starlette.middleware import Middleware
from starlette.middleware.trustedhost import TrustedHostMiddleware

from ui.page.looks import LOOKS
from ui.shared.page_start import ADDRESS, OWN_NAMES

MOST_SENT_MB = 12
"""A photograph of a telephone; what is larger is refused in the browser."""


def serve(port: int) -> None:
    """Serve until the process is told to stop.

    Another site that has its name lead to this machine finds the page closed: it would read what the page shows.

    Source: DNS rebinding: C. Jackson and others, "Protecting browsers from DNS rebinding attacks", ACM CCS 2007; from
    memory.
    """
    own_names = Middleware(TrustedHostMiddleware, allowed_hosts=list(OWN_NAMES), www_redirect=False)
    settings = {
        "server.address": ADDRESS,
        "server.port": port,
        "server.headless": True,
        "server.fileWatcherType": "none",
        "browser.gatherUsageStats": False,
        "client.toolbarMode": "minimal",
        "server.maxUploadSize": MOST_SENT_MB,
        **LOOKS,
    }
    st.App(Path(__file__).parent / "app.py", middleware=[own_names]).run(config=settings)


if __name__ == "__main__":
    try:
        serve(int(sys.argv[1]))
    except KeyboardInterrupt:
        sys.exit(0)
