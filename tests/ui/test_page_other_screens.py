"""The quick question, the check of files and the catalog, without a browser."""

import pytest
from streamlit.testing.v1 import AppTest

from catalog import STARTER_FOLDER
from tests.ui.page_builders import DEMO_FOLDER, button, open_page, words_of
from ui.page.session import demo_frames


def _fit_screen(monkeypatch: pytest.MonkeyPatch) -> AppTest:
    return open_page(monkeypatch).switch_page("screens/will_it_pass.py").run()


def _number(page: AppTest, label: str):
    (found,) = [one for one in page.number_input if one.label == label]
    return found


def _ask_slot(page: AppTest, *, things: tuple[float, ...]) -> AppTest:
    _number(page, "Length along the tube, mm").set_value(19.0)
    _number(page, "Width, mm").set_value(7.0)
    _number(page, "Wall, mm").set_value(1.6)
    page.slider[0].set_value(50)
    for number, diameter in enumerate(things, 1):
        _number(page, f"Thing {number}, Ø mm").set_value(diameter)
    page.run()
    assert not page.exception
    return page


def test_the_quick_question_says_what_to_give(monkeypatch: pytest.MonkeyPatch) -> None:
    assert "Give the size of the hole" in words_of(_fit_screen(monkeypatch))


def test_two_things_that_pass_are_told_to_pass(monkeypatch: pytest.MonkeyPatch) -> None:
    page = _ask_slot(_fit_screen(monkeypatch), things=(5.2, 4.0))
    assert any("5.2 + 4 mm through slot 19x7 mm" in str(one.value) for one in page.success)
    assert [one.label for one in page.metric] == ["Clearance", "In the worst case"]
    assert page.metric[0].value.endswith(" mm")


def test_a_thing_too_large_does_not_pass(monkeypatch: pytest.MonkeyPatch) -> None:
    page = _ask_slot(_fit_screen(monkeypatch), things=(7.4,))
    assert any("It does not pass" in str(one.value) for one in page.error)


@pytest.mark.parametrize("shape", ["round", "oval", "box", "outline"])
def test_every_shape_can_be_asked_about(shape: str, monkeypatch: pytest.MonkeyPatch) -> None:
    page = _fit_screen(monkeypatch)
    page.segmented_control[0].set_value(shape).run()
    if shape == "outline":
        page.text_input[0].set_value("0,0 12,0 12,9 0,9")
    for label in ("Diameter, mm", "Length along the tube, mm", "Width, mm", "Corner radius, mm"):
        for one in page.number_input:
            if one.label == label:
                one.set_value(1.0 if label.startswith("Corner") else 8.0)
    _number(page, "Thing 1, Ø mm").set_value(5.0)
    page.run()
    assert not page.exception
    assert page.metric


def test_an_outline_that_is_not_understood_is_told_in_a_sentence(monkeypatch: pytest.MonkeyPatch) -> None:
    page = _fit_screen(monkeypatch)
    page.segmented_control[0].set_value("outline").run()
    page.text_input[0].set_value("a banana")
    _number(page, "Thing 1, Ø mm").set_value(5.0)
    page.run()
    assert not page.exception
    assert page.error


def test_a_stiff_piece_is_asked_with_the_bore_behind_the_hole(monkeypatch: pytest.MonkeyPatch) -> None:
    page = _fit_screen(monkeypatch)
    _number(page, "Stiff length, mm").set_value(21.0).run()
    assert "Give both, or neither." in words_of(page)
    _number(page, "Clear bore of the tube, mm").set_value(44.0)
    page = _ask_slot(page, things=(5.2,))
    assert "A stiff piece up to" in words_of(page)


def _check_screen(monkeypatch: pytest.MonkeyPatch) -> AppTest:
    return open_page(monkeypatch).switch_page("screens/check_files.py").run()


def test_checking_says_what_to_do_first(monkeypatch: pytest.MonkeyPatch) -> None:
    assert "Drop one or more files above" in words_of(_check_screen(monkeypatch))


def test_every_problem_in_a_file_is_shown_with_its_line(monkeypatch: pytest.MonkeyPatch) -> None:
    page = _check_screen(monkeypatch)
    wrong = b"format: 1\nlines:\n  - {id: a, name: A, kind: hose, outer: 0.2}\n  - {id: b, nam: B}\n"
    page.file_uploader[0].upload("mine.yaml", wrong, "application/yaml").run()
    assert not page.exception
    told = words_of(page)
    assert "things are not right." in told
    assert "mine.yaml, line 3" in told
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
    page.switch_page("screens/plan_a_job.py").run()
    assert "Catalog: trail.frame.yaml, 1 frame" in words_of(page)
    page.switch_page("screens/check_files.py").run()
    button(page, "Back to the catalog the page was started with").click().run()
    assert "In use:" not in words_of(page)


def test_a_file_that_is_no_text_is_refused_in_a_sentence(monkeypatch: pytest.MonkeyPatch) -> None:
    page = _check_screen(monkeypatch)
    page.file_uploader[0].upload("picture.yaml", b"\x89PNG\r\n\x1a\n\xff\xfe\x00", "application/yaml").run()
    assert not page.exception
    assert page.error


@pytest.mark.parametrize("section", ["Frames", "Brakes", "Lines", "Fittings", "Methods", "Small parts", "Shop limits"])
def test_every_section_of_the_catalog_can_be_looked_through(section: str, monkeypatch: pytest.MonkeyPatch) -> None:
    page = open_page(monkeypatch).switch_page("screens/browse_catalog.py").run()
    page.segmented_control[0].set_value(section).run()
    assert not page.exception
    assert len(page.markdown) + len(page.expander) > 0


def test_the_catalog_can_be_narrowed_down_by_name(monkeypatch: pytest.MonkeyPatch) -> None:
    page = open_page(monkeypatch).switch_page("screens/browse_catalog.py").run()
    assert len(page.expander) == len(demo_frames())
    page.text_input[0].set_value("quillfern").run()
    assert len(page.expander) == 1
    page.text_input[0].set_value("zzz").run()
    assert "Nothing here contains “zzz”" in words_of(page)
