"""Several lines on the page: a file opened, or a visit put together without one; order, reasons, a no, another wish."""

import re
from collections.abc import Iterator
from pathlib import Path
from typing import Any

import pytest
from streamlit.testing.v1 import AppTest

from catalog import EntryNotAccepted, visit_from_fields
from tests.planner.whole_bike.cockpit import catalog, cockpit
from tests.ui.page_builders import (
    DEMO_FOLDER,
    box,
    button,
    choose_tab,
    markup_of,
    open_job,
    open_page,
    pictures_of,
    verdicts_of,
    words_of,
)
from ui.page.visit_downloads import packed_pictures
from ui.shared.page_start import JOB_VARIABLE
from ui.shared.planned_visit import PlannedVisit
from ui.shared.visit_fields import fields_of_visit, line_of_choices

Fields = dict[str, Any]


def field(page: AppTest, label: str) -> Any:
    """The text field with this label."""
    (found,) = [one for one in page.text_input if one.label == label]
    return found


def files_of(page: AppTest) -> list[str]:
    """What can be taken away."""
    return [one.proto.label for one in page.get("download_button")]


@pytest.fixture(scope="module")
def opened() -> Iterator[AppTest]:
    """The demo's cockpit swap on the page."""
    with pytest.MonkeyPatch.context() as patch:
        yield open_job(open_page(patch), "cockpit-swap")


def test_a_file_of_several_lines_is_answered_with_order_and_reason(opened: AppTest) -> None:
    (answer,) = verdicts_of(opened)
    assert answer == ("tight", "It fits, but it is tight: all lines go in, in this order.")
    said = words_of(opened)
    assert "lamp in before rear-brake: afterwards each diameter lacks 0.15 mm at Chainstay, inside." in said
    assert "rear-brake: new line in for the old one, by Threaded coupler 3.0, fed from Right lever" in said
    assert "567.30 EUR with tax" in words_of(choose_tab(opened, "Price"))


def test_all_lines_the_shared_holes_and_each_lines_own_plan_are_on_the_page(opened: AppTest) -> None:
    pictures = pictures_of(opened)
    assert "B before C, else 0.15 mm missing" in pictures["visit_side_view"]
    assert ". rear-brake" in pictures_of(choose_tab(opened, "Shared holes"))["strip_stay-run"]
    assert "side_view" in pictures_of(choose_tab(opened, "Each line"))
    (lines,) = [one for one in opened.segmented_control if one.label == "Line"]
    lines.select("rear-brake").run()
    assert not opened.exception
    assert "Brake hose 5.5 with bore 2.5 by Threaded coupler 3.0" in verdicts_of(opened)[1][1]
    assert "Next: step 1 of" not in words_of(opened)


def test_shared_steps_stand_once_and_every_paper_can_be_taken_away(opened: AppTest) -> None:
    said = " ".join(words_of(choose_tab(opened, "Steps")).split())
    assert said.count("Hold the bicycle in the stand by its seat post") == 1
    assert re.search(r"55–56\. \w+, \w+: Push the plugs home", said)
    work = [body for body in markup_of(opened) if body.startswith('<div class="lp-work">')]
    assert "Push the plugs home" in "".join(work), "steps are drawn as those of one line, and never as Markdown"
    assert not [one for one in opened.markdown if "Push the plugs home" in one.value]
    assert "Labour | 414 min | 60.00 per 60 min | 414.00" in words_of(choose_tab(opened, "Price"))
    assert files_of(choose_tab(opened, "Files"))[:5] == [
        "Job card (PDF)",
        "Job file (YAML)",
        "Plan (JSON)",
        "Quote (PDF)",
        "Labels of the lines to cut (PDF)",
    ]


def test_another_wish_is_planned_at_once(monkeypatch: pytest.MonkeyPatch) -> None:
    page = open_job(open_page(monkeypatch), "cockpit-swap")
    (first,) = [one for one in page.multiselect if one.label.startswith("Wanted before")]
    first.select("sensor").run()
    assert not page.exception
    (order,) = [words for words in words_of(page).split("\n") if words.startswith("Order")]
    assert order.index("A  sensor:") < order.index("B  gear:")


def test_a_no_tells_who_and_where_and_what_would_change_it_and_has_no_steps(monkeypatch: pytest.MonkeyPatch) -> None:
    page = open_job(open_page(monkeypatch), "cockpit-no-order")
    ((outcome, sentence),) = verdicts_of(page)
    assert outcome == "no_fit"
    assert "lamp and rear-brake would ride together, but cannot be drawn in past each other" in sentence
    said = words_of(page)
    assert "With lamp led outside the frame there is an order." in said
    assert "No steps: there is no plan to work from." in said
    assert "A + C do not pass, 0.10 mm missing" in pictures_of(page)["visit_side_view"]
    assert "This answer (PDF)" in files_of(page)
    assert "Quote (PDF)" not in files_of(page)


def compose(monkeypatch: pytest.MonkeyPatch) -> AppTest:
    """An empty form, with the demo's frame chosen."""
    page = open_page(monkeypatch)
    page.switch_page("screens/several_lines.py").run()
    box(page, "Frame").select("dorrimel-120").run()
    assert not page.exception
    return page


def choose_wire(page: AppTest) -> None:
    """One line, all chosen."""
    box(page, "Comes off").select(("none", "")).run()
    box(page, "Goes on").select(("line", "wire-25")).run()
    box(page, "Starts at").select("bar-right").run()
    box(page, "Ends at").select("caliper-rear").run()
    assert not page.exception


def test_a_visit_is_put_together_without_a_file(monkeypatch: pytest.MonkeyPatch) -> None:
    page = compose(monkeypatch)
    assert "Still to be chosen" in words_of(page)
    assert button(page, "Find the order").disabled
    choose_wire(page)
    button(page, "Find the order").click().run()
    assert not page.exception
    assert verdicts_of(page)[0][0] in ("fits", "tight")
    assert "line-1: new line in" in words_of(page)
    button(page, "Change the lines").click().run()
    assert box(page, "Goes on").value == ("line", "wire-25")
    field(page, "Line 1 is called").set_value("Rear lamp").run()
    button(page, "Find the order").click().run()
    assert "rear-lamp: new line in" in words_of(page)


def test_lines_are_added_and_taken_out_and_keep_what_was_chosen(monkeypatch: pytest.MonkeyPatch) -> None:
    page = compose(monkeypatch)
    choose_wire(page)
    button(page, "Add a line").click().run()
    assert [one.value for one in page.text_input if "is called" in one.label] == ["line-1", "line-2"]
    first, _ = [one for one in page.button if one.label == "Take this line out of the visit"]
    first.click().run()
    assert [one.value for one in page.text_input if "is called" in one.label] == ["line-2"]
    assert box(page, "Goes on").value is None


def test_what_is_wrong_stands_at_its_field_and_no_order_is_looked_for(monkeypatch: pytest.MonkeyPatch) -> None:
    page = compose(monkeypatch)
    choose_wire(page)
    field(page, "Rotor wanted, mm (empty: not asked)").set_value("large").run()
    assert button(page, "Find the order").disabled
    field(page, "Rotor wanted, mm (empty: not asked)").set_value("").run()
    assert not button(page, "Find the order").disabled
    box(page, "Goes on").select(("none", "")).run()
    assert any("neither an old nor a new line" in str(one.value) for one in page.error)
    assert button(page, "Find the order").disabled


def test_two_lines_of_one_name_are_told_at_the_second(monkeypatch: pytest.MonkeyPatch) -> None:
    page = compose(monkeypatch)
    choose_wire(page)
    button(page, "Add a line").click().run()
    field(page, "Line 2 is called").set_value("line 1").run()
    assert any("line-1 is the id of another line too" in str(one.value) for one in page.error)


def test_a_visit_goes_into_fields_and_back_unchanged() -> None:
    for visit in (cockpit(), cockpit(takes_out_first=False)):
        fields = fields_of_visit(visit) | {"frame": "dorrimel-120"}
        back = visit_from_fields(fields, catalog())
        assert fields_of_visit(back) == fields
        assert back.lines == visit.lines


def test_what_is_wrong_with_fields_names_the_line_it_is_in() -> None:
    fields = fields_of_visit(cockpit())
    fields["lines"][2]["to"] = "nowhere"
    fields["first"] = ["nobody"]
    with pytest.raises(EntryNotAccepted, match="there is no anchor nowhere") as refused:
        visit_from_fields(fields, catalog())
    assert {(problem.line, problem.field) for problem in refused.value.problems} == {
        (3, "lines no. 3 to"),
        (0, "first no. 1"),
    }


def changed(opened: Fields, **other: Any) -> Fields:
    """The opened line with one choice changed on the form."""
    told: Fields = {
        "name": "rear-brake",
        "ends": ("bar-right", "caliper-rear"),
        "old": ("line", "hose-50x23"),
        "new": ("line", "hose-55x25"),
        "through": [],
        "supplied_mm": None,
        "rotor_mm": None,
    }
    return line_of_choices(**(told | other), opened=opened)


def test_a_line_keeps_what_its_file_said_as_far_as_it_still_holds() -> None:
    measured = {"line": "hose-50x23", "through": ["shared-neck"], "measured_length": 1500, "move": {"to": 10}}
    opened: Fields = {
        "id": "rear-brake",
        "from": "bar-right",
        "to": "caliper-rear",
        "old": measured,
        "new": {"line": "hose-55x25", "supplied_length": 1700},
        "rotor": 160,
        "rotor_hub": "six_bolt",
    }
    same = changed(opened, through=["shared-neck"], supplied_mm=1700, rotor_mm=160)
    assert same == opened
    assert "move" not in changed(opened, new=("line", "hose-50x23"))["old"]
    assert "measured_length" not in changed(opened, ends=("bar-right", "derailleur-rear"))["old"]
    assert "rotor_hub" not in changed(opened, rotor_mm=180)
    assert changed(opened, old=("none", ""), through=["shared-neck"])["through"] == ["shared-neck"]


def test_all_pictures_of_a_visit_are_packed_the_same_every_time() -> None:
    from tests.planner.whole_bike.cockpit import planned, workshop

    visit = PlannedVisit(visit=cockpit(), plan=planned(), workshop=workshop(), remarks=())
    assert packed_pictures(visit) == packed_pictures(visit)


def test_a_page_started_with_a_visit_shows_it_and_a_reload_brings_it_back(
    monkeypatch: pytest.MonkeyPatch, tmp_path: Path
) -> None:
    store = tmp_path / "kept.sqlite"
    monkeypatch.setenv(JOB_VARIABLE, str(DEMO_FOLDER / "cockpit-swap.visit.yaml"))
    page = open_page(monkeypatch, store=store)
    assert verdicts_of(page)[0][0] == "tight"
    monkeypatch.delenv(JOB_VARIABLE)
    draft = page.query_params["draft"]
    address = draft if isinstance(draft, str) else draft[0]
    again = open_page(monkeypatch, store=store, screen="several_lines", draft=address)
    assert verdicts_of(again)[0] == verdicts_of(page)[0]


def test_a_half_told_visit_comes_back_after_a_reload(monkeypatch: pytest.MonkeyPatch, tmp_path: Path) -> None:
    store = tmp_path / "kept.sqlite"
    page = open_page(monkeypatch, store=store, screen="several_lines")
    box(page, "Frame").select("dorrimel-120").run()
    box(page, "Goes on").select(("line", "wire-25")).run()
    rotor = "Rotor wanted, mm (empty: not asked)"
    field(page, rotor).set_value("18o").run()
    draft = page.query_params["draft"]
    address = draft if isinstance(draft, str) else draft[0]
    again = open_page(monkeypatch, store=store, screen="several_lines", draft=address)
    assert box(again, "Frame").value == "dorrimel-120"
    assert box(again, "Goes on").value == ("line", "wire-25")
    assert box(again, "Comes off").value is None
    assert field(again, rotor).value == "18o", "what cannot be read yet, too"
    button(again, "Undo").click().run()
    assert field(again, rotor).value == ""


def test_steps_of_the_form_are_taken_back_while_it_is_open(monkeypatch: pytest.MonkeyPatch, tmp_path: Path) -> None:
    page = open_job(open_page(monkeypatch, store=tmp_path / "kept.sqlite"), "cockpit-swap")
    button(page, "Change the lines").click().run()
    before = field(page, "Line 1 is called").value
    field(page, "Line 1 is called").set_value("first").run()
    button(page, "Undo").click().run()
    assert not page.exception
    assert field(page, "Line 1 is called").value == before
    button(page, "Redo").click().run()
    assert field(page, "Line 1 is called").value == "first"
