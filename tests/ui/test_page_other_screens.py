"""The quick question, the check of files and the catalog, without a browser."""

import re
from typing import Any

import pytest
from streamlit.testing.v1 import AppTest

from catalog import STARTER_FOLDER
from tests.ui.page_builders import DEMO_FOLDER, box, button, open_page, pictures_of, verdicts_of, words_of
from ui.page.session import demo_frames
from ui.page.views.entry_list import KIND_WORDS


def _fit_screen(monkeypatch: pytest.MonkeyPatch) -> AppTest:
    return open_page(monkeypatch).switch_page("screens/will_it_pass.py").run()


def _number(page: AppTest, label: str) -> Any:
    (found,) = [one for one in page.text_input if one.label == label]
    return found


def _ask_slot(page: AppTest, *, things: tuple[float, ...]) -> AppTest:
    _number(page, "Length along the tube, mm").set_value("19")
    _number(page, "Width, mm").set_value("7")
    _number(page, "Wall, mm").set_value("1,6")
    _number(page, "Tilt, degrees").set_value("50")
    for number, diameter in enumerate(things, 1):
        _number(page, f"Thing {number}, Ø mm").set_value(f"{diameter:g} mm")
    page.run()
    assert not page.exception
    return page


def test_the_quick_question_says_what_to_give(monkeypatch: pytest.MonkeyPatch) -> None:
    assert "Give the size of the hole" in words_of(_fit_screen(monkeypatch))


def test_two_things_that_pass_are_told_to_pass(monkeypatch: pytest.MonkeyPatch) -> None:
    page = _ask_slot(_fit_screen(monkeypatch), things=(5.2, 4.0))
    assert verdicts_of(page) == [("fits", "It passes: 5.2 + 4 mm through slot 19x7 mm.")]
    assert [one.label for one in page.metric] == ["Clearance", "In the worst case"]
    assert page.metric[0].value.endswith(" mm")


def test_a_thing_too_large_does_not_pass(monkeypatch: pytest.MonkeyPatch) -> None:
    page = _ask_slot(_fit_screen(monkeypatch), things=(7.4,))
    ((outcome, sentence),) = verdicts_of(page)
    assert outcome == "no_fit"
    assert sentence.startswith("It does not pass")


def test_sizes_tilt_and_wall_may_be_ranges(monkeypatch: pytest.MonkeyPatch) -> None:
    page = _ask_slot(_fit_screen(monkeypatch), things=(5.2, 4.0))
    before = page.metric[1].value
    _number(page, "Tilt, degrees").set_value("45..55°")
    _number(page, "Wall, mm").set_value("1,4..1,8")
    _number(page, "Length along the tube, mm").set_value("18,5..19,5").run()
    assert not page.exception
    assert page.metric[1].value < before
    assert "Read as 50 ± 5 °" in words_of(page)
    ((_, sentence),) = verdicts_of(page)
    assert sentence.endswith("through slot 18.5..19.5x7 mm.")
    _number(page, "Tilt, degrees").set_value("55..45").run()
    assert not page.metric
    assert "is not a range from a smaller to a larger number" in words_of(page)


def test_what_went_in_proves_no_no(monkeypatch: pytest.MonkeyPatch) -> None:
    page = _fit_screen(monkeypatch)
    page.segmented_control[0].set_value("gauge").run()
    _number(page, "What went in, Ø mm").set_value("6.4")
    _number(page, "Thing 1, Ø mm").set_value("6.5").run()
    assert verdicts_of(page) == [("unknown", "Not proven: measure: 6.5 mm through at least 6.4 mm.")]
    assert "Only what went in is sure of this hole: measure it." in words_of(page)


@pytest.mark.parametrize("shape", ["round", "oval", "box", "gauge", "outline"])
def test_every_shape_can_be_asked_about(shape: str, monkeypatch: pytest.MonkeyPatch) -> None:
    page = _fit_screen(monkeypatch)
    page.segmented_control[0].set_value(shape).run()
    if shape == "outline":
        page.text_input[0].set_value("0,0 12,0 12,9 0,9")
    for label in ("Diameter, mm", "What went in, Ø mm", "Length along the tube, mm", "Width, mm", "Corner radius, mm"):
        for one in page.text_input:
            if one.label == label:
                one.set_value("1" if label.startswith("Corner") else "8,0")
    _number(page, "Thing 1, Ø mm").set_value("5.0")
    page.run()
    assert not page.exception
    assert page.metric


def test_an_outline_that_is_not_understood_is_told_in_a_sentence(monkeypatch: pytest.MonkeyPatch) -> None:
    page = _fit_screen(monkeypatch)
    page.segmented_control[0].set_value("outline").run()
    page.text_input[0].set_value("a banana")
    _number(page, "Thing 1, Ø mm").set_value("5.0")
    page.run()
    assert not page.exception
    assert page.error


def test_a_stiff_piece_is_asked_with_the_bore_behind_the_hole(monkeypatch: pytest.MonkeyPatch) -> None:
    page = _fit_screen(monkeypatch)
    _number(page, "Stiff length, mm").set_value("21").run()
    page = _ask_slot(page, things=(5.2,))
    assert "Give both the stiff length and the bore of the tube, or neither" in words_of(page)
    assert not page.metric, "half a question has no answer"
    _number(page, "Clear bore of the tube, mm").set_value("44").run()
    assert not page.exception
    assert "A stiff piece up to" in words_of(page)


def test_a_decimal_comma_is_a_decimal_comma(monkeypatch: pytest.MonkeyPatch) -> None:
    page = _ask_slot(_fit_screen(monkeypatch), things=(4.0,))
    _number(page, "Width, mm").set_value("4,5").run()
    ((_, sentence),) = verdicts_of(page)
    assert sentence.endswith("4 mm through slot 19x4.5 mm.")
    assert "Read as 4.5 mm" in words_of(page)


@pytest.mark.parametrize(
    "label", ["Width, mm", "Wall, mm", "Hole ± mm (empty: the shop's)", "Thing 2, Ø mm", "Stiff length, mm"]
)
def test_what_is_no_number_is_told_at_its_field_and_nothing_is_answered(
    label: str, monkeypatch: pytest.MonkeyPatch
) -> None:
    page = _ask_slot(_fit_screen(monkeypatch), things=(5.2,))
    assert page.metric
    _number(page, label).set_value("1,234.5").run()
    assert not page.exception
    assert "“1,234.5” has marks between thousands" in words_of(page)
    assert "Put right what is marked" in words_of(page)
    assert not page.metric
    assert not verdicts_of(page)


def test_a_wall_that_was_not_told_is_asked_for_where_it_matters(monkeypatch: pytest.MonkeyPatch) -> None:
    page = _ask_slot(_fit_screen(monkeypatch), things=(5.2,))
    _number(page, "Wall, mm").set_value("").run()
    assert "Give the thickness of the wall" in words_of(page)
    assert not page.metric
    _number(page, "Tilt, degrees").set_value("0").run()
    assert page.metric, "square through a hole, the wall takes nothing away"


@pytest.mark.parametrize("corners", ["0,0 12,9 12,0 0,9", "0,0 9,0 0,0 9,9", "0,0 9,0 4,0"])
def test_an_outline_that_crosses_itself_is_told_in_a_sentence(corners: str, monkeypatch: pytest.MonkeyPatch) -> None:
    page = _fit_screen(monkeypatch)
    page.segmented_control[0].set_value("outline").run()
    page.text_input[0].set_value(corners)
    _number(page, "Thing 1, Ø mm").set_value("5")
    page.run()
    assert not page.exception
    assert page.error
    assert not page.metric


def test_the_page_tells_no_scale_for_a_picture_of_any_size(monkeypatch: pytest.MonkeyPatch) -> None:
    page = _fit_screen(monkeypatch)
    _number(page, "Stiff length, mm").set_value("21")
    _number(page, "Clear bore of the tube, mm").set_value("44")
    pictures = pictures_of(_ask_slot(page, things=(5.2, 4.0)))
    assert set(pictures) == {"fit_hole", "fit_motion", "fit_shapes"}
    for svg in pictures.values():
        assert not re.search(r"[Tt]rue size|Enlarged|Scale|\d:\d", svg)


def _check_screen(monkeypatch: pytest.MonkeyPatch) -> AppTest:
    return open_page(monkeypatch).switch_page("screens/check_files.py").run()


def test_checking_says_what_to_do_first(monkeypatch: pytest.MonkeyPatch) -> None:
    assert "Drop one or more files above" in words_of(_check_screen(monkeypatch))


def test_every_problem_in_a_file_is_shown_with_its_line(monkeypatch: pytest.MonkeyPatch) -> None:
    page = _check_screen(monkeypatch)
    wrong = b"format: 1\nlines:\n  - {id: a, name: A, kind: hose, outer: 0.2}\n  - {id: b, nam: B}\n"
    page.file_uploader[0].upload("my mine.yaml", wrong, "application/yaml").run()
    assert not page.exception
    told = words_of(page)
    assert "things are not right." in told
    assert "my mine.yaml, line 3" in told
    assert "mine.yaml, line 4" in told
    assert "/tmp" not in told


def test_a_sound_catalog_can_be_used_and_left_again(monkeypatch: pytest.MonkeyPatch) -> None:
    page = open_page(monkeypatch, catalog=(STARTER_FOLDER,)).switch_page("screens/check_files.py").run()
    path = DEMO_FOLDER / "trail.frame.yaml"
    page.file_uploader[0].upload(path.name, path.read_bytes(), "application/yaml")
    page.checkbox[0].check().run()
    assert "Nothing is wrong with these files." in words_of(page)
    button(page, "Plan with these files").click().run()
    assert not page.exception
    assert "Catalog: trail.frame.yaml, 1 frame" in words_of(page)
    page.switch_page("screens/check_files.py").run()
    button(page, "Back to the catalog the page was started with").click().run()
    assert "In use:" not in words_of(page)


HOSE = (
    b"format: 1\nlines:\n  - {id: my-hose, name: My hose, kind: hydraulic_hose, outer: 5, bore: 2.3, bend_radius: 30}\n"
)


def test_files_that_share_a_name_are_all_checked_and_told_apart(monkeypatch: pytest.MonkeyPatch) -> None:
    page = _check_screen(monkeypatch)
    wrong = b"format: 1\nlines:\n  - {id: b, nam: B}\n"
    page.file_uploader[0].set_value([("mine.yaml", wrong, "application/yaml"), ("mine.yaml", HOSE, "application/yaml")])
    page.run()
    assert not page.exception
    assert "mine.yaml (no. 1 of this name), line 3" in words_of(page)
    assert not page.success


def test_a_likely_slip_is_asked_about_and_refuses_nothing(monkeypatch: pytest.MonkeyPatch) -> None:
    page = _check_screen(monkeypatch)
    slip = (DEMO_FOLDER / "trail.frame.yaml").read_bytes().replace(b"at: [404, 25, 512]", b"at: [404, 25, 51.2]")
    page.file_uploader[0].set_value([("trail.yaml", slip, "application/yaml")]).run()
    assert not page.exception
    told = words_of(page)
    assert "Nothing is wrong with these files." in told
    assert "was that meant?" in told
    assert "z 512?" in told
    assert "trail.yaml, line 20" in told


def test_an_entry_that_two_files_have_names_the_other_as_its_sender_does(monkeypatch: pytest.MonkeyPatch) -> None:
    page = _check_screen(monkeypatch)
    sent = [("a b.yaml", HOSE, "application/yaml"), ("c.yaml", HOSE, "application/yaml")]
    page.file_uploader[0].set_value(sent).run()
    assert not page.exception
    told = words_of(page)
    assert "a b.yaml:3" in told
    assert "lineplan-" not in told


def _send(page: AppTest, *names: str) -> AppTest:
    sent = [(name, (DEMO_FOLDER / name).read_bytes(), "application/yaml") for name in names]
    page.file_uploader[0].set_value(sent).run()
    assert not page.exception
    assert "Nothing is wrong with these files." in words_of(page)
    return page


def test_a_job_sent_with_its_catalog_is_planned(monkeypatch: pytest.MonkeyPatch) -> None:
    page = open_page(monkeypatch, catalog=(STARTER_FOLDER,)).switch_page("screens/check_files.py").run()
    _send(page, "trail-rear-brake.job.yaml", "trail.frame.yaml")
    button(page, "Plan with these files").click().run()
    assert not page.exception
    assert "It fits: Dunmere 4 rear" in words_of(page)
    assert box(page, "Frame").value == "quillfern-130"


def test_a_job_sent_alone_is_held_against_the_catalog_in_use_and_planned(monkeypatch: pytest.MonkeyPatch) -> None:
    page = _send(_check_screen(monkeypatch), "trail-rear-brake.job.yaml")
    button(page, "Plan with these files").click().run()
    assert not page.exception
    assert "It fits: Dunmere 4 rear" in words_of(page)
    assert len(box(page, "Frame").options) == len(demo_frames())


def test_of_several_jobs_sent_the_one_to_plan_is_asked(monkeypatch: pytest.MonkeyPatch) -> None:
    page = _send(_check_screen(monkeypatch), "trail-rear-brake.job.yaml", "spoke-only.job.yaml")
    box(page, "Job to plan").set_value("spoke-only.job.yaml").run()
    button(page, "Plan with these files").click().run()
    assert not page.exception
    assert box(page, "Frame").value != "quillfern-130"
    assert page.tabs


def test_a_file_that_is_no_text_is_refused_in_a_sentence(monkeypatch: pytest.MonkeyPatch) -> None:
    page = _check_screen(monkeypatch)
    page.file_uploader[0].upload("picture.yaml", b"\x89PNG\r\n\x1a\n\xff\xfe\x00", "application/yaml").run()
    assert not page.exception
    assert page.error


@pytest.mark.parametrize("kind", KIND_WORDS)
def test_every_kind_of_the_catalog_can_be_looked_through(kind: str, monkeypatch: pytest.MonkeyPatch) -> None:
    page = open_page(monkeypatch, screen="catalog")
    page.segmented_control[0].set_value(kind).run()
    assert not page.exception
    assert page.get("page_link")


def test_the_catalog_can_be_narrowed_down_by_name(monkeypatch: pytest.MonkeyPatch) -> None:
    page = open_page(monkeypatch, screen="catalog")
    assert len(page.get("page_link")) == len(demo_frames())
    page.text_input[0].set_value("QUILL trail").run()
    assert len(page.get("page_link")) == 1
    page.text_input[0].set_value("zzz").run()
    assert "Nothing here has these words." in words_of(page)
