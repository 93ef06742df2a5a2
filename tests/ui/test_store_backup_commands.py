"""`lineplan store backup` and `lineplan store restore`, and the copy that `upgrade` makes, as a person calls them."""

import sqlite3
from pathlib import Path

from catalog import open_store, upgrade_store
from tests.ui.shop_samples import done, lineplan, refused


def test_a_copy_is_put_back_and_that_is_undone(store: Path, tmp_path: Path) -> None:
    copy = tmp_path / "copy.sqlite"
    assert done("store", "backup", copy, "--store", store).endswith(", all as they were saved.\n")
    assert "it is there already" in refused("store", "backup", copy, "--store", store)
    assert "a name that ends in .sqlite" in refused("store", "backup", tmp_path / "copy.txt", "--store", store)
    done("jobs", "trail-rear-brake", "--move", "on_the_bench", "--store", store, "--by", "Mira")
    with open_store(store, create=False) as kept:
        kept.drafts.save("mine", {"choices": {}}, form="job", title="Half a job")
    told = done("store", "restore", copy, "--store", store)
    assert "Was being filled in, and went aside: job: Half a job, " in told
    (aside,) = tmp_path.glob("*-before-restore-*.sqlite")
    assert f"What was there before lies in {aside}." in told
    assert told.splitlines()[-1] == f"To undo this: lineplan store restore {aside}"
    assert "waiting" in done("jobs", "--store", store)
    aside = aside.rename(tmp_path / "before.sqlite")
    done("store", "restore", aside, "--store", store)
    assert "on the bench" in done("jobs", "--store", store)


def test_a_damaged_store_is_copied_and_the_copy_is_said_to_be_damaged(store: Path, tmp_path: Path) -> None:
    with sqlite3.connect(store) as connection:
        connection.execute("UPDATE job SET content = '{}'")
    result = lineplan("store", "backup", tmp_path / "copy.sqlite", "--store", store)
    assert (result.exit_code, result.stdout) == (2, "")
    assert "job trail-rear-brake: it says something else than the last line of its history" in result.stderr
    assert "Nothing was changed." in refused("store", "restore", tmp_path / "copy.sqlite", "--store", store)


def test_an_outdated_store_is_refused_until_it_is_upgraded(tmp_path: Path) -> None:
    place = tmp_path / "old.sqlite"
    upgrade_store(place, to_version="0003")
    assert "run `lineplan store upgrade`" in refused("jobs", "--store", place)
    told = done("store", "upgrade", "--store", place)
    assert "tables of version 0003 brought up to" in told
    (aside,) = tmp_path.glob("*-before-upgrade-*.sqlite")
    assert f"The store as it was lies in {aside}." in told
    assert "its tables are up to date" in done("store", "upgrade", "--store", place)
    assert "No job is kept here." in done("jobs", "--store", place)
