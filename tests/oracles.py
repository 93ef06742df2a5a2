"""Libraries of the extra `oracle`: other people's ways to answers that ours are held against."""

import os
from types import ModuleType

import pytest

REQUIRED = "LINEPLAN_ORACLES_REQUIRED"


def oracle(name: str) -> ModuleType:
    """A library by its name; the file that asks is skipped without it, or fails where oracles are required."""
    try:
        return pytest.importorskip(name, reason=f"{name} is not installed: it comes with the extra 'oracle'")
    except pytest.skip.Exception as skipped:
        if os.environ.get(REQUIRED) == "1":
            raise ImportError(f"{skipped}, and {REQUIRED}=1 asks for it") from skipped
        raise
