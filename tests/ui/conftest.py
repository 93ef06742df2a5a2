"""A store filled once for the tests of the shop's commands; the running program put back after a page was tried."""

import os
import shutil
import sys
from collections.abc import Iterator
from pathlib import Path

import pytest

from tests.ui.shop_samples import CATALOG, TRAIL, done


@pytest.fixture(scope="session")
def kept_once(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """A store with the starter catalog, the demo frames, and the trail job with its plan."""
    path = tmp_path_factory.mktemp("shop") / "kept.sqlite"
    done("save", TRAIL, *CATALOG, "--store", path, "--by", "Mira", "--for", "Ana")
    return path


@pytest.fixture
def store(kept_once: Path, tmp_path: Path) -> Path:
    """A copy of that store."""
    return Path(shutil.copy(kept_once, tmp_path / "shop.sqlite"))


@pytest.fixture(scope="session", autouse=True)
def nothing_of_the_user_is_touched(tmp_path_factory: pytest.TempPathFactory) -> Iterator[None]:
    """The page keeps what is typed among the user's own data; under test that is a folder of the test's."""
    before = os.environ.get("XDG_DATA_HOME")
    os.environ["XDG_DATA_HOME"] = str(tmp_path_factory.mktemp("data"))
    yield
    if before is None:
        del os.environ["XDG_DATA_HOME"]
    else:
        os.environ["XDG_DATA_HOME"] = before


@pytest.fixture(autouse=True)
def the_program_that_runs_stays_itself() -> Iterator[None]:
    """A page under test puts its script in the place of the running program; processes started later would run that."""
    running = sys.modules["__main__"]
    yield
    sys.modules["__main__"] = running
