"""What the catalog or the planner refuses, told on the error stream, one problem a line."""

import sys
from collections.abc import Iterator
from contextlib import contextmanager

from catalog import CatalogError
from planner.errors import PlannerError
from ui.shared.exit_status import ExitStatus


@contextmanager
def refusals_as_sentences() -> Iterator[None]:
    """Turn a refusal into its sentences on the error stream and exit status 2."""
    try:
        yield
    except (CatalogError, PlannerError) as refusal:
        print(refusal, file=sys.stderr)
        sys.exit(ExitStatus.BAD_INPUT)
