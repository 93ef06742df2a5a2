"""No command waits for libraries that it does not use: asked of what is loaded when it has ended, never of the time."""

import json
import subprocess
import sys
from pathlib import Path

import pytest

from tests.ui.shop_samples import CATALOG, DEMO, TRAIL, done

TOLD = "; import sys, json; print(json.dumps(sorted(sys.modules)), file=sys.stderr)"
RUN = f"import atexit\nfrom ui.terminal import main\natexit.register(lambda: exec({TOLD.strip('; ')!r}))\nmain()"

SEARCH = {"networkx", "scipy", "shapely"}
PAPER = {"svglib", "reportlab"}
DATABASE = {"sqlalchemy", "sqlmodel", "alembic"}
READING = {"yaml", "pydantic", "catalog.catalog_file", "catalog.yaml_nodes", "catalog.open_catalog", "catalog.open_job"}
SEVERAL_LINES = {"planner.whole_bike.visit_builder", "planner.documents.drawings.svg", "planner.plan.ways_out"}
NUMBERS = {"numpy", "planner.plan.plan_builder", "planner.geometry.packing.search"}


def loaded_by(*words: object, folder: Path) -> set[str]:
    """Every module that is loaded when a command has ended well."""
    command = [sys.executable, "-c", RUN, *map(str, words)]
    run = subprocess.run(command, capture_output=True, text=True, cwd=folder, check=False)
    assert run.returncode == 0, run.stderr
    return set(json.loads(run.stderr.splitlines()[-1]))


@pytest.mark.parametrize(
    ("words", "left_out"),
    [
        (("--help",), NUMBERS | SEARCH | PAPER | DATABASE | READING | {"planner.parts", "rich"}),
        (("fit", "--opening", "round 12", "--item", "5"), SEARCH | PAPER | DATABASE | READING | SEVERAL_LINES),
        (("check", DEMO / "trail.frame.yaml"), SEARCH | PAPER | DATABASE | {"rich"}),
        (("plan", TRAIL, *CATALOG), SEARCH | PAPER | DATABASE | READING | SEVERAL_LINES),
        (("plan", TRAIL, *CATALOG, "--json"), SEARCH | PAPER | DATABASE | READING | SEVERAL_LINES | {"rich"}),
    ],
    ids=lambda words: words[0] if isinstance(words, tuple) else "",
)
def test_a_command_loads_what_it_uses(words: tuple[object, ...], left_out: set[str], tmp_path: Path) -> None:
    if words[0] in ("fit", "plan"):
        loaded_by(*words, folder=tmp_path)  # what it reads is kept by this, and found by the next
    assert loaded_by(*words, folder=tmp_path) & left_out == set()


def test_telling_what_is_kept_loads_nothing_that_changes_tables_or_plans(tmp_path: Path) -> None:
    store = tmp_path / "kept.sqlite"
    done("save", TRAIL, *CATALOG, "--store", store, "--by", "Mira")
    loaded = loaded_by("jobs", "--store", store, folder=tmp_path)
    assert loaded & (NUMBERS | SEARCH | PAPER | READING - {"pydantic"} | {"alembic"}) == set()
    assert "sqlmodel" in loaded
