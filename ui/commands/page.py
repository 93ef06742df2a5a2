"""`lineplan page`: the Streamlit page on this machine."""

import importlib.util
import os
import socket
import subprocess
import sys
from pathlib import Path

from ui.shared.exit_status import ExitStatus
from ui.shared.page_start import ADDRESS, page_environment
from ui.shared.printable_stream import open_to_libraries

FIRST_PORT = 8501


def run_page(*, port: int | None, catalog: list[Path] | None, job: Path | None = None, is_bare: bool = False) -> int:
    """Serve the page until it is stopped; returns the exit status."""
    if importlib.util.find_spec("streamlit") is None:
        print("the page needs Streamlit; install with the extra 'ui': pip install -e '.[ui]'", file=sys.stderr)
        return ExitStatus.BAD_INPUT
    chosen = _first_free_port() if port is None else port
    environment = page_environment(catalog=catalog, job=job, is_bare=is_bare)
    print(f"The page opens at http://{ADDRESS}:{chosen} (stop it with Ctrl+C).", flush=True)
    server = str(Path(__file__).parents[1] / "page" / "server.py")
    return _become([sys.executable, "-P", server, str(chosen)], environment)


def _become(command: list[str], environment: dict[str, str]) -> int:
    """Go on as another program, so that whoever ends this one ends that one; where there is no such thing, wait."""
    open_to_libraries()
    if os.name == "posix":
        sys.stderr.flush()
        os.execve(command[0], command, environment)
    try:
        return subprocess.call(command, env=environment)
    except KeyboardInterrupt:
        return ExitStatus.DONE


def _first_free_port() -> int:
    for port in range(FIRST_PORT, FIRST_PORT + 100):
        with socket.socket() as probe:
            if probe.connect_ex((ADDRESS, port)) != 0:
                return port
    return FIRST_PORT
