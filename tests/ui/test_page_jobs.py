"""Jobs and quotes on the page: saved, found, taken on, quoted, gone back to; two windows that save one job."""

import re
from io import BytesIO
from pathlib import Path

import pytest
from pypdf import PdfReader
from streamlit.testing.v1 import AppTest

from catalog import JobState, QuoteState, Store, open_store
from tests.ui.page_builders import box, button, choose_tab, markup_of, open_job, open_page, verdicts_of, words_of
from ui.page.forms.save_form import SAVE_KEY


def _field(page: AppTest, label: str) -> object:
    (found,) = [one for one in page.text_input if one.label == label]
    return found


def _jobs(monkeypatch: pytest.MonkeyPatch, place: Path, **address: str) -> AppTest:
    return open_page(monkeypatch, store=place, screen="jobs", **address)


def _with_save_open(monkeypatch: pytest.MonkeyPatch, place: Path, name: str = "trail-rear-brake") -> AppTest:
    page = open_page(monkeypatch, store=place)
    page.session_state[SAVE_KEY] = True
    return open_job(page, name)


def _kept(place: Path) -> Store:
    return open_store(place, create=False)


@pytest.fixture
def place(tmp_path: Path) -> Path:
    return tmp_path / "kept.sqlite"


def test_a_store_without_jobs_says_what_to_do(place: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    told = words_of(_jobs(monkeypatch, place))
    assert "No job is kept here yet: plan one, then press Save." in told
    assert str(place) in told


def test_a_job_saved_on_the_page_is_found_among_the_jobs(place: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    page = _with_save_open(monkeypatch, place)
    _field(page, "For whom").set_value("Ana *Berg*")
    _field(page, "Who").set_value("Mira")
    button(page, "Save the job and its plan").click().run()
    assert not page.exception
    assert "Kept: Stronger rear brake on a trail frame (trail-rear-brake, version 1), with plan 1." in words_of(page)
    assert button(page, "Undo").disabled, "saving is no step of the form"
    assert "Save the job and its plan" not in [one.label for one in page.button], "the form is folded away"
    with _kept(place) as store:
        (job,) = store.jobs.list()
        assert (job.for_whom, store.jobs.history(job.id)[0].done_by) == ("Ana *Berg*", "Mira")
        assert len(store.plans.ids_of_job(job.id)) == 1
    page = _jobs(monkeypatch, place)
    assert "for Ana *Berg*" in words_of(page)
    _field(page, "Search").set_value("BERG strong").run()
    assert "for Ana *Berg*" in words_of(page)
    _field(page, "Search").set_value("nobody").run()
    assert "No job has these words and this state." in words_of(page)


def test_saving_again_makes_the_next_version_and_somebody_elses_is_never_undone_unseen(
    place: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    page = _with_save_open(monkeypatch, place)
    button(page, "Save the job and its plan").click().run()
    other = _with_save_open(monkeypatch, place)
    for window, rotor in ((page, "160"), (other, "203")):
        window.session_state[SAVE_KEY] = True
        _field(window, "Rotor wanted, mm (empty: not asked)").set_value(rotor).run()
        button(window, "Save the job and its plan").click().run()
        assert not window.exception
    assert "version 2" in words_of(page)
    told = words_of(other)
    assert "The store has version 2 of trail-rear-brake" in told
    assert "rotor" in told
    button(other, "Save over it").click().run()
    assert not other.exception
    with _kept(place) as store:
        rotors = [store.jobs.content_at("trail-rear-brake", n).get("rotor") for n in (1, 2, 3)]
    assert rotors == [180, 160, 203]


def test_one_job_is_shown_by_its_address_and_taken_on(store: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    page = _jobs(monkeypatch, store, job="trail-rear-brake")
    assert verdicts_of(page)[0][0] == "fits"
    assert "for Ana" in words_of(page)
    assert {"Job card (PDF)", "Label for the line (PDF)"} <= {one.label for one in page.get("download_button")}
    button(page, "Take to the bench").click().run()
    assert not page.exception
    assert "on the bench" in words_of(page)
    with _kept(store) as opened:
        assert opened.jobs.get("trail-rear-brake").state is JobState.ON_THE_BENCH


def test_a_job_moved_in_another_window_is_told_and_not_moved_twice(
    store: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    page = _jobs(monkeypatch, store, job="trail-rear-brake")
    with _kept(store) as opened:
        job = opened.jobs.get("trail-rear-brake")
        opened.jobs.move(job.id, JobState.CALLED_OFF, based_on=job.version, by="Jo")
        assert "Take to the bench" in {one.label for one in page.button}
        page.run()
        assert [one.label for one in page.button if str(one.key).startswith("job_")] == ["Put back to waiting"]
        assert opened.jobs.get("trail-rear-brake").state is JobState.CALLED_OFF


def test_a_hole_is_opened_by_the_address(store: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    page = _jobs(monkeypatch, store, job="trail-rear-brake", port="stay-rear")
    assert "Chainstay, rear left" in words_of(page)
    assert "passes Chainstay, rear left" in words_of(page)
    del page.query_params["port"]  # as the way back leaves the address
    page.run()
    assert "passes Chainstay, rear left" not in words_of(page)


def test_a_job_is_quoted_handed_over_and_agreed(store: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    page = _jobs(monkeypatch, store, job="trail-rear-brake")
    button(page, "Make the quote").click().run()
    assert not page.exception
    assert "Quote 1: " in words_of(page)
    assert any(re.search(r"[0-9]\u00a0EUR</td>", one) for one in markup_of(page))  # a sum and its currency in one row
    assert "A draft: its days are counted from the day it is handed over." in words_of(page)
    for label in ("Handed over", "Agreed"):
        button(page, label).click().run()
        assert not page.exception
    with _kept(store) as opened:
        quote = opened.quotes.get(1)
        assert quote.state is QuoteState.AGREED
        assert quote.draft.for_whom == "Ana"
    assert {"Work done", "Call off"} == {one.label for one in page.button}
    made = page.get("download_button")
    assert [one.label for one in made] == ["Quote (PDF)", "Parts (CSV)"]


def test_a_quote_is_printed_with_its_number(store: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    from ui.shared.days import today_in
    from ui.shared.quote_paper import paper_of_kept, quote_paper_pdf

    page = _jobs(monkeypatch, store, job="trail-rear-brake")
    button(page, "Make the quote").click().run()
    with _kept(store) as opened:
        printed = quote_paper_pdf(paper_of_kept(opened.quotes.get(1), today=today_in("")))
    assert "Quote 1" in " ".join(sheet.extract_text() for sheet in PdfReader(BytesIO(printed)).pages)


def test_an_earlier_version_comes_back_after_its_differences_were_seen(
    store: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    with _kept(store) as opened:
        job = opened.jobs.get("trail-rear-brake")
        opened.jobs.save(
            id=job.id, title=job.title, content={**job.content, "rotor": 160}, by="Jo", based_on=1, for_whom="Ana"
        )
    page = choose_tab(_jobs(monkeypatch, store, job="trail-rear-brake"), "History")
    box(page, "Look at version").set_value(1).run()
    assert "rotor" in words_of(page)
    button(page, "Go back to version 1").click().run()
    assert not page.exception
    with _kept(store) as opened:
        now = opened.jobs.get("trail-rear-brake")
        assert (now.version, now.content) == (3, job.content)


def test_a_saved_job_opens_in_the_form_with_the_stores_catalog(store: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    page = _jobs(monkeypatch, store, job="trail-rear-brake")
    button(page, "Plan it in the form").click().run()
    assert not page.exception
    assert verdicts_of(page)[0][0] == "fits"
    assert "Catalog: the store's" in words_of(page)


@pytest.mark.parametrize("address", [{"job": "nosuch"}, {"quote": "99"}, {"quote": "1; drop"}])
def test_an_address_of_nothing_is_told(address: dict[str, str], store: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    page = _jobs(monkeypatch, store, **address)
    assert "is not in the store" in words_of(page)
