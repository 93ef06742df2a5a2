"""`lineplan page`: the Streamlit page on this machine, or in the workshop's network behind a passphrase."""

import getpass
import importlib.util
import os
import socket
import subprocess
import sys
from dataclasses import dataclass
from pathlib import Path

from ui.reports.refusals import refusals_as_sentences
from ui.shared.command_refused import CommandRefused
from ui.shared.exit_status import ExitStatus
from ui.shared.page_start import ADDRESS, own_lan_address, page_environment
from ui.shared.passphrase import FEWEST_SIGNS, keep_passphrase, kept_passphrase, passphrase_file
from ui.shared.printable_stream import open_to_libraries

FIRST_PORT = 8501


@dataclass(frozen=True, slots=True, kw_only=True)
class PageQuestion:
    """How the page is to be served.

    port : None for the first free one
    catalog, is_bare : files to work with, over the starter or alone
    store : where it keeps what is typed; "" for the usual place
    job : opened first; None for none
    is_lan : whether the workshop's network may reach it
    address : this machine's address there; "" to find it
    changes_passphrase : whether a new passphrase is asked for though one is kept
    """

    port: int | None = None
    catalog: list[Path] | None = None
    is_bare: bool = False
    store: str = ""
    job: Path | None = None
    is_lan: bool = False
    address: str = ""
    changes_passphrase: bool = False


def run_page(question: PageQuestion) -> int:
    """Serve the page until it is stopped; returns the exit status."""
    if importlib.util.find_spec("streamlit") is None:
        print("the page needs Streamlit; install with the extra 'ui': pip install -e '.[ui]'", file=sys.stderr)
        return ExitStatus.BAD_INPUT
    with refusals_as_sentences():
        lan_address = _lan_address(question)
    address = lan_address or ADDRESS
    chosen = _first_free_port(address) if question.port is None else question.port
    environment = page_environment(
        catalog=question.catalog,
        job=question.job,
        is_bare=question.is_bare,
        store=question.store,
        lan_address=lan_address,
    )
    print(f"The page opens at http://{address}:{chosen} (stop it with Ctrl+C).", flush=True)
    if lan_address:
        print(
            "It asks for the passphrase, but plain http can be read along in this network: beyond your own, put a proxy"
            " with https (TLS) before it.",
            flush=True,
        )
    server = str(Path(__file__).parents[1] / "page" / "server.py")
    return _become([sys.executable, "-P", server, str(chosen)], environment)


def refuse_mixed(question: PageQuestion) -> None:
    """What belongs to the workshop's network goes with --lan only."""
    for option, given in (("address", question.address), ("new-passphrase", question.changes_passphrase)):
        if given and not question.is_lan:
            raise _refused(option, "given without --lan", "together with --lan")


def _lan_address(question: PageQuestion) -> str:
    """The address in the workshop's network, once there is a passphrase; "" where only this machine is served."""
    refuse_mixed(question)
    if not question.is_lan:
        return ""
    address = question.address or own_lan_address()
    if not address:
        raise _refused("lan", "this machine has no address in a network", "--address with the one it has")
    try:
        is_kept = kept_passphrase(passphrase_file()) is not None
    except ValueError as problem:
        if not question.changes_passphrase:
            raise _refused("lan", str(problem), "--new-passphrase") from problem
        is_kept = False
    if question.changes_passphrase or not is_kept:
        _ask_passphrase()
    return address


def _ask_passphrase() -> None:
    """Type it twice, unseen; where nobody is there to type, that is said."""
    if not sys.stdin.isatty():
        given = "no passphrase is kept, and nobody is there to type one"
        raise _refused("lan", given, f"started once by hand, to type one of {FEWEST_SIGNS} characters or more")
    words = getpass.getpass(f"A passphrase for the workshop, {FEWEST_SIGNS} characters or more: ")
    if words != getpass.getpass("The same again: "):
        raise _refused("lan", "two different passphrases were typed", "the same twice")
    try:
        keep_passphrase(words, file=passphrase_file())
    except (ValueError, OSError) as problem:
        raise _refused("lan", str(problem), "another passphrase, and a folder that may be written") from problem


def _refused(option: str, given: str, allowed: str) -> CommandRefused:
    return CommandRefused(command="page", option=option, given=given, allowed=allowed)


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


def _first_free_port(address: str) -> int:
    for port in range(FIRST_PORT, FIRST_PORT + 100):
        with socket.socket() as probe:
            if probe.connect_ex((address, port)) != 0:
                return port
    return FIRST_PORT
