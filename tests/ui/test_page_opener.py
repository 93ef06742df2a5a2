"""Job files dropped on the page: opened, or refused with no answer beside the refusal."""

from pathlib import Path

import pytest

from catalog import open_store
from tests.ui.page_builders import DEMO_FOLDER, box, open_job, open_page, pictures_of, verdicts_of, words_of
from ui.page.forms import job_form
from ui.page.forms.job_form import AskedJob, ask_job


def test_a_job_file_dropped_on_the_page_is_opened(monkeypatch: pytest.MonkeyPatch) -> None:
    page = open_page(monkeypatch)
    path = DEMO_FOLDER / "trail-rear-brake.job.yaml"
    page.file_uploader[0].upload(path.name, path.read_bytes(), "application/yaml").run()
    assert not page.exception
    assert box(page, "Frame").value == "quillfern-130"


def test_a_job_file_with_mistakes_is_refused_with_every_one(monkeypatch: pytest.MonkeyPatch) -> None:
    page = open_page(monkeypatch)
    wrong = b"format: 1\njob:\n  id: x\n  frame: no-such\n  from: bar-right\n  to: caliper-rear\n  old: none\n"
    page.file_uploader[0].upload("wrong.yaml", wrong, "application/yaml").run()
    assert not page.exception
    told = words_of(page)
    assert "things are not right." in told or "One thing is not right." in told
    assert "wrong.yaml, line" in told
    assert "/lineplan-" not in told  # the folder it was put in to be read
    assert "This file holds no job." not in told


def test_a_catalog_file_dropped_as_a_job_is_told_where_it_goes(monkeypatch: pytest.MonkeyPatch) -> None:
    page = open_page(monkeypatch)
    page.file_uploader[0].upload("mine.yaml", b"format: 1\nlines: []\n", "application/yaml").run()
    told = words_of(page)
    assert "mine.yaml, line" in told
    assert "Catalog files are opened under Check files" in told


def test_no_answer_of_another_job_stands_beside_a_refused_file(monkeypatch: pytest.MonkeyPatch) -> None:
    page = open_job(open_page(monkeypatch), "trail-rear-brake")
    assert len(verdicts_of(page)) == 1
    page.file_uploader[0].upload("wrong.yaml", b"format: 1\njob: {id: x, frame: no-such}\n", "application/yaml").run()
    assert not page.exception
    assert "wrong.yaml, line" in words_of(page)
    assert verdicts_of(page) == []
    assert list(pictures_of(page)) == []
    (back,) = [one for one in page.button if one.key == "back_to_before"]
    back.click().run()
    assert not page.exception
    assert "wrong.yaml" not in words_of(page)
    assert len(verdicts_of(page)) == 1


def test_a_job_chosen_after_a_refused_file_is_answered(monkeypatch: pytest.MonkeyPatch) -> None:
    page = open_page(monkeypatch)
    page.file_uploader[0].upload("wrong.yaml", b"format: 1\njob: {id: x}\n", "application/yaml").run()
    assert "wrong.yaml, line" in words_of(page)
    page = open_job(page, "trail-rear-brake")
    assert "wrong.yaml" not in words_of(page)
    assert len(verdicts_of(page)) == 1


def test_a_job_is_answered_at_once_when_it_is_opened(monkeypatch: pytest.MonkeyPatch) -> None:
    drawn: list[AskedJob] = []
    monkeypatch.setattr(job_form, "ask_job", lambda catalog: drawn.append(ask_job(catalog)) or drawn[-1])
    page = open_page(monkeypatch)
    drawn.clear()
    open_job(page, "trail-rear-brake")
    assert len(drawn) == 1, "its form is drawn once on the way to its answer"
    assert len(verdicts_of(page)) == 1


def test_a_job_that_is_not_whole_any_more_comes_back_with_its_form_open(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    place = tmp_path / "kept.sqlite"
    page = open_job(open_page(monkeypatch, store=place), "trail-rear-brake")
    box(page, "Goes on").set_value(None).run()
    with open_store(place) as store:
        (draft,) = store.drafts.recent("job", most=2)
    again = open_page(monkeypatch, store=place, draft=draft.id)
    assert box(again, "Frame").value == "quillfern-130"
    assert "Plan a job" in [one.value for one in again.title]
    assert verdicts_of(again) == []
