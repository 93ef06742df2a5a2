"""`lineplan quote` as a person calls it: figures, files, kept quotes that print the same, refusals."""

import json
import os
import sys
import time
from collections.abc import Iterator
from datetime import UTC, datetime, timedelta, timezone
from decimal import Decimal
from pathlib import Path

import pytest
from pypdf import PdfReader

from catalog import write_files
from tests.ui.shop_samples import (
    CATALOG,
    CITY,
    DAY,
    DEMO,
    STARTER,
    TRAIL,
    change_price,
    done,
    flat,
    lineplan,
    refused,
    write_job,
)


def keep_quote(store: Path, pdf: Path) -> None:
    done("quote", "trail-rear-brake", "--save", "--pdf", pdf, *DAY, "--store", store, "--by", "Mira")


def test_the_terminal_tells_everything_a_quote_is_asked_for() -> None:
    told = flat(done("quote", TRAIL, *CATALOG, *DAY, "--for", "Ana", "--shop-name", "Invented Works"))
    record = json.loads(done("quote", TRAIL, *CATALOG, *DAY, "--json"))
    for words in (
        f"To pay: {record['total']} EUR",
        "It fits:",
        "Ana",
        "Invented Works",
        "2031-03-14, stands until 2031-04-13",
        "Dunmere 4 rear (invented) 1 × 265.00 265.00",
        f"Sum {record['subtotal']}",
        f"Tax, 20 % {record['tax']}",
        "minutes of work, from",
        "in eight jobs out of ten",
        "What this takes for granted",
        "Spoke link 2.0, fed from",
        "nothing: push only",
    ):
        assert words in told


def test_the_amounts_add_up() -> None:
    record = json.loads(done("quote", TRAIL, *CATALOG, *DAY, "--json"))
    lines = [Decimal(line["total"]) for line in record["lines"] if line["total"] is not None]
    assert Decimal(record["subtotal"]) == sum(lines)
    assert Decimal(record["total"]) == Decimal(record["subtotal"]) + Decimal(record["tax"])
    low, high = (Decimal(record["total_range"][end]) for end in ("low", "high"))
    assert low < Decimal(record["total"]) < high
    labour = next(line for line in record["lines"] if line["kind"] == "labour")
    assert (labour["unit"], labour["price_per"]) == ("min", "60")
    minutes_more = round(record["time"]["high_min"]) - int(labour["quantity"])
    assert high - Decimal(record["total"]) == Decimal(minutes_more) * Decimal("1.2")  # 60 an hour and 20 % tax


def test_an_adapter_is_charged_once_with_its_bolts(tmp_path: Path) -> None:
    larger = write_job(tmp_path, ("rotor: 180", "rotor: 203"))
    record = json.loads(done("quote", larger, *CATALOG, *DAY, "--json"))
    kinds = [(line["kind"], line["id"]) for line in record["lines"]]
    assert kinds.count(("adapter", "post-step-43")) == 1
    assert [id for _, id in kinds].count("bolts-m6-bracket") == 1
    assert record["unpriced"] == []


def test_the_owner_may_bring_the_brake() -> None:
    record = json.loads(done("quote", TRAIL, *CATALOG, *DAY, "--owner-brings", "--json"))
    assert "brake" not in [line["kind"] for line in record["lines"]]
    assert "owner_brings_line" in record["assumptions"]


def test_files_hold_the_same_figures_and_the_same_bytes_each_time(tmp_path: Path) -> None:
    pdf, again, csv = tmp_path / "q.pdf", tmp_path / "r.pdf", tmp_path / "q.csv"
    done("quote", TRAIL, *CATALOG, *DAY, "--pdf", pdf, "--csv", csv)
    record = json.loads(done("quote", TRAIL, *CATALOG, *DAY, "--pdf", again, "--json"))
    assert pdf.read_bytes() == again.read_bytes()
    printed = "".join(page.extract_text() for page in PdfReader(pdf).pages)
    assert f"{record['total']} EUR" in printed
    assert "stands until 2031-04-13" in printed
    rows = csv.read_bytes().decode("utf-8").split("\r\n")
    assert len(rows) == len(record["lines"]) + 2  # head above, nothing below the last line end
    assert sorted(path.name for path in tmp_path.iterdir()) == ["q.csv", "q.pdf", "r.pdf"]


@pytest.mark.parametrize(("size", "width"), [("a4", 595), ("letter", 612)])
def test_paper_comes_in_two_sizes(tmp_path: Path, size: str, width: int) -> None:
    pdf = tmp_path / "q.pdf"
    done("quote", TRAIL, *CATALOG, *DAY, "--pdf", pdf, "--size", size)
    assert round(float(PdfReader(pdf).pages[0].mediabox.width)) == width


def test_without_a_plan_there_is_nothing_to_quote_and_it_says_why(tmp_path: Path) -> None:
    pdf, store = tmp_path / "q.pdf", tmp_path / "s.sqlite"
    result = lineplan("quote", CITY, *CATALOG, "--pdf", pdf)
    assert result.exit_code == 3
    assert result.stdout.startswith("Nothing to quote. No plan: every way is stopped at")
    kept = lineplan("quote", CITY, *CATALOG, "--save", "--store", store, "--by", "Mira")
    assert kept.exit_code == 3
    assert not pdf.exists()
    assert "city-cable-stops" in done("jobs", "--store", store)


def test_what_is_not_proven_is_quoted_with_that_said() -> None:
    told = flat(done("quote", DEMO / "touring-unmeasured.job.yaml", *CATALOG, *DAY))
    assert "Not proven:" in told
    assert "Not every size on the way was measured" in told


def test_a_kept_quote_prints_the_same_whatever_became_of_the_catalog(store: Path, tmp_path: Path) -> None:
    first, later = tmp_path / "first.pdf", tmp_path / "later.pdf"
    keep_quote(store, first)
    told = done("quote", "-n", "1", "--store", store)
    change_price(store, tmp_path / "files", before='"265.00"', after='"999.00"', by="Jonas")
    assert done("quote", "-n", "1", "--pdf", later, "--store", store) == told
    assert later.read_bytes() == first.read_bytes()


def test_a_saved_job_is_quoted_as_planned_until_it_is_saved_again(store: Path, tmp_path: Path) -> None:
    before = json.loads(done("quote", "trail-rear-brake", *DAY, "--store", store, "--json"))
    change_price(store, tmp_path / "files", before='"265.00"', after='"300.00"', by="Jonas")
    unchanged = lineplan("quote", "trail-rear-brake", *DAY, "--store", store, "--json")
    assert json.loads(unchanged.stdout) == before
    assert "since then the catalog changed: brake dunmere-4-rear." in unchanged.stderr
    done("save", "trail-rear-brake", "--store", store, "--by", "Mira")
    after = lineplan("quote", "trail-rear-brake", *DAY, "--store", store, "--json")
    assert after.stderr == ""
    assert Decimal(json.loads(after.stdout)["subtotal"]) - Decimal(before["subtotal"]) == 35


def test_the_store_s_catalog_serves_where_no_files_are_named(store: Path) -> None:
    from_files = json.loads(done("quote", TRAIL, *CATALOG, *DAY, "--json"))
    from_store = json.loads(done("quote", TRAIL, *DAY, "--store", store, "--json"))
    assert from_store == from_files


def test_a_quote_goes_from_state_to_state(store: Path, tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr("ui.shared.days.now", lambda: datetime(2031, 3, 14, 12, tzinfo=UTC))
    keep_quote(store, tmp_path / "q.pdf")
    words = ("quote", "-n", "1", "--store", store, "--by", "Jonas")
    handed = lineplan(*words, "--move", "handed over", "--note", "by post")
    assert "Quote 1: drafted → handed over." in handed.stderr
    assert "from here it goes to agreed or turned_down" in refused(*words, "--move", "work-done")
    story = flat(done("jobs", "trail-rear-brake", "--store", store))
    assert "handed over" in story
    assert "Jonas by post" in story


def test_a_new_quote_replaces_a_kept_one_and_both_papers_say_so(store: Path, tmp_path: Path) -> None:
    keep_quote(store, tmp_path / "q.pdf")
    pdf = tmp_path / "new.pdf"
    words = ("--save", "--replaces", "1", "--pdf", pdf, *DAY, "--store", store, "--by", "Mira")
    said = flat(done("quote", "trail-rear-brake", *words))
    told = "This quote replaces quote 1, which no longer stands."
    assert told in said
    assert told in flat(PdfReader(pdf).pages[0].extract_text())
    old = tmp_path / "old.pdf"
    assert "no longer stands: called off, replaced by quote 2." in flat(
        done("quote", "-n", "1", "--pdf", old, "--store", store)
    )
    assert "no longer stands: called off, replaced by quote 2." in flat(PdfReader(old).pages[0].extract_text())
    story = flat(done("jobs", "trail-rear-brake", "--store", store))
    assert "called off, replaced by quote 2" in story
    assert "in place of quote 1" in story
    assert "from here it goes to nowhere" in refused("quote", "-n", "1", "--move", "agreed", "--store", store)


@pytest.fixture
def utc_machine() -> Iterator[None]:
    """A machine whose own clock is that of no shop."""
    before = os.environ.get("TZ")
    os.environ["TZ"] = "UTC"
    time.tzset()
    yield
    if before is None:
        del os.environ["TZ"]
    else:
        os.environ["TZ"] = before
    time.tzset()


ZONES = [("Pacific/Kiritimati", 14), ("Etc/GMT+12", -12), ("", 0)]


@pytest.mark.usefixtures("utc_machine")
@pytest.mark.parametrize(("zone", "ahead_h"), ZONES)
def test_all_days_of_a_quote_are_the_shop_s(
    zone: str, ahead_h: int, store: Path, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    own = tmp_path / "shop.yaml"
    text = (STARTER / "shop.yaml").read_text(encoding="utf-8")
    own.write_text(text + (f"  time_zone: {zone}\n" if zone else ""), encoding="utf-8")
    done("store", "import", own, "--store", store, "--by", "Mira")

    def at(day: int, month: int, hour: int, minute: int) -> None:
        """The clock on the shop's wall shows this."""
        local = datetime(2031, month, day, hour, minute, tzinfo=timezone(timedelta(hours=ahead_h)))
        monkeypatch.setattr("ui.shared.days.now", lambda: local.astimezone(UTC))

    at(14, 3, 23, 59)
    words = ("--store", store, "--by", "Mira")
    done("save", "trail-rear-brake", *words)
    drafted = flat(done("quote", "trail-rear-brake", "--save", *words))
    assert "made 2031-03-14, stands for 30 days from the day it is handed over" in drafted
    at(16, 3, 0, 1)
    handed = done("quote", "-n", "1", "--move", "handed over", "--pdf", tmp_path / "q.pdf", *words)
    assert "2031-03-14, handed over 2031-03-16, stands until 2031-04-15" in flat(handed)
    assert "2031-03-16 Stronger" in flat(PdfReader(tmp_path / "q.pdf").pages[0].extract_text())
    at(15, 4, 23, 59)
    assert "1 handed over" in flat(done("jobs", *words[:2]))
    at(16, 4, 0, 1)
    assert "1 lapsed" in flat(done("jobs", *words[:2]))
    assert "no longer stands: lapsed" in flat(done("quote", "-n", "1", *words[:2]))
    assert "agreed on 2031-04-16 was given; it stood until 2031-04-15" in refused(
        "quote", "-n", "1", "--move", "agreed", *words
    )


def test_a_draft_whose_days_are_past_is_handed_over_only_when_that_is_said(store: Path) -> None:
    day = ("--date", "2001-01-01")
    done("quote", "trail-rear-brake", "--save", *day, "--store", store, "--by", "Mira")
    words = ("quote", "-n", "1", "--move", "handed over", "--store", store, "--by", "Mira")
    assert "its prices were made to stand until 2001-01-31: make it anew" in refused(*words)
    done(*words, "--though-old")


@pytest.mark.parametrize(
    ("words", "said"),
    [
        ((), "quote > job: nothing was named"),
        ((TRAIL, "--date", "14.3.2031"), "quote > date: 14.3.2031 was given, allowed: a day such as 2031-03-14"),
        ((TRAIL, "--date", "9999-12-31", *CATALOG), "days up to 9999-12-31"),
        ((TRAIL, "--pdf", "q.txt"), "q.txt was given, a name that ends in .pdf"),
        ((TRAIL, "--csv", "nowhere/q.csv"), "there is no folder nowhere"),
        ((TRAIL, "--move", "agreed"), "move: it was given, allowed: together with --number"),
        ((TRAIL, "--replaces", "1"), "replaces: it was given, allowed: together with --save"),
        (("nowhere.yaml",), "there is no such file"),
        (("trail",), "no saved job of this name, for there is no store"),
        (("-n", "1"), "there is no such file"),
    ],
)
def test_what_cannot_be_meant_is_refused(tmp_path: Path, words: tuple[object, ...], said: str) -> None:
    assert said in refused("quote", *words, "--store", tmp_path / "none.sqlite")
    assert list(tmp_path.iterdir()) == []


@pytest.mark.parametrize("words", [("--date", "2031-01-01"), ("--for", "Ben"), ("--save",), ("--owner-brings",)])
def test_a_kept_quote_is_not_made_into_another(store: Path, words: tuple[str, ...]) -> None:
    assert f"quote > {words[0][2:]}: it was given, allowed: not together with --number" in refused(
        "quote", "-n", "1", *words, "--store", store
    )


def test_the_store_of_the_environment_is_used(store: Path) -> None:
    assert "quote 9 is not in the store" in refused("quote", "-n", "9", LINEPLAN_STORE=str(store))


def test_a_name_nearly_right_is_told(store: Path) -> None:
    assert "did you mean trail-rear-brake?" in refused("quote", "trail-rear-brak", "--store", store)


def test_paper_that_is_not_installed_is_told_before_any_work(monkeypatch: pytest.MonkeyPatch, tmp_path: Path) -> None:
    monkeypatch.setitem(sys.modules, "reportlab", None)
    said = refused("quote", TRAIL, *CATALOG, "--pdf", tmp_path / "q.pdf")
    assert "reportlab, which is not installed; install with the extra 'paper': pip install -e '.[paper]'" in said
    assert list(tmp_path.iterdir()) == []


def test_a_store_that_is_not_installed_is_told_and_files_are_quoted_all_the_same(
    monkeypatch: pytest.MonkeyPatch, tmp_path: Path
) -> None:
    monkeypatch.setitem(sys.modules, "sqlmodel", None)
    place = tmp_path / "s.sqlite"
    assert "pip install -e '.[store]'" in refused("quote", TRAIL, *CATALOG, "--save", "--store", place)
    assert not place.exists()
    assert "To pay" in done("quote", TRAIL, *CATALOG, "--store", place)


def test_files_that_are_there_are_replaced_only_where_that_is_asked(tmp_path: Path) -> None:
    pdf, csv = tmp_path / "q.pdf", tmp_path / "q.csv"
    for path in (pdf, csv):
        path.write_text("mine")
    words = ("quote", TRAIL, *CATALOG, *DAY, "--pdf", pdf, "--csv", csv, "--store", tmp_path / "none.sqlite")
    said = refused(*words)
    assert [line.split(": file: ")[0] for line in said.splitlines()] == [str(pdf), str(csv)]
    assert (pdf.read_text(), csv.read_text()) == ("mine", "mine")
    done(*words, "--replace")
    assert pdf.read_bytes().startswith(b"%PDF")
    assert csv.read_text() != "mine"


def test_a_pdf_that_cannot_be_written_leaves_the_old_one_and_tells_the_number(
    store: Path, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    pdf = tmp_path / "q.pdf"
    pdf.write_bytes(b"the old one")

    def full(*_: object) -> None:
        raise OSError(28, "No space left on device")

    monkeypatch.setattr(write_files.os, "fsync", full)
    said = refused("quote", "trail-rear-brake", "--save", "--pdf", pdf, "--store", store, "--by", "Mira", "--replace")
    assert "The quote is kept as number 1." in said
    assert "it cannot be written: No space left on device" in said
    assert pdf.read_bytes() == b"the old one"
    assert [path.name for path in tmp_path.iterdir() if path.name.startswith(".")] == []


def test_the_shop_s_own_name_and_address_stand_on_the_quote_unless_another_is_named(tmp_path: Path) -> None:
    own = tmp_path / "shop.yaml"
    own.write_text("format: 1\nshop: {name: Bench of nobody, address: 'Lane 1, Nowhere'}\n", encoding="utf-8")
    for words, name in (((), "Bench of nobody"), (("--shop-name", "Another"), "Another")):
        pdf = tmp_path / f"{len(words)}.pdf"
        done("quote", TRAIL, *CATALOG, "-c", own, *DAY, *words, "--pdf", pdf)
        printed = " ".join(page.extract_text() for page in PdfReader(pdf).pages)
        assert name in printed
        assert ("Lane 1, Nowhere" in printed) is (not words), "an address stands below its own name only"
