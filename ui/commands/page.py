"""`lineplan page`: the Streamlit page on this machine."""

import importlib.util
import os
import socket
import subprocess
import sys
from pathlib import Path

ADDRESS = "127.0.0.1"
FIRST_PORT = 8501
EXIT_BAD_INPUT = 2
CATALOG_VARIABLE = "LINEPLAN_CATALOG"
"""Environment variable that tells the page which catalog files to open, joined like a PATH."""

JOB_VARIABLE = "LINEPLAN_JOB"
"""Environment variable that tells the page which job file to open first."""


def run_page(*, port: int | None, catalog: list[Path] | None, job: Path | None = None) -> int:
    """Serve the page until it is stopped; returns the exit status."""
    if importlib.util.find_spec("streamlit") is None:
        print("the page needs Streamlit; install with the extra 'ui': pip install -e '.[ui]'", file=sys.stderr)
        return EXIT_BAD_INPUT
    chosen = _first_free_port() if port is None else port
    environment = dict(os.environ)
    if catalog:
        environment[CATALOG_VARIABLE] = os.pathsep.join(str(path.resolve()) for path in catalog)
    if job is not None:
        environment[JOB_VARIABLE] = str(job.resolve())
    print(f"The page opens at http://{ADDRESS}:{chosen} (stop it with Ctrl+C).", flush=True)
    try:
        return subprocess.call(_command(chosen), env=environment)
    except KeyboardInterrupt:
        return 0


def _command(port: int) -> list[str]:
    settings = {
        "server.address": ADDRESS,
        "server.port": str(port),
        "server.headless": "true",
        "server.fileWatcherType": "none",
        "browser.gatherUsageStats": "false",
        "client.toolbarMode": "minimal",
    }
    flags = [f"--{name}={value}" for name, value in settings.items()]
    return [sys.executable, "-m", "streamlit", "run", str(Path(__file__).parents[1] / "page" / "app.py"), *flags]


def _first_free_port() -> int:
    for port in range(FIRST_PORT, FIRST_PORT + 100):
        with socket.socket() as probe:
            if probe.connect_ex((ADDRESS, port)) != 0:
                return port
    return FIRST_PORT
