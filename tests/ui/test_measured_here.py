"""What a plan asks to be measured is typed beside its verdict, which follows; from there it goes into the frame."""

from dataclasses import replace
from pathlib import Path
from typing import Any

import pytest
from streamlit.testing.v1 import AppTest

from catalog import CatalogError, Change, Reading, open_store
from catalog.open_catalog import catalog_of_text
from planner.parts import Figure, ReadWhat
from tests.ui.page_builders import button, open_job, open_page, popovers_of, verdicts_of, words_of
from tests.ui.test_figure_text import FRAME as PLAIN
from ui.page.forms.write_reading_form import OPEN_KEY
from ui.shared.catalog_choice import CatalogChoice
from ui.shared.entry_readings import find_home, write_all
from ui.shared.figure_text import read_figure, reading_of

FRAME, HOLE = "jessamund-700", "stay-front"


def _field(page: AppTest, words: str) -> Any:
    (found,) = [one for one in page.text_input if words in one.label]
    return found


def _measured(monkeypatch: pytest.MonkeyPatch, typed: str, **asked: Any) -> AppTest:
    page = open_job(open_page(monkeypatch, **asked), "touring-unmeasured")
    assert "Save" in popovers_of(page)
    assert verdicts_of(page)[0][0] == "unknown"
    _field(page, "hole measured, mm").set_value(typed).run()
    assert not page.exception
    return page


def test_a_hole_measured_at_its_field_changes_the_answer_at_once(monkeypatch: pytest.MonkeyPatch) -> None:
    page = _measured(monkeypatch, "8")
    assert verdicts_of(page)[0][0] in ("fits", "tight")
    assert "not yet in the catalog: Chainstay, front right: hole round 8 mm" in words_of(page)
    assert "Save" not in popovers_of(page)
    _field(page, "hole measured").set_value("3,5").run()
    assert verdicts_of(page)[0][0] == "no_fit"
    _field(page, "hole measured").set_value("some").run()
    assert "cannot be read" in verdicts_of(page)[0][1]
    assert "The answer of before this change, until the field is right: No plan" in " ".join(words_of(page).split())


def test_fields_of_measures_stay_and_say_that_they_wait_while_the_form_is_in_error(
    monkeypatch: pytest.MonkeyPatch,
) -> None:
    page = open_job(open_page(monkeypatch), "touring-unmeasured")
    rotor = "Rotor wanted, mm (empty: not asked)"
    _field(page, rotor).set_value("large").run()
    field = _field(page, "hole measured")
    assert (field.value, field.disabled) == ("", True)
    assert "What is measured here waits until the form is right" in words_of(page)
    _field(page, rotor).set_value("160").run()
    _field(page, "hole measured").set_value("8").run()
    before = verdicts_of(page)
    _field(page, rotor).set_value("large").run()
    assert not page.exception
    field = _field(page, "hole measured")
    assert (field.value, field.disabled) == ("8", True)
    _field(page, rotor).set_value("160").run()
    field = _field(page, "hole measured")
    assert (field.value, field.disabled, verdicts_of(page)) == ("8", False, before)
    assert "waits until the form" not in words_of(page)


def test_what_will_change_is_told_then_written_as_a_revision_and_the_job_goes_on(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    place = tmp_path / "shop.db"
    page = _measured(monkeypatch, "8", store=place)
    before = verdicts_of(page)
    page.session_state[OPEN_KEY] = True
    page.run()
    told = words_of(page)
    assert "The store is empty: what is in use here is read into it" in told
    assert "Chainstay, front right: hole: not measured → shape round, diameter 8, tolerance 0.1" in told
    assert "readings" not in told
    _field(page, "Read with").set_value("drill shanks")
    _field(page, "Who").set_value("Mira").run()
    button(page, "Write it").click().run()
    assert not page.exception
    assert "revision 2 in the store" in words_of(page), "the empty store took the catalog in use in first"
    assert verdicts_of(page) == before
    assert not [one for one in page.text_input if "hole measured" in one.label]
    with open_store(place) as opened:
        first, second = opened.documents.history("frame", FRAME)
        ports = {port["id"]: port for port in second.content["ports"]}
        assert ports[HOLE]["opening"] == {"shape": "round", "diameter": 8, "tolerance": 0.1}
        assert (ports[HOLE]["readings"][0]["tool"], second.saved_by) == ("drill shanks", "Mira")
        assert "opening" not in {port["id"]: port for port in first.content["ports"]}[HOLE]


def test_a_store_without_the_frame_gets_a_copy_and_one_with_it_a_revision(tmp_path: Path) -> None:
    catalog = catalog_of_text("plain.frame.yaml", PLAIN)
    nothing = CatalogChoice()

    def write(readings: list[Reading]) -> int:
        (pin,) = write_all(store, readings, [], catalog, nothing, by="Mira", tool="")
        return pin.revision

    def read(typed: str) -> list[Reading]:
        found = read_figure(Figure(what=ReadWhat.OPENING, id="out"), typed)
        return [reading_of(found, frame_id="plain", by="Mira", on="2031-03-14", tool="")]

    line = {"id": "wire", "kind": "electric_wire", "outer": 2.5, "bend_radius": 10}
    with open_store(tmp_path / "shop.db") as store:
        store.documents.save(Change(kind="line", id="wire", name="Wire", content=line, based_on=None), by="Ada")
        assert find_home(store, "frame", "plain", catalog).revision is None
        write(read("7"))
        assert [one.note for one in store.documents.history("frame", "plain")][:1] == ["a copy from files"]
        revision = write(read("7,5"))
        assert (revision, len(store.documents.history("frame", "plain"))) == (3, 3)
        with pytest.raises(CatalogError):
            write([replace(read("7")[0], place_id="nowhere")])
        assert len(store.documents.history("frame", "plain")) == 3
