"""The store's catalog is found as it was kept, as long as no revision of it has changed."""

from pathlib import Path

import pytest

from catalog import CatalogProblems
from catalog.store import Store
from catalog.store_catalog import catalog_of_store, catalog_with
from catalog.store_import import import_files
from catalog.store_things import Change
from tests.catalog.samples import EXAMPLE_FRAME


def test_the_same_revisions_are_read_once(file_store: Store, tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setenv("XDG_CACHE_HOME", str(tmp_path / "caches"))
    mine = tmp_path / "mine.yaml"
    text = EXAMPLE_FRAME.read_text(encoding="utf-8")
    mine.write_text(text, encoding="utf-8")
    import_files(file_store, [mine], by="Mira", over_starter=True)
    first = catalog_of_store(file_store)
    with monkeypatch.context() as patch:
        patch.setattr("catalog.store_catalog._read", lambda _: pytest.fail("it was read in full"))
        kept = catalog_of_store(file_store)
        assert (dict(kept.catalog.frames), kept.pins) == (dict(first.catalog.frames), first.pins)
        assert kept.catalog.workshop.steps == first.catalog.workshop.steps
    assert catalog_of_store(file_store, as_kept=False).catalog.frames == first.catalog.frames
    mine.write_text(text.replace("name: Brake hose 5.0 mm", "name: Another hose", 1), encoding="utf-8")
    import_files(file_store, [mine], by="Mira", over_starter=True)
    after = catalog_of_store(file_store)
    assert after.pins != first.pins
    assert after.catalog.lines["hose-50"].name == "Another hose"


def test_what_is_not_saved_yet_is_read_each_time(
    file_store: Store, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    """A change has no hash before it is saved: one that is sound once stood in for the next of its entry."""
    monkeypatch.setenv("XDG_CACHE_HOME", str(tmp_path / "caches"))
    import_files(file_store, [EXAMPLE_FRAME], by="Mira", over_starter=True)
    (now,) = [one for one in file_store.documents.list_current("line") if one.pin.id == "hose-50"]

    def changed(diameter_mm: float) -> Change:
        content = {**now.content, "outer": diameter_mm}
        return Change(kind="line", id="hose-50", name=now.name, content=content, based_on=now.pin.revision)

    assert [catalog_with(file_store, changed(mm)).lines["hose-50"].outer_diameter_mm for mm in (5.1, 5.2)] == [5.1, 5.2]
    with pytest.raises(CatalogProblems):
        catalog_with(file_store, changed(-1.0))
