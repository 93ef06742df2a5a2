"""Writing catalog files: whole or not at all."""

import os
from pathlib import Path

import pytest

from catalog import PartNotInCatalog
from catalog.export_file import FileChanged, edit_entry, edit_file, hash_of_file, write_atomically

TEXT = "format: 1\nlines:\n  - {id: hose-50, outer: 5.0}   # blue\n"


@pytest.fixture
def shelf(tmp_path: Path) -> Path:
    path = tmp_path / "shelf.yaml"
    path.write_text(TEXT, encoding="utf-8")
    return path


def test_a_new_file_is_written_whole(tmp_path: Path) -> None:
    write_atomically(tmp_path / "new.yaml", b"format: 1\n")
    assert (tmp_path / "new.yaml").read_bytes() == b"format: 1\n"
    assert [path.name for path in tmp_path.iterdir()] == ["new.yaml"]


@pytest.mark.parametrize("step", ["fsync", "replace", "chmod"])
def test_a_write_that_fails_leaves_the_old_file_and_nothing_else(
    shelf: Path, monkeypatch: pytest.MonkeyPatch, step: str
) -> None:
    def fail(*_: object) -> None:
        raise OSError(28, "No space left on device")

    monkeypatch.setattr(os, step, fail)
    with pytest.raises(OSError, match="No space left"):
        write_atomically(shelf, b"half")
    assert shelf.read_text(encoding="utf-8") == TEXT
    assert [path.name for path in shelf.parent.iterdir()] == ["shelf.yaml"]


def test_a_link_goes_on_pointing_and_rights_are_kept(shelf: Path, tmp_path: Path) -> None:
    shelf.chmod(0o640)
    link = tmp_path / "link.yaml"
    link.symlink_to(shelf)
    write_atomically(link, b"format: 1\n")
    assert link.is_symlink()
    assert shelf.read_bytes() == b"format: 1\n"
    assert shelf.stat().st_mode & 0o777 == 0o640


def test_an_entry_is_changed_added_and_taken_out(shelf: Path) -> None:
    edit_entry(shelf, "lines", "hose-50", {"id": "hose-50", "outer": 5.1})
    assert shelf.read_text(encoding="utf-8") == TEXT.replace("5.0", "5.1")
    edit_entry(shelf, "lines", "gear-40", {"id": "gear-40", "outer": 4.0})
    assert shelf.read_text(encoding="utf-8") == TEXT.replace("5.0", "5.1") + "  - {id: gear-40, outer: 4.0}\n"
    edit_entry(shelf, "lines", "gear-40", None)
    assert shelf.read_text(encoding="utf-8") == TEXT.replace("5.0", "5.1")
    edit_entry(shelf, "shop", "shop", {"trim": 10.0})
    assert shelf.read_text(encoding="utf-8") == TEXT.replace("5.0", "5.1") + "shop: {trim: 10.0}\n"
    edit_entry(shelf, "shop", "shop", None)
    assert shelf.read_text(encoding="utf-8") == TEXT.replace("5.0", "5.1")


def test_an_entry_that_is_not_there_cannot_be_taken_out(shelf: Path) -> None:
    with pytest.raises(PartNotInCatalog, match="no lines hose-51 in the catalog; did you mean hose-50"):
        edit_entry(shelf, "lines", "hose-51", None)


def test_a_file_changed_since_it_was_opened_is_not_overwritten(shelf: Path) -> None:
    opened = hash_of_file(shelf)
    shelf.write_text(TEXT + "# somebody was here\n", encoding="utf-8")
    for edit in (
        lambda: edit_file(shelf, {"format": 1}, opened_sha256=opened),
        lambda: edit_entry(shelf, "lines", "hose-50", None, opened_sha256=opened),
    ):
        with pytest.raises(FileChanged, match=r"shelf\.yaml was changed since you opened it; nothing of yours"):
            edit()
    assert shelf.read_text(encoding="utf-8") == TEXT + "# somebody was here\n"


def test_an_edit_that_changes_nothing_does_not_touch_the_file(shelf: Path) -> None:
    before = shelf.stat()
    edit_entry(shelf, "lines", "hose-50", {"id": "hose-50", "outer": 5.0}, opened_sha256=hash_of_file(shelf))
    assert (shelf.stat().st_ino, shelf.stat().st_mtime_ns) == (before.st_ino, before.st_mtime_ns)
