"""Writing files: whole or not at all, owned and allowed as before, never over a file of yours that you did not name."""

import os
import stat
import subprocess
import sys
from collections.abc import Iterator
from contextlib import contextmanager
from pathlib import Path
from tempfile import TemporaryDirectory

import pytest

from catalog import FileNotWritten, PartNotInCatalog, file_obstacle, folder_obstacle, make_folder, write_all, write_file
from catalog import write_files as writer
from catalog.edit_yaml import edit_yaml
from catalog.store_export import value_with_entry
from catalog.yaml_text import read_yaml

TEXT = "format: 1\nlines:\n  - {id: hose-50, outer: 5.0}   # blue\n"
NOBODY = 65534


@pytest.fixture
def shelf(tmp_path: Path) -> Path:
    path = tmp_path / "shelf.yaml"
    path.write_text(TEXT, encoding="utf-8")
    return path


@contextmanager
def as_nobody() -> Iterator[Path]:
    """A folder of this user's, while the process has no rights but those of everybody else."""
    with TemporaryDirectory(dir="/tmp") as name:
        folder = Path(name)
        folder.chmod(0o755)
        if os.geteuid() == 0:
            os.seteuid(NOBODY)
            try:
                yield folder
            finally:
                os.seteuid(0)
        else:
            yield folder


def mode_of(path: Path) -> int:
    return stat.S_IMODE(path.stat().st_mode)


def names_in(folder: Path) -> list[str]:
    return sorted(path.name for path in folder.iterdir())


def test_a_new_file_is_written_whole(tmp_path: Path) -> None:
    assert write_file(tmp_path / "new.yaml", b"format: 1\n")
    assert (tmp_path / "new.yaml").read_bytes() == b"format: 1\n"
    assert names_in(tmp_path) == ["new.yaml"]


@pytest.mark.parametrize(("umask", "mode"), [(0o022, 0o644), (0o077, 0o600), (0o002, 0o664)])
def test_a_new_file_has_the_mode_that_the_umask_leaves(tmp_path: Path, umask: int, mode: int) -> None:
    before = os.umask(umask)
    try:
        write_file(tmp_path / "new.yaml", "x")
    finally:
        os.umask(before)
    assert mode_of(tmp_path / "new.yaml") == mode


@pytest.mark.parametrize("mode", [0o600, 0o640, 0o664, 0o755])
def test_a_file_that_is_replaced_keeps_its_mode(shelf: Path, mode: int) -> None:
    shelf.chmod(mode)
    write_file(shelf, "new", replaces=True)
    assert (shelf.read_text(), mode_of(shelf)) == ("new", mode)


@pytest.mark.skipif(os.geteuid() != 0, reason="only the superuser can give a file away")
def test_a_file_that_is_replaced_stays_with_its_owner_and_group(shelf: Path) -> None:
    os.chown(shelf, NOBODY, NOBODY)
    write_file(shelf, "new", replaces=True)
    assert (shelf.stat().st_uid, shelf.stat().st_gid) == (NOBODY, NOBODY)


@pytest.mark.skipif(os.geteuid() != 0, reason="needs files of two owners")
def test_a_file_is_not_taken_from_its_owner() -> None:
    with as_nobody() as folder:
        os.seteuid(0)
        (folder / "theirs.yaml").write_text("theirs")
        (folder / "theirs.yaml").chmod(0o666)
        folder.chmod(0o777)
        os.seteuid(NOBODY)
        with pytest.raises(FileNotWritten, match="it belongs to somebody else, and would not any more"):
            write_file(folder / "theirs.yaml", "mine", replaces=True)
        assert (folder / "theirs.yaml").read_text() == "theirs"
        assert names_in(folder) == ["theirs.yaml"]


def test_a_link_goes_on_pointing_and_the_file_behind_it_is_written(shelf: Path, tmp_path: Path) -> None:
    shelf.chmod(0o600)
    (tmp_path / "elsewhere").mkdir()
    link = tmp_path / "elsewhere" / "link.yaml"
    link.symlink_to(shelf)
    write_file(link, "new", replaces=True)
    assert link.is_symlink()
    assert (shelf.read_text(), mode_of(shelf)) == ("new", 0o600)
    assert names_in(tmp_path / "elsewhere") == ["link.yaml"]


def test_a_link_to_a_file_still_to_come_is_followed_too(tmp_path: Path) -> None:
    link = tmp_path / "link.yaml"
    link.symlink_to(tmp_path / "real.yaml")
    write_file(link, "new")
    assert link.is_symlink()
    assert (tmp_path / "real.yaml").read_text() == "new"


def test_a_file_that_is_there_is_not_replaced_unasked(shelf: Path) -> None:
    with pytest.raises(FileNotWritten, match=r"shelf\.yaml: file: it is there already, a name that is not in use, or"):
        write_file(shelf, "new")
    assert shelf.read_text(encoding="utf-8") == TEXT


def test_a_file_that_says_the_same_already_is_left_alone(shelf: Path) -> None:
    before = shelf.stat()
    assert not write_file(shelf, TEXT)
    assert file_obstacle(shelf, replaces=False, content=TEXT) is None
    assert (shelf.stat().st_ino, shelf.stat().st_mtime_ns) == (before.st_ino, before.st_mtime_ns)


def test_a_name_taken_at_the_last_moment_is_not_lost(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    path = tmp_path / "new.yaml"
    told = writer.file_obstacle

    def somebody_is_quicker(*words: object, **named: object) -> object:
        answer = told(*words, **named)  # type: ignore[arg-type]
        path.write_text("theirs")
        return answer

    monkeypatch.setattr(writer, "file_obstacle", somebody_is_quicker)
    with pytest.raises(FileNotWritten, match="it cannot be written: File exists"):
        write_file(path, "mine")
    assert path.read_text() == "theirs"
    assert names_in(tmp_path) == ["new.yaml"]


def test_a_file_that_was_read_may_be_replaced_as_long_as_nobody_changed_it(shelf: Path) -> None:
    assert write_file(shelf, "second", was=TEXT.encode())
    with pytest.raises(FileNotWritten, match="it was changed since it was read, once more from the start"):
        write_file(shelf, "third", was=TEXT.encode(), replaces=True)
    assert shelf.read_text() == "second"


@pytest.mark.parametrize("step", ["fsync", "replace", "fchmod"])
def test_a_write_that_fails_leaves_the_old_file_and_nothing_else(
    shelf: Path, monkeypatch: pytest.MonkeyPatch, step: str
) -> None:
    def fail(*_: object) -> None:
        raise OSError(28, "No space left on device")

    monkeypatch.setattr(os, step, fail)
    with pytest.raises(FileNotWritten, match="it cannot be written: No space left on device"):
        write_file(shelf, "half", replaces=True)
    assert shelf.read_text(encoding="utf-8") == TEXT
    assert names_in(shelf.parent) == ["shelf.yaml"]


def test_the_folder_is_settled_after_the_file(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    settled = []
    fsync = os.fsync

    def note(handle: int) -> None:
        settled.append(stat.S_ISDIR(os.fstat(handle).st_mode))
        fsync(handle)

    monkeypatch.setattr(os, "fsync", note)
    write_file(tmp_path / "new.yaml", "x")
    assert settled == [False, True]


@pytest.mark.usefixtures("shelf")
def test_what_cannot_be_a_file_is_told(tmp_path: Path) -> None:
    (tmp_path / "loop").symlink_to(tmp_path / "loop")
    os.mkfifo(tmp_path / "pipe")
    for name, said in {
        "": "this is a folder, the name of a file",
        "nowhere/x.yaml": f"there is no folder {tmp_path / 'nowhere'}, a folder that is there",
        "shelf.yaml/x.yaml": "it cannot be written: Not a directory",
        "x" * 256: "it cannot be written: File name too long",
        "loop": "it cannot be written: Too many levels of symbolic links",
        "pipe": "this is no ordinary file",
        "x\0y": "it cannot be written: embedded null byte",
    }.items():
        found = file_obstacle(tmp_path / name, replaces=True)
        assert found is not None, name
        assert said in str(found)
        with pytest.raises(FileNotWritten):
            write_file(tmp_path / name, "x", replaces=True)
    assert names_in(tmp_path) == ["loop", "pipe", "shelf.yaml"]


def test_a_name_as_long_as_names_can_be_is_written(tmp_path: Path) -> None:
    path = tmp_path / ("x" * 255)
    assert write_file(path, "x")
    assert names_in(tmp_path) == [path.name]


def test_a_folder_in_which_nothing_may_be_written_is_told() -> None:
    with as_nobody() as folder:
        if os.geteuid() != NOBODY:
            folder.chmod(0o555)
        said = "it cannot be written: Permission denied"
        assert said in str(file_obstacle(folder / "x.yaml", replaces=False))
        assert said in str(folder_obstacle(folder))
        assert said in str(folder_obstacle(folder / "deep" / "down"))
        with pytest.raises(FileNotWritten, match=said):
            write_file(folder / "x.yaml", "x")
        with pytest.raises(FileNotWritten, match=said):
            make_folder(folder / "deep")


def test_a_read_only_file_is_told() -> None:
    with as_nobody() as folder:
        path = folder / "ours.yaml"
        if os.geteuid() == NOBODY:
            os.seteuid(0)
            folder.chmod(0o777)
            os.seteuid(NOBODY)
        path.write_text("ours")
        path.chmod(0o444)
        with pytest.raises(FileNotWritten, match="it is read-only, a file to write to"):
            write_file(path, "new", replaces=True)
        assert path.read_text() == "ours"


def test_a_folder_still_to_be_made_is_no_obstacle_and_a_file_in_its_place_is(shelf: Path, tmp_path: Path) -> None:
    assert folder_obstacle(tmp_path / "deep" / "down") is None
    assert names_in(tmp_path) == ["shelf.yaml"]
    make_folder(tmp_path / "deep" / "down")
    assert "is a file, the name of a folder" in str(folder_obstacle(shelf))
    assert "Not a directory" in str(folder_obstacle(shelf / "deep"))
    assert "File name too long" in str(folder_obstacle(tmp_path / ("x" * 256)))


def test_of_several_files_none_is_written_where_one_cannot_be(shelf: Path, tmp_path: Path) -> None:
    wanted = {tmp_path / "new.yaml": "new", shelf: "other", tmp_path / "nowhere" / "x.yaml": "x"}
    with pytest.raises(FileNotWritten) as caught:
        write_all(wanted, replaces=False)
    assert [problem.file for problem in caught.value.problems] == [str(shelf), str(tmp_path / "nowhere" / "x.yaml")]
    assert names_in(tmp_path) == ["shelf.yaml"]
    write_all({tmp_path / "new.yaml": "new", shelf: TEXT}, replaces=False)  # one says just that already
    assert (tmp_path / "new.yaml").read_text() == "new"


def test_the_schemas_are_written_over_others_only_where_that_is_asked(tmp_path: Path) -> None:
    from catalog.json_schema import SCHEMA_FILES, write_schemas

    write_schemas(tmp_path, replaces=False)
    write_schemas(tmp_path, replaces=False)  # they say the same already
    assert names_in(tmp_path) == sorted(SCHEMA_FILES)
    for name in SCHEMA_FILES:
        (tmp_path / name).write_text("{}")
    with pytest.raises(FileNotWritten) as caught:
        write_schemas(tmp_path, replaces=False)
    assert len(caught.value.problems) == len(SCHEMA_FILES)
    assert {(tmp_path / name).read_text() for name in SCHEMA_FILES} == {"{}"}
    write_schemas(tmp_path, replaces=True)
    assert "{}" not in {(tmp_path / name).read_text() for name in SCHEMA_FILES}


def test_the_command_that_writes_the_schemas_leaves_those_that_are_right() -> None:
    done = subprocess.run([sys.executable, "-m", "catalog.json_schema"], capture_output=True, text=True, check=False)
    assert (done.returncode, done.stdout, done.stderr) == (0, "", "")


def test_an_entry_is_changed_added_and_taken_out() -> None:
    def edited(text: str, section: str, id: str, entry: dict[str, object] | None) -> str:
        return edit_yaml(text, value_with_entry(read_yaml(text.encode()).value, section, id, entry))  # type: ignore[arg-type]

    changed = edited(TEXT, "lines", "hose-50", {"id": "hose-50", "outer": 5.1})
    assert changed == TEXT.replace("5.0", "5.1")
    added = edited(changed, "lines", "gear-40", {"id": "gear-40", "outer": 4.0})
    assert added == changed + "  - {id: gear-40, outer: 4.0}\n"
    assert edited(added, "lines", "gear-40", None) == changed
    with_shop = edited(changed, "shop", "shop", {"trim": 10.0})
    assert with_shop == changed + "shop: {trim: 10.0}\n"
    assert edited(with_shop, "shop", "shop", None) == changed


def test_an_entry_that_is_not_there_cannot_be_taken_out() -> None:
    with pytest.raises(PartNotInCatalog, match="no lines hose-51 in the catalog; did you mean hose-50"):
        value_with_entry({"lines": [{"id": "hose-50"}]}, "lines", "hose-51", None)
