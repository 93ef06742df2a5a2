"""`lineplan page`: the Streamlit page on this machine."""

import importlib.util
import socket
import subprocess
import sys
from pathlib import Path

from ui.shared.exit_status import ExitStatus
from ui.shared.page_start import page_environment

ADDRESS = "127.0.0.1"
FIRST_PORT = 8501


def run_page(*, port: int | None, catalog: list[Path] | None, job: Path | None = None) -> int:
    """Serve the page until it is stopped; returns the exit status."""
    if importlib.util.find_spec("streamlit") is None:
        print("the page needs Streamlit; install with the extra 'ui': pip install -e '.[ui]'", file=sys.stderr)
        return ExitStatus.BAD_INPUT
    chosen = _first_free_port() if port is None else port
    environment = page_environment(catalog=catalog, job=job)
    print(f"The page opens at http://{ADDRESS}:{chosen} (stop it with Ctrl+C).", flush=True)
    try:
        return subprocess.call(_command(chosen), env=environment)
    except KeyboardInterrupt:
        return ExitStatus.DONE


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
