"""Lists to choose from tell labels; an id stands behind a label only where two things have the same one."""

from pathlib import Path

import pytest
from streamlit.testing.v1 import AppTest

from catalog import STARTER_FOLDER, open_store
from tests.ui.page_builders import DEMO_FOLDER, box, open_page, words_of

TRAIL = "Stronger rear brake on a trail frame"
SCREENS = {"cuts": "Saved jobs", "frames_and_brakes": "With what lies in them, as saved jobs tell"}


def _titles(page: AppTest, label: str) -> list[str]:
    (found,) = [one for one in page.multiselect if one.label == label]
    return [str(one) for one in found.options]


def _same_title_again(store: Path) -> None:
    with open_store(store) as opened:
        job = opened.jobs.get("trail-rear-brake")
        opened.jobs.save(id="again", title=job.title, content={**job.content, "id": "again"}, by="Ada")


@pytest.mark.parametrize("screen", SCREENS)
def test_saved_jobs_are_chosen_by_title(screen: str, store: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    assert _titles(open_page(monkeypatch, store=store, screen=screen), SCREENS[screen]) == [TRAIL]
    _same_title_again(store)
    page = open_page(monkeypatch, store=store, screen=screen)
    assert sorted(_titles(page, SCREENS[screen])) == [f"{TRAIL} (again)", f"{TRAIL} (trail-rear-brake)"]


def test_a_list_of_jobs_of_one_title_tells_their_ids(store: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    _same_title_again(store)
    said = words_of(open_page(monkeypatch, store=store, screen="jobs"))
    assert f"**{TRAIL} (again)**" in said


def test_entries_and_frames_are_told_by_name_and_those_of_one_name_by_their_ids_too(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    text = (DEMO_FOLDER / "spoke-only.frame.yaml").read_text(encoding="utf-8")
    files = [tmp_path / name for name in ("one.frame.yaml", "two.frame.yaml")]
    id, name, other = "fennimor-27", "Fennimor 27 steel frame (invented)", "Ambelry 3 city frame (invented)"
    files[0].write_text(text, encoding="utf-8")
    files[1].write_text(text.replace(f"- id: {id}\n", "- id: another\n", 1), encoding="utf-8")
    city = DEMO_FOLDER / "city.frame.yaml"
    page = open_page(monkeypatch, catalog=(STARTER_FOLDER, city, *files))
    assert {str(one) for one in box(page, "Frame").options} == {other, f"{name} ({id})", f"{name} (another)"}
    page.switch_page("screens/catalog.py").run()
    said = words_of(page)
    assert f"**{other}**" in said
    assert f"**{name} (another)**" in said
