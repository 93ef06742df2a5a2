"""Rows of tests/published_values say who says so: nothing is called published that nobody can look up again."""

import csv
import re
from datetime import date
from pathlib import Path

import pytest

VALUES = Path(__file__).parents[1] / "published_values"
KINDS = {
    "published": "read in a source that is not ours: source, locator and day",
    "library": "computed by other people's code: its version",
    "from_memory": "known to be somewhere, but not read for this",
    "hand_worked": "on paper, from a formula or from a definition",
    "brute_force": "by a slower way of ours",
    "simulation": "drawn at random",
    "common_practice": "the trade's custom; no source",
}
TABLES = sorted(VALUES.glob("*.csv"))


def rows_of(path: Path) -> list[dict[str, str]]:
    with path.open(encoding="utf-8", newline="") as file:
        return list(csv.DictReader(file))


def complaint(row: dict[str, str]) -> str | None:
    kind = row.get("kind") or ""
    if kind not in KINDS:
        return f"kind {kind!r}"
    if None in row or any(value is None for value in row.values()):
        return "more or fewer fields than the heading"
    if not row["source"]:
        return "no source"
    if kind == "published":
        if not row["locator"]:
            return "published, without a locator"
        date.fromisoformat(row["read_on"])
        return "published, but from memory" if "from memory" in " ".join(map(str, row.values())) else None
    if row["read_on"]:
        return f"read on a day, yet {kind}"
    if kind == "library" and not re.search(r"\d+\.\d+", row["source"]):
        return "a library without its version"
    if kind == "from_memory" and "from memory" not in row["source"] + row["locator"]:
        return "from memory, but does not say so"
    return None


@pytest.mark.parametrize("path", TABLES, ids=lambda path: path.name)
def test_every_row_says_where_it_is_from(path: Path) -> None:
    rows = rows_of(path)
    assert rows
    told = {row.get("case") or row.get("gauge"): complaint(row) for row in rows}
    assert {case: why for case, why in told.items() if why} == {}


@pytest.mark.parametrize("path", TABLES, ids=lambda path: path.name)
def test_every_table_is_read_by_a_test(path: Path) -> None:
    texts = (each.read_text(encoding="utf-8") for each in VALUES.parent.rglob("test_*.py"))
    assert any(path.name in text for text in texts)
