"""What the page is told when it is started: by environment variables, for it runs in a process of its own."""

import os
import socket
from pathlib import Path

from ui.shared.store_place import STORE_VARIABLE

ADDRESS = "127.0.0.1"
"""Where the page listens: this machine alone."""

OWN_NAMES = (ADDRESS, "localhost")
"""The names it answers to."""

LAN_VARIABLE = "LINEPLAN_LAN"
"""Names the address at which the workshop's network reaches the page; without it only this machine does."""

CATALOG_VARIABLE = "LINEPLAN_CATALOG"
"""Names the catalog files to open, joined like a PATH."""

JOB_VARIABLE = "LINEPLAN_JOB"
"""Names the job file to open first."""


BARE_VARIABLE = "LINEPLAN_BARE"
"""Says, with any word in it, that the catalog files stand for themselves instead of being laid over the starter."""


def page_environment(
    *, catalog: list[Path] | None, job: Path | None, is_bare: bool, store: str = "", lan_address: str = ""
) -> dict[str, str]:
    """The environment to start the page in.

    store : where it keeps what is typed; "" for the usual place
    lan_address : where the workshop's network reaches it; "" for this machine alone
    """
    environment = {name: value for name, value in os.environ.items() if name != LAN_VARIABLE}
    if store:
        environment[STORE_VARIABLE] = store
    if lan_address:
        environment[LAN_VARIABLE] = lan_address
    if catalog:
        environment[CATALOG_VARIABLE] = os.pathsep.join(str(path.resolve()) for path in catalog)
    if is_bare:
        environment[BARE_VARIABLE] = "yes"
    if job is not None:
        environment[JOB_VARIABLE] = str(job.resolve())
    return environment


def is_open_to_network() -> bool:
    """Whether the workshop's network may reach the page, so that it must ask for the passphrase."""
    return bool(os.environ.get(LAN_VARIABLE))


def address_to_serve() -> str:
    """Where the page listens."""
    return os.environ.get(LAN_VARIABLE, "") or ADDRESS


def names_to_answer() -> tuple[str, ...]:
    """The names the page answers to: this machine's own, and in the workshop's network its address and name there."""
    lan = os.environ.get(LAN_VARIABLE, "")
    name = socket.gethostname().lower()
    return OWN_NAMES if not lan else tuple(dict.fromkeys((*OWN_NAMES, lan, name, f"{name}.local")))


def own_lan_address() -> str:
    """The address this machine has in its network; "" where it has none. Nothing is sent to find it.

    Source: RFC 5737, "IPv4 Address Blocks Reserved for Documentation", 2010: nobody is at the address named.
    """
    with socket.socket(socket.AF_INET, socket.SOCK_DGRAM) as probe:
        try:
            probe.connect(("192.0.2.1", 9))
        except OSError:
            return ""
        return str(probe.getsockname()[0])


def catalog_to_start_with() -> tuple[Path, ...]:
    """The catalog files the page was started with; none for the starter catalog."""
    named = os.environ.get(CATALOG_VARIABLE, "")
    return tuple(Path(part) for part in named.split(os.pathsep) if part)


def starts_bare() -> bool:
    """Whether catalog files on the page stand for themselves."""
    return bool(os.environ.get(BARE_VARIABLE))


def job_to_start_with() -> Path | None:
    """The job file the page was started with."""
    named = os.environ.get(JOB_VARIABLE, "")
    return Path(named) if named else None
