"""What is kept of catalogs and jobs: the same answers as without, and as good as not there when anything is wrong."""

import json
import os
import stat
from collections.abc import Callable
from hashlib import sha256
from pathlib import Path

import pytest

from catalog import Catalog, CatalogProblems, kept_files, read_catalog, read_job, read_job_or_visit
from catalog import find_catalog as finding
from catalog.kept_files import ROOM_BYTES, as_text, find_text, find_value, keep, key_of
from catalog.plain_parts import NotPlainParts, as_plain, from_plain
from catalog.ready_catalog import catalog_as_text, catalog_of_lines
from planner.parts import Frame
from tests.catalog.samples import EXAMPLE_FRAME, EXAMPLE_JOB

DEMO = Path(__file__).parents[2] / "demo_frames"
FRAMES = sorted(DEMO.glob("*.frame.yaml"))


@pytest.fixture(autouse=True)
def caches(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    """An empty place of caches; the folder of this program in it."""
    monkeypatch.setenv("XDG_CACHE_HOME", str(tmp_path))
    finding._found.cache_clear()
    return tmp_path / "lineplan"


def read_again(paths: list[Path]) -> Catalog:
    """The catalog as a program that starts now would read it."""
    finding._found.cache_clear()
    return read_catalog(paths, over_starter=True)


def read_in_full(*_: object) -> Catalog:
    raise AssertionError("it was read in full")


def test_a_kept_catalog_says_what_was_read(monkeypatch: pytest.MonkeyPatch) -> None:
    first = read_again(FRAMES)
    with monkeypatch.context() as patch:
        patch.setattr(finding, "_in_full", read_in_full)
        kept = read_again(FRAMES)
        assert (kept.read_from, kept.stands_in, kept.key) == (first.read_from, first.stands_in, first.key)
        assert (kept.workshop.limits, kept.workshop.steps) == (first.workshop.limits, first.workshop.steps)
        for shelf in ("frames", "lines", "fittings", "brakes"):
            assert list(getattr(kept, shelf)) == list(getattr(first, shelf))
            assert {key: repr(part) for key, part in getattr(kept, shelf).items()} == {
                key: repr(part).replace("Spread", "") for key, part in getattr(first, shelf).items()
            }
    assert repr(kept.workshop.methods) == repr(first.workshop.methods)
    again = read_again(FRAMES)
    assert (again.entries, again.shop) == (first.entries, first.shop)  # read in full for this


@pytest.mark.parametrize("job_file", sorted(DEMO.glob("*.job.yaml")), ids=lambda path: path.name)
def test_a_kept_job_is_the_job(job_file: Path) -> None:
    catalog = read_again(FRAMES)
    opened = read_job_or_visit(job_file, catalog)
    kept = find_value(key_of("job", catalog.key, sha256(job_file.read_bytes()).hexdigest()))
    assert from_plain(kept) == opened == read_job_or_visit(job_file, catalog)


def test_a_change_anywhere_is_read_anew(tmp_path: Path) -> None:
    mine = tmp_path / "mine.yaml"
    text = EXAMPLE_FRAME.read_text(encoding="utf-8")
    mine.write_text(text, encoding="utf-8")
    before = read_again([mine])
    frame_id = next(id for id in before.frames if id in text)
    mine.write_text(text.replace(f"id: {frame_id}", "id: another-frame", 1), encoding="utf-8")
    after = read_again([mine])
    assert "another-frame" in after.frames
    assert "another-frame" not in before.frames
    assert before.key != after.key


def test_what_is_wrong_is_told_every_time_and_never_kept(tmp_path: Path) -> None:
    bad = tmp_path / "bad.yaml"
    bad.write_text("format: 1\nlines:\n- {id: a, name: A, kind: hydraulic_hose, outer: 99, bend_radius: 20}\n")
    for _ in range(2):
        with pytest.raises(CatalogProblems, match=r"bad.yaml:3: line a > outer"):
            read_again([bad])
    with pytest.raises(CatalogProblems, match="there is no such file"):
        read_again([tmp_path / "none.yaml"])


def broken(path: Path, content: bytes) -> None:
    path.write_bytes(content)


def sealed(path: Path, text: bytes) -> None:
    """As somebody could write it who knows the seal."""
    path.write_bytes(sha256(path.name.encode() + text).hexdigest().encode() + b"\n" + text)


FAULTS: dict[str, Callable[[Path, bytes], None]] = {
    "empty": lambda path, _: broken(path, b""),
    "torn": lambda path, content: broken(path, content[: len(content) // 2]),
    "a changed figure": lambda path, content: broken(path, content.replace(b"5", b"6")),
    "of another key": lambda path, content: broken(path, content.replace(content[:4], b"0000", 1)),
    "no text": lambda path, _: broken(path, bytes(range(256))),
    "sealed, not JSON": lambda path, _: sealed(path, b"{"),
    "sealed, another thing": lambda path, _: sealed(path, b'{"a": 1}'),
    "sealed, of no class": lambda path, content: sealed(
        path, content.split(b"\n", 1)[1].replace(b"Workshop", b"Popen")
    ),
    "sealed, a part of no class": lambda path, content: sealed(
        path, content.split(b"\n", 1)[1].replace(b'"Frame"', b'"Popen"').replace(b'"Job"', b'"Popen"')
    ),
    "a folder": lambda path, _: (path.unlink(), path.mkdir())[0],
}


@pytest.mark.parametrize("fault", FAULTS)
def test_what_is_not_as_it_was_written_is_as_good_as_not_there(caches: Path, fault: str) -> None:
    first = read_again([EXAMPLE_FRAME])
    job = read_job(EXAMPLE_JOB, first)
    for path in caches.iterdir():
        FAULTS[fault](path, path.read_bytes())
    again = read_again([EXAMPLE_FRAME])
    assert dict(again.frames) == dict(first.frames)
    assert read_job(EXAMPLE_JOB, again) == job


def test_nothing_but_parts_is_made_of_what_is_read() -> None:
    for value in (
        {"class": "Popen", "args": "id"},
        {"class": "Line", "id": "a"},
        {"enum": "Line", "value": 1},
        {"x": 1},
    ):
        with pytest.raises(NotPlainParts):
            from_plain(value)


def test_a_part_comes_back_as_the_same_sort_of_number() -> None:
    for frame in read_again(FRAMES).frames.values():
        again = from_plain(json.loads(json.dumps(as_plain(frame))))
        assert isinstance(again, Frame)
        assert repr(again) == repr(frame)


def test_the_folder_is_the_users_own(caches: Path) -> None:
    read_again([EXAMPLE_FRAME])
    assert stat.S_IMODE(caches.stat().st_mode) == 0o700
    assert {stat.S_IMODE(path.stat().st_mode) for path in caches.iterdir()} == {0o600}


@pytest.mark.parametrize("mode", [0o770, 0o707, 0o755], ids=oct)
def test_a_folder_that_others_may_write_or_see_is_not_used(caches: Path, mode: int) -> None:
    key = key_of("test", "a")
    keep(key, lambda: as_text(1))
    assert find_value(key) == 1
    caches.chmod(mode)
    assert find_text(key) is None
    keep(key_of("test", "b"), lambda: as_text(2))
    assert len(list(caches.iterdir())) == 1


def test_a_link_in_place_of_the_folder_is_not_followed(caches: Path, tmp_path: Path) -> None:
    elsewhere = tmp_path / "elsewhere"
    elsewhere.mkdir(mode=0o700)
    caches.symlink_to(elsewhere)
    keep(key_of("test", "a"), lambda: as_text(1))
    assert list(elsewhere.iterdir()) == []


def test_nothing_is_kept_where_that_is_switched_off(caches: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setenv("LINEPLAN_CACHE", "off")
    read_job(EXAMPLE_JOB, read_again([EXAMPLE_FRAME]))
    assert not caches.exists()


def test_without_a_place_to_keep_things_all_is_read(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    file = tmp_path / "file"
    file.write_text("in the way")
    monkeypatch.setenv("XDG_CACHE_HOME", str(file))
    assert read_again([EXAMPLE_FRAME]).frames


def test_the_oldest_things_give_way(caches: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    assert ROOM_BYTES >= 100_000_000
    monkeypatch.setattr("catalog.kept_files.ROOM_BYTES", 1200)
    keys = [key_of("test", str(number)) for number in range(4)]
    for age, key in enumerate(keys):
        keep(key, lambda: as_text("x" * 300))
        os.utime(caches / key, (1000 + age, 1000 + age))
    kept_files._make_room.cache_clear()  # as in another program
    keep(key_of("test", "new"), lambda: as_text("x" * 300))
    assert [find_value(key) is not None for key in keys] == [False, False, True, True]


def test_a_kept_catalog_is_refused_where_no_catalog_was_kept() -> None:
    catalog = read_again([EXAMPLE_FRAME])
    text = catalog_as_text(catalog)
    for wrong in (b"", b"[]", b"{}", text.split(b"\n")[0]):
        with pytest.raises(NotPlainParts):
            catalog_of_lines(wrong, key="", in_full=read_in_full)
