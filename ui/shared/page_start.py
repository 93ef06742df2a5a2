"""What the page is told when it is started: by environment variables, for it runs in a process of its own."""

import os
from pathlib import Path

ADDRESS = "127.0.0.1"
"""Where the page listens: this machine alone."""

OWN_NAMES = (ADDRESS, "localhost")
"""The names it answers to."""

CATALOG_VARIABLE = "LINEPLAN_CATALOG"
"""Names the catalog files to open, joined like a PATH."""

JOB_VARIABLE = "LINEPLAN_JOB"
"""Names the job file to open first."""


BARE_VARIABLE = "LINEPLAN_BARE"
"""Says, with any word in it, that the catalog files stand for themselves instead of being laid over the starter."""


def page_environment(*, catalog: list[Path] | None, job: Path | None, is_bare: bool) -> dict[str, str]:
    """The environment to start the page in."""
    environment = dict(os.environ)
    if catalog:
        environment[CATALOG_VARIABLE] = os.pathsep.join(str(path.resolve()) for path in catalog)
    if is_bare:
        environment[BARE_VARIABLE] = "yes"
    if job is not None:
        environment[JOB_VARIABLE] = str(job.resolve())
    return environment


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
