"""Job files dropped on the page: opened, or refused with no answer beside the refusal."""

import pytest

from tests.ui.page_builders import DEMO_FOLDER, box, open_job, open_page, pictures_of, verdicts_of, words_of


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
