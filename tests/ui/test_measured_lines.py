"""What was read of a hose or a fitting goes into its entry; of one old piece it counts in this answer alone."""

from pathlib import Path
from typing import Any

import pytest
from streamlit.testing.v1 import AppTest

from catalog import STARTER_FOLDER, open_store
from planner.parts import Figure, LineFigure
from tests.ui.page_builders import DEMO_FOLDER, button, open_page, popovers_of, verdicts_of, words_of
from ui.page.forms.write_reading_form import OPEN_KEY
from ui.page.session import JOB_READINGS
from ui.shared.catalog_choice import CatalogChoice, catalog_of_files
from ui.shared.entry_readings import find_home, write_all
from ui.shared.figure_text import line_reading_of, read_figure
from ui.shared.page_start import JOB_VARIABLE

HOSE, BORE = "hose-50x21", ", bore: 2.1"


def _field(page: AppTest, words: str) -> Any:
    (found,) = [one for one in page.text_input if words in one.label]
    return found


def _opened(tmp_path: Path, patch: pytest.MonkeyPatch) -> AppTest:
    """The demo's trail job with a hose whose bore nobody has told."""
    lines = tmp_path / "lines.yaml"
    text = (STARTER_FOLDER / "lines.yaml").read_text(encoding="utf-8")
    lines.write_text(text.replace(BORE, "", 1), encoding="utf-8")
    others = (path for path in STARTER_FOLDER.glob("*.yaml") if path.name != lines.name)
    patch.setenv(JOB_VARIABLE, str(DEMO_FOLDER / "trail-rear-brake.job.yaml"))
    catalog = (*sorted(others), lines, DEMO_FOLDER / "trail.frame.yaml")
    return open_page(patch, catalog=catalog, store=tmp_path / "shop.db")


def test_a_bore_that_was_read_goes_into_the_line_with_a_revision(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    page = _opened(tmp_path, monkeypatch)
    assert verdicts_of(page)[0][0] == "unknown"
    _field(page, "bore measured, mm").set_value("2,1").run()
    assert verdicts_of(page)[0][0] in ("fits", "tight")
    before = verdicts_of(page)
    assert "counts in this answer only" not in words_of(page)
    page.session_state[OPEN_KEY] = True
    page.run()
    assert "Every job with this line is then planned with it." in words_of(page)
    assert "bore: not measured → 2.1" in words_of(page)
    _field(page, "Read with").set_value("pin gauges")
    _field(page, "Who").set_value("Mira").run()
    button(page, "Write it").click().run()
    assert not page.exception
    assert "Written into Brake hose 5.0 with bore 2.1, revision 2 in the store" in words_of(page)
    assert verdicts_of(page) == before
    assert not [one for one in page.text_input if "bore measured" in one.label]
    assert "Save" in popovers_of(page)
    with open_store(tmp_path / "shop.db") as opened:
        first, second = opened.documents.history("line", HOSE)
        assert ("bore" in first.content, second.content["bore"]) == (False, 2.1)
        assert (second.note, second.saved_by) == ("bore read as 2.1 with pin gauges", "Mira")


def test_how_thick_the_old_line_is_counts_here_alone_and_says_so(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    page = _opened(tmp_path, monkeypatch)
    page.session_state[f"{JOB_READINGS}read|quillfern-130|{LineFigure.OLD_OUTER}|{HOSE}"] = "5.2"
    page.run()
    assert "The old line, outside: counts in this answer only" in words_of(page)
    assert not [label for label in popovers_of(page) if label.startswith("Write it into") or label == "Save"]


def test_figures_of_fittings_and_of_a_frame_are_written_at_once_or_not_at_all(tmp_path: Path) -> None:
    catalog = catalog_of_files((), is_bare=False)
    fitting = next(iter(catalog.entries.fittings))
    holds = read_figure(Figure(what=LineFigure.JOINT_HOLDS, id=fitting.id), "35")
    (reading,) = [one for one in [line_reading_of(holds)] if one is not None]
    with open_store(tmp_path / "shop.db") as store:
        home = find_home(store, "fitting", fitting.id, catalog)
        assert (home.revision, home.is_store_empty) == (None, True)
        (pin,) = write_all(store, [], [reading], catalog, CatalogChoice(), by="Mira", tool="")
        assert (pin.kind, pin.id) == ("fitting", fitting.id)
        assert store.documents.current("fitting", fitting.id).content["joint_holds"] == 35
    assert line_reading_of(read_figure(Figure(what=LineFigure.STAYING_OUTER, id=HOSE), "5")) is None
