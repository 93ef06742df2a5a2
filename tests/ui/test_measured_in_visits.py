"""What a visit asks to be measured is typed beside its verdict in the fields that one line has, and kept likewise."""

from dataclasses import replace
from pathlib import Path
from typing import Any

import pytest
from streamlit.testing.v1 import AppTest

from catalog import STARTER_FOLDER, open_store
from planner import first_figures_of_visit, visit_as_read
from planner.parts import Figure, FigureRead, LineFigure, ReadWhat, StayingLine
from tests.planner.whole_bike.cockpit import cockpit, planned
from tests.ui.page_builders import DEMO_FOLDER, button, open_page, popovers_of, verdicts_of, words_of
from ui.page.forms.write_reading_form import OPEN_KEY
from ui.shared.page_start import JOB_VARIABLE

HOLE = "stay-exit"
OPENING = "opening: {shape: round, diameter: 12.0, tolerance: 0.1}"


def _field(page: AppTest, words: str) -> Any:
    (found,) = [one for one in page.text_input if words in one.label]
    return found


def _opened(tmp_path: Path, patch: pytest.MonkeyPatch, **asked: Any) -> AppTest:
    """The demo's cockpit swap on a frame where nobody has measured the hole that two lines leave by."""
    text = (DEMO_FOLDER / "hardtail-wide.frame.yaml").read_text(encoding="utf-8")
    before, at, after = text.partition(f"id: {HOLE}\n")
    frame = tmp_path / "hardtail-wide.frame.yaml"
    frame.write_text(before + at + after.replace(OPENING, "", 1), encoding="utf-8")
    patch.setenv(JOB_VARIABLE, "" if asked else str(DEMO_FOLDER / "cockpit-swap.visit.yaml"))
    return open_page(patch, catalog=(STARTER_FOLDER, frame), store=tmp_path / "shop.db", **asked)


def test_a_hole_measured_beside_a_visit_changes_its_answer_and_goes_into_the_frame(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    page = _opened(tmp_path, monkeypatch)
    assert verdicts_of(page)[0][0] == "unknown"
    assert "Save" in popovers_of(page)
    assert "Measure first, lamp, rear-brake: Nobody has measured the opening" in words_of(page).replace("**", "")
    _field(page, "hole measured, mm").set_value("12").run()
    assert not page.exception
    assert verdicts_of(page)[0][0] == "tight"
    assert "Save" not in popovers_of(page)
    _field(page, "hole measured").set_value("some").run()
    assert "cannot be read" in verdicts_of(page)[0][1]
    assert "until the field is right: It fits, but it is tight" in " ".join(words_of(page).split())
    button(page, "Undo").click().run()
    assert (verdicts_of(page)[0][0], _field(page, "hole measured").value) == ("tight", "12")
    page.session_state[OPEN_KEY] = True
    page.run()
    _field(page, "Who").set_value("Mira").run()
    button(page, "Write it").click().run()
    assert not page.exception
    assert "revision 2 in the store" in words_of(page)
    assert verdicts_of(page)[0][0] == "tight"
    assert not [one for one in page.text_input if "hole measured" in one.label]
    with open_store(tmp_path / "shop.db") as opened:
        first, second = opened.documents.history("frame", "dorrimel-120")
        assert "opening" not in {port["id"]: port for port in first.content["ports"]}[HOLE]
        assert {port["id"]: port for port in second.content["ports"]}[HOLE]["opening"]["diameter"] == 12


def test_a_reading_comes_back_after_a_reload_and_goes_when_another_visit_is_begun(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    page = _opened(tmp_path, monkeypatch)
    _field(page, "hole measured, mm").set_value("12").run()
    draft = page.query_params["draft"]
    again = _opened(tmp_path, monkeypatch, screen="several_lines", draft=draft if isinstance(draft, str) else draft[0])
    assert (verdicts_of(again)[0][0], _field(again, "hole measured").value) == ("tight", "12")
    button(again, "Start again").click().run()
    assert not again.exception
    left = again.session_state._state.filtered_state
    assert not [key for key in left if "visit_" in str(key) and HOLE in str(key)], left.keys()


def _no_order_shown() -> None:
    from dataclasses import replace

    from planner import plan_visit
    from tests.planner.whole_bike.cockpit import cockpit, workshop
    from ui.page.views.visit_view import show_visit_answer

    visit = cockpit()
    hole = visit.frame.ports["stay-exit-right"]
    ports = visit.frame.ports | {hole.id: replace(hole, opening=replace(hole.opening, diameter_mm=4.0))}
    frame = replace(visit.frame, ports=ports)
    show_visit_answer(plan_visit(visit=replace(visit, frame=frame), workshop=workshop()))


def test_what_is_to_be_measured_is_said_where_no_order_was_found_too() -> None:
    page = AppTest.from_function(_no_order_shown, default_timeout=60).run()
    assert not page.exception
    told = words_of(page).replace("**", "")
    assert "No plan: gear cannot be led in even with all other lines away." in told
    assert "Measure first, gear: The old line of 5.00 mm lies in there, and by the sizes told does not pass" in told


def test_figures_of_lines_go_to_the_lines_they_were_read_of() -> None:
    """Two old lines of one kind, read each by itself; new ones keep what the catalog says of them."""
    visit = cockpit()
    brake, gear, lamp, sensor = visit.lines
    assert brake.old is not None
    assert lamp.new is not None
    lamp = replace(lamp, old=brake.old, new=replace(lamp.new, line=brake.old.line))
    beside = StayingLine(line=brake.old.line, through=("shared-neck",))
    visit = replace(visit, lines=(brake, gear, lamp, sensor), staying=(beside,))
    id, was = brake.old.line.id, brake.old.line.outer_diameter_mm
    whose = Figure(what=LineFigure.OLD_OUTER, id=id, of_line="lamp")

    def outers(figure: Figure) -> list[float]:
        read = visit_as_read(visit, [FigureRead(figure=figure, value=4.0)])
        lines = [read.lines[0].old, read.lines[2].old, read.staying[0], read.lines[2].new]
        return [each.line.outer_diameter_mm for each in lines if each is not None]

    assert outers(whose) == [was, 4.0, was, was]
    assert outers(replace(whose, what=LineFigure.STAYING_OUTER, of_line="")) == [4.0, 4.0, 4.0, was]
    assert (
        visit_as_read(visit, [FigureRead(figure=Figure(what=ReadWhat.WALL, id=HOLE), value=1.5)]).lines == visit.lines
    )
    assert first_figures_of_visit(planned(), cockpit()) == ()
