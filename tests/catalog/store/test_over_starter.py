"""Own files kept in a store over the starter: what they stand in for is kept once, as the shop says it."""

from pathlib import Path

import pytest

from catalog import STARTER_FOLDER, read_catalog
from catalog.store import Store
from catalog.store_catalog import catalog_of_store
from catalog.store_errors import EditConflict
from catalog.store_export import exported_texts
from catalog.store_import import import_files
from catalog.store_things import Change

OWN = """format: 1
lines:
  - {id: hose-50x21, kind: hydraulic_hose, outer: 5.1, bore: 2.1, bend_radius: 35}
"""


@pytest.fixture
def own(tmp_path: Path) -> Path:
    path = tmp_path / "own.yaml"
    path.write_text(OWN, encoding="utf-8")
    return path


def assert_says_the_same(store: Store, own: Path) -> None:
    """The store has what the files laid over the starter have, in whatever order."""
    kept, read = catalog_of_store(store).catalog, read_catalog([own], over_starter=True)
    assert (kept.lines, kept.brakes, kept.fittings) == (read.lines, read.brakes, read.fittings)
    assert sorted(kept.workshop.methods, key=repr) == sorted(read.workshop.methods, key=repr)
    assert kept.workshop.limits == read.workshop.limits


def test_an_empty_store_gets_the_starter_without_what_own_entries_stand_in_for(file_store: Store, own: Path) -> None:
    import_files(file_store, [own], by="Mira", over_starter=True)
    assert_says_the_same(file_store, own)
    texts = exported_texts(file_store)
    assert texts["own.yaml"] == OWN
    assert "id: hose-50x21," not in texts["lines.yaml"]
    kept = [
        row
        for row in (STARTER_FOLDER / "lines.yaml").read_text(encoding="utf-8").splitlines()
        if row in texts["lines.yaml"]
    ]
    assert len(kept) > 10, "the rest of the starter's file is as it was, comments and all"


def test_a_store_that_has_the_starter_takes_the_own_entry_instead(file_store: Store, own: Path) -> None:
    import_files(file_store, [STARTER_FOLDER], by="Mira")
    imported = import_files(file_store, [own], by="Jonas", over_starter=True)
    assert [(pin.kind, pin.id, pin.revision) for pin in imported.saved] == [("line", "hose-50x21", 2)]
    assert_says_the_same(file_store, own)
    again = import_files(file_store, [own], by="Jonas", over_starter=True)
    assert again.saved == ()


def test_an_entry_of_the_starter_that_was_changed_in_the_store_is_not_overwritten(file_store: Store, own: Path) -> None:
    import_files(file_store, [STARTER_FOLDER], by="Mira")
    now = file_store.documents.current("line", "hose-50x21")
    change = Change(
        kind="line",
        id="hose-50x21",
        name=now.name,
        content={**now.content, "outer": 4.9},
        based_on=now.pin.revision,
    )
    file_store.documents.save(change, by="Mira")
    with pytest.raises(EditConflict, match=r"line hose-50x21 in own\.yaml"):
        import_files(file_store, [own], by="Jonas", over_starter=True)


def test_what_own_files_kept_earlier_say_is_not_brought_in_again_below_new_ones(file_store: Store, own: Path) -> None:
    for path in STARTER_FOLDER.glob("*.yaml"):
        (own.parent / f"ours-{path.name}").write_bytes(path.read_bytes())
    import_files(file_store, sorted(own.parent.glob("ours-*.yaml")), by="Mira")
    new = own.with_name("new.yaml")
    new.write_text("format: 1\nparts: [{id: tape}]\n", encoding="utf-8")
    imported = import_files(file_store, [new], by="Jonas", over_starter=True)
    assert [pin.id for pin in imported.saved] == ["tape"]
    kept = catalog_of_store(file_store).catalog
    assert len(kept.workshop.steps) == len(read_catalog().workshop.steps)
    assert set(kept.lines) == set(read_catalog().lines)


def test_an_own_file_with_the_name_of_one_of_the_starter_s_leaves_the_rest_of_that_one_under_another(
    file_store: Store, own: Path
) -> None:
    lines = own.rename(own.with_name("lines.yaml"))
    for _ in range(2):
        import_files(file_store, [lines], by="Mira", over_starter=True)
        assert_says_the_same(file_store, lines)
        texts = exported_texts(file_store)
        assert texts["lines.yaml"] == OWN
        assert "id: hose-55x25," in texts["starter-lines.yaml"]
    other = own.with_name("other.yaml")
    other.write_text("format: 1\nparts: [{id: tape}]\n", encoding="utf-8")
    assert [pin.id for pin in import_files(file_store, [other], by="Mira", over_starter=True).saved] == ["tape"]
    assert exported_texts(file_store)["lines.yaml"] == OWN, "the starter's file of that name does not take its place"


def test_a_changed_copy_of_the_starter_is_not_changed_back(file_store: Store, own: Path) -> None:
    lines = own.with_name("lines.yaml")
    text = (STARTER_FOLDER / "lines.yaml").read_text(encoding="utf-8")
    lines.write_text(text.replace("outer: 5.5", "outer: 5.6"), encoding="utf-8")
    import_files(file_store, [lines], by="Mira", over_starter=True)
    own.write_text("format: 1\nparts: [{id: tape}]\n", encoding="utf-8")
    import_files(file_store, [own], by="Mira", over_starter=True)
    assert catalog_of_store(file_store).catalog.lines["hose-55x25"].outer_diameter_mm == 5.6


def test_own_files_alone_bring_nothing_of_the_starter(file_store: Store, own: Path) -> None:
    import_files(file_store, [own], by="Mira")
    assert set(catalog_of_store(file_store).catalog.lines) == {"hose-50x21"}
