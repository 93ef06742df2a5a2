"""`lineplan card` as a person calls it: a card for a file or a saved job, the same bytes for the same day."""

import sys
from pathlib import Path

import pytest
from pypdf import PdfReader

from tests.ui.shop_samples import CATALOG, CITY, DAY, TRAIL, change_price, done, flat, lineplan, refused


def words_of(pdf: Path) -> str:
    return flat(" ".join(page.extract_text() for page in PdfReader(pdf).pages))


def size_of(pdf: Path) -> list[float]:
    """Width and height of its first page in mm."""
    return [round(float(side) / 72 * 25.4, 1) for side in PdfReader(pdf).pages[0].mediabox[2:]]


def test_a_card_of_a_job_file_has_the_verdict_the_cut_and_the_steps(tmp_path: Path) -> None:
    card, label = tmp_path / "card.pdf", tmp_path / "label.pdf"
    told = done("card", TRAIL, *CATALOG, *DAY, "--pdf", card, "--label", label, "--shop-name", "Invented Works")
    assert told.startswith("It fits:")
    assert (f"Job card: {card}" in told, f"Label: {label}" in told) == (True, True)
    printed = words_of(card)
    for words in (
        "Stronger rear brake on a trail frame",
        "2031-03-14",
        "cut to 1510 mm (+3/-0)",  # 1454.3 needed, 22 in the fittings, 10 trim, 19 cut away: 1505.3, in steps of 5
        "What can hurt",
        "Steps",
    ):
        assert words in printed
    assert "Invented Works · trail-rear-brake · 2031-03-14" in printed
    assert "±" not in printed.split("Steps")[0].split("cut to")[1].split("to spare")[0]
    assert "1510 mm (+3/-0)" in words_of(label)
    assert size_of(label) == [60, 30]
    assert sorted(path.name for path in tmp_path.iterdir()) == ["card.pdf", "label.pdf"]


def test_the_label_is_as_large_as_the_command_says(tmp_path: Path) -> None:
    card, label = tmp_path / "card.pdf", tmp_path / "label.pdf"
    done("card", TRAIL, *CATALOG, *DAY, "--pdf", card, "--label", label, "--label-size", "50 x 25.5 mm")
    assert size_of(label) == [50, 25.5]


@pytest.mark.parametrize("size", ["60", "wide", "60,30", "20x30", "60x10", "0x0", "-60x30"])
def test_a_label_of_no_size_is_refused_before_anything_is_planned(size: str, tmp_path: Path) -> None:
    card = tmp_path / "card.pdf"
    result = lineplan("card", TRAIL, *CATALOG, *DAY, "--pdf", card, f"--label-size={size}")
    assert result.exit_code == 2
    assert "such as 60x30 is wanted, 25 x 15 or more" in flat(result.stderr.replace("│", " "))
    assert not card.exists()


def test_a_saved_job_gives_the_same_card_as_its_file_and_goes_on_doing_so(store: Path, tmp_path: Path) -> None:
    from_file, from_store, later = (tmp_path / name for name in ("file.pdf", "store.pdf", "later.pdf"))
    done("card", TRAIL, *CATALOG, *DAY, "--pdf", from_file)
    done("card", "trail-rear-brake", *DAY, "--store", store, "--pdf", from_store)
    assert from_store.read_bytes() == from_file.read_bytes()
    change_price(store, tmp_path / "files", before="Dunmere 4 rear", after="Renamed 4 rear", by="Jonas")
    again = lineplan("card", "trail-rear-brake", *DAY, "--store", store, "--pdf", later)
    assert later.read_bytes() == from_file.read_bytes()
    assert "since then the catalog changed: brake dunmere-4-rear." in again.stderr


def test_the_day_is_the_only_thing_that_differs_from_day_to_day(store: Path, tmp_path: Path) -> None:
    first, second = tmp_path / "first.pdf", tmp_path / "second.pdf"
    done("card", "trail-rear-brake", "--date", "2031-03-14", "--store", store, "--pdf", first)
    done("card", "trail-rear-brake", "--date", "2031-03-15", "--store", store, "--pdf", second)
    assert words_of(second) == words_of(first).replace("2031-03-14", "2031-03-15")


def test_paper_of_the_other_size(store: Path, tmp_path: Path) -> None:
    card = tmp_path / "card.pdf"
    done("card", "trail-rear-brake", *DAY, "--store", store, "--pdf", card, "--size", "letter")
    assert [round(float(side)) for side in PdfReader(card).pages[0].mediabox[2:]] == [612, 792]


def test_a_job_without_a_plan_gets_a_card_that_says_why_and_no_label(tmp_path: Path) -> None:
    card, label = tmp_path / "card.pdf", tmp_path / "label.pdf"
    result = lineplan("card", CITY, *CATALOG, *DAY, "--pdf", card, "--label", label)
    assert result.exit_code == 3
    assert "No label: there is nothing to cut." in result.stdout
    assert "No plan: every way is stopped" in words_of(card)
    assert not label.exists()


@pytest.mark.parametrize(
    ("words", "said"),
    [
        ((TRAIL, "--pdf", "card.svg"), "card.svg was given, a name that ends in .pdf"),
        ((TRAIL, "--pdf", "one.pdf", "--label", "./one.pdf"), "it is named twice"),
        ((TRAIL, "--pdf", "nowhere/card.pdf"), "there is no folder nowhere"),
        ((TRAIL, "--pdf", "card.pdf", "--date", "soon"), "card > date: soon was given"),
        (("nowhere.yaml", "--pdf", "card.pdf"), "there is no such file"),
    ],
)
def test_what_cannot_be_meant_is_refused(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch, words: tuple[object, ...], said: str
) -> None:
    monkeypatch.chdir(tmp_path)
    assert said in refused("card", *words)
    assert list(tmp_path.iterdir()) == []


def test_files_that_are_there_are_replaced_only_where_that_is_asked(tmp_path: Path) -> None:
    card, label = tmp_path / "card.pdf", tmp_path / "label.pdf"
    card.write_text("mine")
    words = ("card", TRAIL, *CATALOG, *DAY, "--pdf", card, "--label", label)
    assert f"{card}: file: it is there already" in refused(*words)
    assert card.read_text() == "mine"
    assert not label.exists()
    done(*words, "--replace")
    assert card.read_bytes().startswith(b"%PDF")


def test_paper_that_is_not_installed_is_told(monkeypatch: pytest.MonkeyPatch, tmp_path: Path) -> None:
    monkeypatch.setitem(sys.modules, "svglib", None)
    assert "pip install -e '.[paper]'" in refused("card", TRAIL, *CATALOG, "--pdf", tmp_path / "card.pdf")
    assert list(tmp_path.iterdir()) == []


def test_a_card_of_what_is_not_proven_tells_nobody_to_cut_or_pull(tmp_path: Path) -> None:
    card, label = tmp_path / "card.pdf", tmp_path / "label.pdf"
    touring = TRAIL.with_name("touring-unmeasured.job.yaml")
    result = lineplan("card", touring, *CATALOG, *DAY, "--pdf", card, "--label", label)
    printed = words_of(card)
    assert "Measure first" in printed
    assert not [words for words in ("cut the old line", "cut to", "Pulling", "Have ready", "Tape") if words in printed]
    assert not label.exists()
    told = lineplan("plan", touring, *CATALOG).stdout
    assert not [words for words in ("Cut the", "cut to", "Pulling", "Have ready") if words in flat(told)]
    assert result.stdout.splitlines()[-1] == "No label: there is nothing to cut."


def test_a_card_of_a_no_says_what_would_change_it(tmp_path: Path) -> None:
    card = tmp_path / "card.pdf"
    lineplan("card", CITY, *CATALOG, *DAY, "--pdf", card)
    assert "What would change it" in words_of(card)
