"""The shopping list in the terminal, on paper and on the page."""

from pathlib import Path

import pytest
from pypdf import PdfReader

from catalog import Change, JobState, open_store
from tests.ui.page_builders import open_page, words_of
from tests.ui.shop_samples import DEMO, done, flat, refused

JOB = "trail-rear-brake"


def _counted(place: Path, id: str, count: int) -> None:
    with open_store(place, create=False) as store:
        now = store.documents.current("part", id)
        content = {**now.content, "on_shelf": count}
        change = Change(kind="part", id=id, name=now.name, content=content, based_on=now.pin.revision)
        store.documents.save(change, by="Mira")


def _row(told: str, name: str) -> list[str]:
    return next(line for line in told.splitlines() if line.startswith(name)).removeprefix(name).split()


def test_parts_of_open_jobs_are_told_against_the_shelf(store: Path, tmp_path: Path) -> None:
    _counted(store, "banjo-washers", 3)
    files = ("--pdf", tmp_path / "list.pdf", "--csv", tmp_path / "list.csv")
    told = done("shopping", "--store", store, *files)
    assert _row(told, "Banjo washers, pair") == [JOB, "1", "piece", "3", "pieces", "0", "pieces"]
    assert _row(told, "Coupler stud 2.6") == [JOB, "1", "piece", "not", "counted", "1", "piece"]
    printed = flat(" ".join(page.extract_text() for page in PdfReader(tmp_path / "list.pdf").pages))
    assert "Shopping list" in printed
    assert "Banjo washers, pair" in printed
    assert '"part","banjo-washers","Banjo washers, pair","1","3","0","","trail-rear-brake","pieces"' in (
        tmp_path / "list.csv"
    ).read_text(encoding="utf-8")
    assert "it is there already" in refused("shopping", "--store", store, "--csv", tmp_path / "list.csv")


def test_only_agreed_jobs_count_where_that_is_asked_and_finished_ones_never(store: Path) -> None:
    assert "No open job takes anything." in done("shopping", "--store", store, "--agreed")
    done("jobs", JOB, "--move", JobState.ON_THE_BENCH, "--store", store, "--by", "Mira")
    assert "Coupler stud 2.6" in done("shopping", "--store", store, "--agreed")
    done("jobs", JOB, "--move", JobState.FINISHED, "--store", store, "--by", "Mira")
    assert "No open job takes anything." in done("shopping", "--store", store)


def test_a_visit_brings_the_parts_of_all_its_lines(tmp_path: Path) -> None:
    store = tmp_path / "visits.sqlite"
    done("save", DEMO / "cockpit-swap.visit.yaml", "-c", DEMO, "--store", store, "--by", "Mira")
    told = done("shopping", "--store", store)
    assert _row(told, "Coupler stud 3.0")[0] == "cockpit-swap"
    wires = " ".join(_row(told, "Electric wire 2.5"))
    assert wires.endswith("not counted 1 × 1420 mm + 1 × 1400 mm"), "nobody supplied them"


def test_lines_are_told_against_the_stock_that_cut_lists_use(tmp_path: Path) -> None:
    place, job = tmp_path / "gears.sqlite", tmp_path / "gears.job.yaml"
    text = (DEMO / "hardtail-gear-housing.job.yaml").read_text(encoding="utf-8")
    job.write_text(text.replace("    supplied_length: 2100\n", ""), encoding="utf-8")
    done("save", job, "-c", DEMO, "--store", place, "--by", "Mira")
    told = done("shopping", "--store", place, "--stock", DEMO / "workshop.stock.yaml", "--csv", tmp_path / "list.csv")
    row = next(line for line in told.splitlines() if line.startswith("Gear housing 4.0"))
    assert row.endswith("2 × 900 mm, enough for none  1 × 10000 mm (roll-gear-40)")
    assert (
        '"roll","roll-gear-40","Gear housing 4.0","","","1","10000","","rolls"' in (tmp_path / "list.csv").read_text()
    )
    assert "No stock was told to cut the lines from" in done("shopping", "--store", place)
    assert "list.csv" in refused("shopping", "--store", place, "--stock", tmp_path / "list.csv")


def test_the_list_on_the_page_and_what_it_says_where_nothing_is_open(
    store: Path, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    told = words_of(open_page(monkeypatch, store=store, screen="shop", catalog=()))
    assert "Coupler stud 2.6" in told
    assert "not counted" in told
    assert "Stronger rear brake on a trail frame" in told, "people know a job by its title"
    told = words_of(open_page(monkeypatch, store=tmp_path / "new.sqlite", screen="shop", catalog=()))
    assert "Nothing to buy: no open job takes a small part." in told
