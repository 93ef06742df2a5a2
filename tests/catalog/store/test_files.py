"""Catalog files through the store and back: nothing is lost, comments are kept, conflicts are told."""

import shutil
from pathlib import Path

import pytest

from catalog import CatalogProblems, read_catalog
from catalog.edit_yaml import edit_yaml
from catalog.store import Store
from catalog.store_catalog import catalog_of_store
from catalog.store_errors import EditConflict, StoreRefused
from catalog.store_export import FILE_KIND, NEW_ENTRIES_FILE, exported_texts, value_with_entry
from catalog.store_import import import_files, prepare_import
from catalog.store_things import Change, Pin
from catalog.write_files import write_file
from catalog.yaml_text import read_yaml

ROOT = Path(__file__).parents[3]
TEXT = """\
# hoses we keep
format: 1
lines:
  - {id: hose-50, name: Brake hose, kind: hydraulic_hose, outer: 5.0, bore: 2.1, bend_radius: 35}   # blue reel
  # the thicker one
  - {id: hose-55, name: Thick hose, kind: hydraulic_hose, outer: 5.5, bore: 2.3, bend_radius: 40}
"""


@pytest.fixture
def shelf(tmp_path: Path) -> Path:
    path = tmp_path / "shelf.yaml"
    path.write_text(TEXT, encoding="utf-8")
    return path


def write_out(store: Store, folder: Path) -> list[Path]:
    """The catalog as the store has it now, written into a folder."""
    texts = exported_texts(store)
    for name, text in texts.items():
        write_file(folder / name, text)
    return [folder / name for name in texts]


def change_in_store(store: Store, id: str, **fields: object) -> None:
    now = store.documents.current("line", id)
    content = {**now.content, **fields}
    change = Change(kind="line", id=id, name=now.name, content=content, based_on=now.pin.revision)
    store.documents.save(change, by="Mira")


def test_our_own_files_come_back_byte_for_byte(store: Store, tmp_path: Path) -> None:
    frames = sorted((ROOT / "demo_frames").glob("*.frame.yaml"))
    starter = sorted((ROOT / "catalog" / "starter").glob("*.yaml"))
    import_files(store, [*frames, *starter], by="Mira")
    written = write_out(store, tmp_path)
    assert sorted(path.name for path in written) == sorted(path.name for path in [*frames, *starter])
    for path in [*frames, *starter]:
        assert (tmp_path / path.name).read_bytes() == path.read_bytes()


def test_what_comes_back_plans_the_same_catalog(file_store: Store, tmp_path: Path) -> None:
    frames = sorted((ROOT / "demo_frames").glob("*.frame.yaml"))
    starter = ROOT / "catalog" / "starter"
    import_files(file_store, [*frames, starter], by="Mira")
    write_out(file_store, tmp_path)
    assert read_catalog([tmp_path]).frames == read_catalog([*frames, starter]).frames


def test_an_edit_in_the_store_changes_one_line_of_the_file(store: Store, shelf: Path) -> None:
    import_files(store, [shelf], by="Mira")
    change_in_store(store, "hose-50", outer=5.1)
    assert exported_texts(store) == {"shelf.yaml": TEXT.replace("outer: 5.0,", "outer: 5.1,")}


def test_the_same_file_again_saves_nothing(store: Store, shelf: Path) -> None:
    first = import_files(store, [shelf], by="Mira")
    assert [pin.id for pin in first.saved] == ["hose-50", "hose-55"]
    again = import_files(store, [shelf], by="Mira")
    assert (again.saved, len(again.unchanged), again.kept) == ((), 2, ())
    assert len(store.documents.history(FILE_KIND, "shelf.yaml")) == 1


def test_a_changed_file_makes_a_revision_of_what_changed(store: Store, shelf: Path) -> None:
    import_files(store, [shelf], by="Mira")
    shelf.write_text(TEXT.replace("outer: 5.5", "outer: 5.6").replace("# the thicker one", "# thick"), encoding="utf-8")
    done = import_files(store, [shelf], by="Jonas")
    assert done.saved == (Pin(kind="line", id="hose-55", revision=2),)
    assert "# thick\n" in exported_texts(store)["shelf.yaml"]


def test_an_edit_in_the_store_outlives_an_old_file(store: Store, shelf: Path) -> None:
    import_files(store, [shelf], by="Mira")
    change_in_store(store, "hose-50", outer=5.1)
    shelf.write_text(TEXT.replace("outer: 5.5", "outer: 5.6"), encoding="utf-8")
    done = import_files(store, [shelf], by="Jonas")
    assert [pin.id for pin in done.saved] == ["hose-55"]
    assert done.kept == (Pin(kind="line", id="hose-50", revision=2),)
    text = exported_texts(store)["shelf.yaml"]
    assert "outer: 5.1" in text
    assert "outer: 5.6" in text


def test_an_entry_changed_in_both_is_a_conflict_and_nothing_is_saved(store: Store, shelf: Path) -> None:
    import_files(store, [shelf], by="Mira")
    change_in_store(store, "hose-50", outer=5.1)
    shelf.write_text(TEXT.replace("outer: 5.0", "outer: 5.2").replace("outer: 5.5", "outer: 5.6"), encoding="utf-8")
    with pytest.raises(
        EditConflict, match=r"line hose-50 in shelf\.yaml: .*by Mira.*outer: 5\.0 -> 5\.1.*5\.0 -> 5\.2"
    ):
        import_files(store, [shelf], by="Jonas")
    assert store.documents.current("line", "hose-55").content["outer"] == 5.5


def test_a_withdrawn_entry_leaves_its_file_and_does_not_come_back(store: Store, shelf: Path) -> None:
    import_files(store, [shelf], by="Mira")
    store.documents.withdraw("line", "hose-55", based_on=1, by="Mira")
    text = exported_texts(store)["shelf.yaml"]
    assert "hose-55" not in text
    assert "# the thicker one" in text
    assert import_files(store, [shelf], by="Jonas").kept == (Pin(kind="line", id="hose-55", revision=2),)


def test_entries_of_no_file_get_one_of_their_own(store: Store, shelf: Path, tmp_path: Path) -> None:
    import_files(store, [shelf], by="Mira")
    entry = {"id": "gear-40", "kind": "shift_housing", "outer": 4.0, "bend_radius": 45.0}
    store.documents.save(Change(kind="line", id="gear-40", name="Gear", content=entry, based_on=None), by="Mira")
    texts = exported_texts(store)
    assert sorted(texts) == [NEW_ENTRIES_FILE, "shelf.yaml"]
    folder = tmp_path / "out"
    folder.mkdir()
    write_out(store, folder)
    assert set(read_catalog([folder]).lines) == {"hose-50", "hose-55", "gear-40"}


def test_an_entry_has_one_file(store: Store, shelf: Path, tmp_path: Path) -> None:
    import_files(store, [shelf], by="Mira")
    other = shutil.copy(shelf, tmp_path / "other.yaml")
    with pytest.raises(StoreRefused, match=r"line hose-50: other\.yaml was given; it stands in shelf\.yaml already"):
        import_files(store, [other], by="Mira")


def test_a_shops_own_limits_take_the_place_of_the_starters(file_store: Store, tmp_path: Path) -> None:
    own = tmp_path / "our-shop.yaml"
    own.write_text("format: 1\nshop: {trim: 12.0}   # ours\n", encoding="utf-8")
    starter = ROOT / "catalog" / "starter"
    import_files(file_store, [own, starter], by="Mira")
    assert "shop.yaml" not in exported_texts(file_store)
    assert catalog_of_store(file_store).catalog.shop == read_catalog([own, starter]).shop


def test_a_file_with_a_mistake_saves_nothing_and_every_problem_is_told(store: Store, shelf: Path) -> None:
    shelf.write_text(TEXT.replace("outer: 5.0", "outer: 0.2").replace("bend_radius: 40", "bend: 40"), encoding="utf-8")
    with pytest.raises(CatalogProblems) as caught:
        import_files(store, [shelf], by="Mira")
    assert len(caught.value.problems) >= 2
    assert store.documents.list_current() == ()


def test_a_file_name_with_other_signs_comes_back(store: Store, tmp_path: Path) -> None:
    path = tmp_path / "our shelf, März.yaml"
    path.write_text(TEXT, encoding="utf-8")
    import_files(store, [path], by="Mira")
    assert exported_texts(store) == {"our shelf, März.yaml": TEXT}


def test_a_mark_and_windows_lines_come_back(store: Store, shelf: Path, tmp_path: Path) -> None:
    content = ("\ufeff" + TEXT).replace("\n", "\r\n").encode()
    shelf.write_bytes(content)
    import_files(store, [shelf], by="Mira")
    shutil.rmtree(tmp_path / "out", ignore_errors=True)
    (tmp_path / "out").mkdir()
    assert write_out(store, tmp_path / "out")[0].read_bytes() == content


def test_a_frame_edited_in_its_file_is_the_same_frame_after_a_round_trip(store: Store, tmp_path: Path) -> None:
    path = shutil.copy(ROOT / "demo_frames" / "trail.frame.yaml", tmp_path / "trail.yaml")
    import_files(store, [path], by="Mira")
    frame = store.documents.list_current("frame")[0]
    entry = {**frame.content, "note": "measured again"}
    text = Path(path).read_text(encoding="utf-8")
    value = value_with_entry(read_yaml(text.encode()).value, "frames", frame.pin.id, entry)
    write_file(Path(path), edit_yaml(text, value), replaces=True)
    assert import_files(store, [path], by="Jonas").saved == (Pin(kind="frame", id=frame.pin.id, revision=2),)
    assert exported_texts(store)["trail.yaml"].encode() == path.read_bytes()


def test_an_entry_that_left_its_file_stays_until_it_is_pruned(store: Store, shelf: Path) -> None:
    import_files(store, [shelf], by="Mira")
    shelf.write_text("".join(TEXT.splitlines(keepends=True)[:-1]), encoding="utf-8")
    for _ in range(2):  # it is told each time, not only the first
        told = import_files(store, [shelf], by="Mira")
        assert (told.missing, told.saved) == ((Pin(kind="line", id="hose-55", revision=1),), ())
    ready = prepare_import(store, [shelf], prunes=True)
    assert set(ready.catalog.lines) == {"hose-50"}
    assert not store.documents.current("line", "hose-55").is_withdrawn
    assert import_files(store, [shelf], by="Mira", prunes=True).removed == (Pin(kind="line", id="hose-55", revision=2),)
    assert store.documents.current("line", "hose-55").is_withdrawn
    assert sorted(exported_texts(store)) == ["shelf.yaml"]


def test_a_pruned_entry_that_comes_back_is_in_use_again(store: Store, shelf: Path) -> None:
    import_files(store, [shelf], by="Mira")
    shelf.write_text("".join(TEXT.splitlines(keepends=True)[:-1]), encoding="utf-8")
    import_files(store, [shelf], by="Mira", prunes=True)
    shelf.write_text(TEXT, encoding="utf-8")
    assert import_files(store, [shelf], by="Mira").added == (Pin(kind="line", id="hose-55", revision=3),)


def test_an_entry_changed_in_the_store_is_not_pruned_unseen(store: Store, shelf: Path) -> None:
    import_files(store, [shelf], by="Mira")
    change_in_store(store, "hose-55", outer=5.6)
    shelf.write_text("".join(TEXT.splitlines(keepends=True)[:-1]), encoding="utf-8")
    with pytest.raises(EditConflict, match=r"hose-55 in shelf\.yaml: .*it is not in the file any more"):
        import_files(store, [shelf], by="Jonas", prunes=True)


def test_an_entry_may_move_to_another_file_that_is_read_with_it(store: Store, shelf: Path, tmp_path: Path) -> None:
    import_files(store, [shelf], by="Mira")
    rows = TEXT.splitlines(keepends=True)
    shelf.write_text("".join(rows[:-1]), encoding="utf-8")
    other = tmp_path / "thick.yaml"
    other.write_text("format: 1\nlines:\n" + rows[-1].replace("outer: 5.5", "outer: 5.6"), encoding="utf-8")
    told = import_files(store, [shelf, other], by="Mira", prunes=True)
    assert ([pin for pin, _ in told.changed], told.removed) == ([Pin(kind="line", id="hose-55", revision=2)], ())
    assert sorted(exported_texts(store)) == ["shelf.yaml", "thick.yaml"]


def test_two_files_of_one_name_do_not_take_each_others_place(store: Store, shelf: Path, tmp_path: Path) -> None:
    (tmp_path / "other").mkdir()
    other = tmp_path / "other" / "shelf.yaml"
    other.write_text(TEXT.replace("hose-5", "line-5"), encoding="utf-8")
    with pytest.raises(StoreRefused, match=r"file shelf\.yaml: .* and .* was given; .*rename one of the two"):
        import_files(store, [shelf, other], by="Mira")
    import_files(store, [shelf], by="Mira")
    with pytest.raises(StoreRefused, match="another file of this name, with line hose-50 in it"):
        import_files(store, [other], by="Mira")
    assert exported_texts(store) == {"shelf.yaml": TEXT}


def test_one_file_is_held_against_the_whole_store(store: Store, tmp_path: Path) -> None:
    lines = [ROOT / "catalog" / "starter" / f"{name}.yaml" for name in ("lines", "fittings", "parts")]
    brakes = ROOT / "catalog" / "starter" / "brakes.yaml"
    import_files(store, lines, by="Mira")
    assert import_files(store, [brakes], by="Mira").added  # its lines and fittings are in the store
    used = next(revision for revision in store.documents.list_current("brake")).content["line"]
    mine = tmp_path / "lines.yaml"
    rows = lines[0].read_text(encoding="utf-8").splitlines(keepends=True)
    mine.write_text("".join(row for row in rows if f"id: {used}," not in row), encoding="utf-8")
    with pytest.raises(
        CatalogProblems, match=rf"brakes\.yaml as the store has it:\d+: brake .*there is no line {used}"
    ):
        import_files(store, [mine], by="Mira", prunes=True)
    assert not store.documents.current("line", used).is_withdrawn
