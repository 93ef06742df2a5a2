"""A job of several lines in the store: saved, told as it was planned, quoted with states, and cut."""

import json
from pathlib import Path
from shutil import copy

import pytest

from tests.ui.shop_samples import DAY, DEMO, done, flat, lineplan, refused

FRAME = DEMO / "hardtail-wide.frame.yaml"
CATALOG = ("-c", FRAME)
TWO = """\
format: 1
job:
  id: two
  title: Hose and wire
  frame: dorrimel-120
  lines:
    - id: brake
      from: bar-right
      to: caliper-rear
      old: {line: hose-50x23, through: [shared-neck, bb-window, stay-exit]}
      new: {line: hose-55x25, supplied_length: 900}
    - {id: out, from: shifter-right, to: derailleur-rear, new: none,
       old: {line: gear-housing-50, through: [shared-neck, bb-window-right, stay-exit-right]}}
    - {id: lamp, from: bar-right, to: caliper-rear, old: none, new: {line: hose-50x21},
       through: [shared-neck, bb-window, stay-exit]}
"""


@pytest.fixture(scope="module")
def kept(tmp_path_factory: pytest.TempPathFactory) -> tuple[Path, Path]:
    """A store with a visit in it, and the file it was read from."""
    folder = tmp_path_factory.mktemp("kept")
    job, store = folder / "two.visit.yaml", folder / "shop.sqlite"
    job.write_text(TWO.replace("900", "1700"), encoding="utf-8")
    told = done("save", job, *CATALOG, "--store", store, "--by", "Mira")
    assert "It fits" in told
    assert "job two (version 1), plan 1." in told
    return store, job


@pytest.fixture
def store(kept: tuple[Path, Path], tmp_path: Path) -> Path:
    """A copy of that store."""
    return Path(copy(kept[0], tmp_path / "shop.sqlite"))


def test_a_saved_visit_is_told_as_it_was_kept(kept: tuple[Path, Path], store: Path) -> None:
    from_file = json.loads(done("plan", kept[1], *CATALOG, "--json"))
    assert json.loads(done("plan", "two", "--store", store, "--json")) == from_file
    told = flat(done("jobs", "two", "--store", store))
    assert "1 1 ~ tight" in told
    assert "nothing wrong found" in done("check", "two", "--store", store)


def test_saving_it_again_keeps_nothing_twice_and_another_word_asks_for_the_version(
    kept: tuple[Path, Path], store: Path, tmp_path: Path
) -> None:
    save = ("--store", store, "--by", "Mira")
    assert "job two (version 1, unchanged), plan 1, the same as before." in done("save", "two", *save)
    other = tmp_path / "other.visit.yaml"
    other.write_text(kept[1].read_text(encoding="utf-8").replace("Hose and wire", "Another day"), encoding="utf-8")
    assert "the store has version 1" in refused("save", other, *save)
    assert "job two (version 2), plan 2." in done("save", other, *save, "--over", "1")
    assert "all as they were saved" in done("store", "check", "--store", store)


def test_its_quote_is_kept_and_goes_through_its_states(store: Path) -> None:
    asked = ("--store", store, "--by", "Mira")
    first = json.loads(done("quote", "two", "--save", *DAY, *asked, "--json"))
    assert (first["number"], first["state"]) == ("1", "drafted")
    shown = json.loads(done("quote", "two", *DAY, *asked, "--json"))
    assert [shown[field] for field in ("lines", "total")] == [first[field] for field in ("lines", "total")]
    for state in ("handed_over", "agreed"):
        told = json.loads(done("quote", "--number", 1, "--move", state, "--though-old", *asked, "--json"))
        assert told["total"] == first["total"]


def test_the_cut_list_counts_every_new_line_and_no_old_one(store: Path, tmp_path: Path) -> None:
    shelf = tmp_path / "shelf.yaml"
    roll = '{id: wall, line: hose-50x21, length: 25000, quantity: 1, price: "80.00"}'
    shelf.write_text(f"format: 1\nstock:\n  - {roll}\n", encoding="utf-8")
    record = json.loads(done("cuts", "two", "--store", store, "--stock", shelf, "--json"))
    plans = json.loads(done("plan", "two", "--store", store, "--json"))
    wanted = {f"two-{line['id']}": line["lengths"]["cut_mm"] for line in plans["lines"] if "lengths" in line}
    assert {job["id"]: job["cut_mm"] for job in record["jobs"]} == wanted
    assert len(wanted) == 2
    assert {job["file"] for job in record["jobs"]} == {"two"}


def test_a_supplied_line_that_is_too_short_is_cut_from_stock_all_the_same(tmp_path: Path) -> None:
    job, shelf = tmp_path / "short.visit.yaml", tmp_path / "shelf.yaml"
    job.write_text(TWO, encoding="utf-8")
    rolls = (f"{{id: {line}, line: {line}, length: 9000, quantity: 1}}" for line in ("hose-55x25", "hose-50x21"))
    shelf.write_text("format: 1\nstock:\n" + "".join(f"  - {roll}\n" for roll in rolls), encoding="utf-8")
    assert lineplan("plan", job, *CATALOG).exit_code == 3
    record = json.loads(done("cuts", job, *CATALOG, "--stock", shelf, "--json"))
    assert record["is_complete"]
    assert [job["taken_from"] for job in record["jobs"]] == ["stock", "stock"]


def test_lines_that_no_order_brings_in_are_not_cut(tmp_path: Path) -> None:
    narrow = (DEMO / "hardtail-narrow.frame.yaml", DEMO / "cockpit-no-order.visit.yaml")
    shelf = tmp_path / "shelf.yaml"
    shelf.write_text("format: 1\nstock:\n  - {id: a, line: hose-55x25, length: 9000, quantity: 1}\n", encoding="utf-8")
    result = lineplan("cuts", narrow[1], "-c", narrow[0], "--stock", shelf, "--json")
    assert result.exit_code == 3
    record = json.loads(result.stdout)
    assert {(job["why_not"], job["outcome"]) for job in record["jobs"]} == {("no_plan", "no_fit")}
    assert len(record["jobs"]) == 4


def test_what_takes_one_line_only_says_so_of_a_saved_visit_too(store: Path, tmp_path: Path) -> None:
    said = refused("gauge", "two", "--store", store, "--pdf", tmp_path / "gauge.pdf")
    assert "the store: job two > lines: several lines were given, a job of one line" in said
