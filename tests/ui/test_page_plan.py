"""The screen that plans a job: what it asks, what it shows, how one gets back."""

import json
import re
import zipfile
from importlib.util import find_spec
from io import BytesIO
from pathlib import Path
from typing import Any

import pytest

from catalog import STARTER_FOLDER, read_catalog, read_job
from planner import RoutingPlan, plan_as_record, plan_job
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
    without_tags,
    words_of,
)
from ui.page.session import demo_jobs
from ui.shared.extras import ExtraMissing

HEADS = {"It fits, but it is tight": "tight", "It fits:": "fits", "Not proven": "unknown", "No plan": "no_fit"}
JOBS = sorted(path.name.removesuffix(".job.yaml") for path in demo_jobs())


def _one(found: Any, label: str) -> Any:
    (one,) = [one for one in found if one.label == label]
    return one


@pytest.mark.parametrize("name", JOBS)
def test_every_invented_job_opens_and_is_answered(name: str, monkeypatch: pytest.MonkeyPatch) -> None:
    page = open_job(open_page(monkeypatch), name)
    ((outcome, sentence),) = verdicts_of(page)
    word = next(word for head, word in HEADS.items() if sentence.startswith(head))
    assert outcome == word, "colour and sentence tell one outcome"
    told, cautions = words_of(page), read_catalog([STARTER_FOLDER, DEMO_FOLDER]).workshop.cautions.values()
    assert [caution.text for caution in cautions if told.count(caution.text) > 1] == []
    assert any(caution.text in told for caution in cautions) == (outcome in ("fits", "tight"))
    assert {"Steps", "Holes", "Lengths", "All ways", "Files"} <= {tab.label for tab in page.tabs}


@pytest.mark.parametrize("name", JOBS)
def test_the_page_and_the_job_file_give_the_same_checks(name: str, monkeypatch: pytest.MonkeyPatch) -> None:
    """What a form cannot hold is lost on the way: every number of the plan must be that of the file."""
    shown: list[RoutingPlan] = []
    page = open_page(monkeypatch)
    monkeypatch.setattr(
        "ui.page.views.verdict_view.verdict_sentence", lambda plan, **_names: shown.append(plan) or "told"
    )
    open_job(page, name)
    catalog = read_catalog([STARTER_FOLDER, DEMO_FOLDER])
    (file,) = (path for path in demo_jobs() if path.name == f"{name}.job.yaml")
    planned = plan_job(job=read_job(file, catalog), workshop=catalog.workshop)
    assert plan_as_record(shown[-1])["checks"] == plan_as_record(planned)["checks"]
    assert plan_as_record(shown[-1])["rejected"] == plan_as_record(planned)["rejected"]


def test_an_empty_form_says_what_to_do(monkeypatch: pytest.MonkeyPatch) -> None:
    page = open_page(monkeypatch)
    assert "Choose a frame, what comes off and what goes on; or open a job file." in words_of(page)
    assert not page.tabs


def test_two_lines_of_one_kind_that_stay_are_two_lines_on_the_page_too(monkeypatch: pytest.MonkeyPatch) -> None:
    page = open_job(open_page(monkeypatch), "hardtail-shared-port")
    assert "beside Gear housing 4.0, Gear housing 4.0" in words_of(page)
    staying = _one(page.multiselect, "Lines that stay in the frame")
    assert len(staying.value) == 2
    staying.set_value(staying.value[:1]).run()
    assert not page.exception
    assert "beside gear-housing-40, gear-housing-40" not in words_of(page)


def test_the_page_opens_the_job_it_was_started_with_and_then_leaves_the_form_alone(
    monkeypatch: pytest.MonkeyPatch,
) -> None:
    (job_file,) = (path for path in demo_jobs() if path.name == "trail-rear-brake.job.yaml")
    monkeypatch.setenv("LINEPLAN_JOB", str(job_file))
    page = open_page(monkeypatch)
    assert verdicts_of(page)[0][0] == "fits"
    button(page, "Start again with an empty form").click().run()
    assert not page.exception
    assert not page.tabs


def test_a_catalog_without_frames_offers_the_invented_ones(monkeypatch: pytest.MonkeyPatch) -> None:
    page = open_page(monkeypatch, catalog=())
    assert "has no frames yet" in words_of(page)
    button(page, "Try it with invented frames").click().run()
    assert not page.exception
    assert len(box(page, "Frame").options) >= 4


def test_a_job_can_be_put_together_by_hand(monkeypatch: pytest.MonkeyPatch) -> None:
    page = open_page(monkeypatch)
    box(page, "Frame").set_value("quillfern-130").run()
    box(page, "Comes off").set_value(("brake", "wexcombe-2-rear")).run()
    box(page, "Goes on").set_value(("brake", "dunmere-4-rear")).run()
    assert box(page, "Line ends at").value == "caliper-rear", "the only end a rear brake can have here"
    assert box(page, "Line starts at").value is None, "this frame takes the lever on either side"
    assert not page.tabs
    box(page, "Line starts at").set_value("bar-right").run()
    assert not page.exception
    assert verdicts_of(page)[0][0] == "fits"


def test_only_ends_that_suit_the_line_are_offered(monkeypatch: pytest.MonkeyPatch) -> None:
    page = open_page(monkeypatch)
    box(page, "Frame").set_value("dorrimel-100").run()
    box(page, "Goes on").set_value(("brake", "pellow-m-rear")).run()
    assert (box(page, "Line starts at").value, box(page, "Line ends at").value) == ("bar-right", "caliper-rear")
    assert box(page, "Line ends at").options == ["Rear caliper"]
    box(page, "Goes on").set_value(("line", "gear-housing-40")).run()
    assert not page.exception
    assert (box(page, "Line starts at").value, box(page, "Line ends at").value) == ("shifter-right", "derailleur-rear")


def test_what_an_opened_job_said_of_its_frame_is_gone_with_the_frame(monkeypatch: pytest.MonkeyPatch) -> None:
    page = open_job(open_page(monkeypatch), "hardtail-shared-port")
    way = "Down tube, upper left · Inside, down tube to left chainstay · Chainstay, rear left"
    assert f"Told beside: the old line runs through {way}" in words_of(page)
    box(page, "Frame").set_value("quillfern-130").run()
    box(page, "Line starts at").set_value("bar-right").run()
    assert not page.exception
    _one(page.multiselect, "Lines that stay in the frame").set_value([]).run()
    assert not page.exception
    assert page.tabs, [one.value for one in page.error]
    assert "the old line runs through" not in words_of(page)
    assert "hub" not in "".join(str(one.value) for one in page.caption)


def test_changing_an_opened_job_can_be_undone(monkeypatch: pytest.MonkeyPatch) -> None:
    page = open_job(open_page(monkeypatch), "trail-rear-brake")
    before = words_of(page)
    assert "Back to the job as opened" not in [one.label for one in page.button]
    box(page, "Comes off").set_value(("none", "")).run()
    assert words_of(page) != before
    button(page, "Back to the job as opened").click().run()
    assert not page.exception
    assert box(page, "Comes off").value == ("brake", "wexcombe-2-rear")
    assert words_of(page) == before


def test_starting_again_empties_the_form(monkeypatch: pytest.MonkeyPatch) -> None:
    page = open_job(open_page(monkeypatch), "trail-rear-brake")
    button(page, "Start again with an empty form").click().run()
    assert box(page, "Frame").value is None
    assert "Choose a frame" in words_of(page)


def test_the_form_is_open_until_a_job_stands_on_it_and_then_behind_its_button(monkeypatch: pytest.MonkeyPatch) -> None:
    page = open_page(monkeypatch)
    assert not page.get("popover")
    page = open_job(page, "trail-rear-brake")
    assert [one.proto.popover.label for one in page.get("popover")] == ["Change the job", "Open another", "Save"]
    line = next(body for body in markup_of(page) if "lp-job" in body)
    told = without_tags(line)
    for words in (
        "Stronger rear brake",
        "Quillfern 130",
        "off: Wexcombe 2",
        "on: Dunmere 4",
        "Right lever → Rear caliper",
    ):
        assert words in told
    box(page, "Goes on").set_value(None).run()
    assert not page.exception
    assert "Something is still to be chosen." in words_of(page)
    assert not verdicts_of(page)


def test_facts_and_the_next_step_stand_beside_the_verdict(monkeypatch: pytest.MonkeyPatch) -> None:
    told = words_of(open_job(open_page(monkeypatch), "trail-rear-brake"))
    for words in (
        "Joint  Threaded coupler 2.6",
        "Feed from  Right lever",
        "Cut the old line  near Right lever",
        "Next: step 1 of",
    ):
        assert words in told
    assert "Next: measure first" in words_of(open_job(open_page(monkeypatch), "touring-unmeasured"))
    assert "What would change it" in words_of(open_job(open_page(monkeypatch), "city-cable-stops"))


def test_a_port_clicked_in_the_picture_opens_its_section(monkeypatch: pytest.MonkeyPatch) -> None:
    page = open_job(open_page(monkeypatch), "trail-rear-brake")
    assert not page.get("dialog")
    page.session_state["picked_port"] = page.session_state["port_asked_for"] = "stay-rear"
    page.run()
    assert not page.exception
    assert [name for name in pictures_of(page) if name.startswith("drawer_")]
    choose_tab(page, "Holes")
    assert box(page, "Port shown (or click one in the picture)").value == "stay-rear"
    assert [name for name in pictures_of(page) if name.startswith("drawer_")], "a second run does not take it away"
    del page.session_state["port_asked_for"]
    page.run()
    assert not [name for name in pictures_of(page) if name.startswith("drawer_")]


def test_choices_outlive_a_visit_to_another_screen(monkeypatch: pytest.MonkeyPatch) -> None:
    page = open_job(open_page(monkeypatch), "trail-rear-brake")
    page.switch_page("screens/catalog.py").run()
    page.switch_page("screens/plan_a_job.py").run()
    assert not page.exception
    assert box(page, "Frame").value == "quillfern-130"


def test_picking_a_port_shows_its_section(monkeypatch: pytest.MonkeyPatch) -> None:
    page = choose_tab(open_job(open_page(monkeypatch), "trail-rear-brake"), "Holes")
    ports = "Port shown (or click one in the picture)"
    box(page, ports).set_value("stay-rear").run()
    assert not page.exception
    assert "Chainstay, rear left" in words_of(page)
    assert any("stay-rear" in name for name in pictures_of(page)), list(pictures_of(page))


def test_the_bar_can_be_turned_and_the_rear_swung(monkeypatch: pytest.MonkeyPatch) -> None:
    page = open_job(open_page(monkeypatch), "trail-rear-brake")
    page.session_state["turn_quillfern-130"] = True
    page.run()
    labels = [one.label for one in page.slider]
    assert labels == ["Bar, degrees (+ turns to the left)", "Rear suspension, degrees from rest"]
    at_rest = pictures_of(page)["side_view"]
    page.slider[0].set_value(30).run()
    assert not page.exception
    turned = pictures_of(page)["side_view"]
    assert "Bar turned 30°, rear swung 0°" in turned
    assert turned != at_rest
    page.slider[1].set_value(5).run()
    assert "Bar turned 30°, rear swung 5°" in pictures_of(page)["side_view"]
    page.session_state["turn_quillfern-130"] = False
    page.run()
    page.run()
    assert not page.slider
    assert "Bar turned 30°, rear swung 5°" in pictures_of(page)["side_view"], "it stays as it was turned"


def test_lines_that_stay_are_asked_for_with_the_ports_they_share(monkeypatch: pytest.MonkeyPatch) -> None:
    page = open_job(open_page(monkeypatch), "trail-rear-brake")
    staying = _one(page.multiselect, "Lines that stay in the frame")
    assert staying.value == [("gear-housing-40", 1)]
    with_housing = words_of(page)
    staying.set_value([]).run()
    assert not page.exception
    alone = words_of(page)
    assert alone != with_housing
    _one(page.multiselect, "Lines that stay in the frame").set_value(
        [("gear-housing-40", 1), ("brake-housing-50", 1)]
    ).run()
    assert not page.exception
    told = words_of(page)
    assert "Choose what it shares" in told
    assert "Not proven: it is not told which ports and runs" in told
    assert [outcome for outcome, _ in verdicts_of(page)] == ["unknown"], "no green beside a line that is not counted"
    assert not page.tabs


def test_a_rotor_that_is_no_number_leaves_the_answer_open(monkeypatch: pytest.MonkeyPatch) -> None:
    page = open_job(open_page(monkeypatch), "trail-rear-brake")
    rotor = _one(page.text_input, "Rotor wanted, mm (empty: not asked)")
    rotor.set_value("1,800.0").run()
    assert not page.exception
    assert verdicts_of(page) == [("unknown", "Not proven: the rotor wanted is not a number.")]
    _one(page.text_input, "Rotor wanted, mm (empty: not asked)").set_value("5").run()
    assert not page.exception
    ((outcome, sentence),) = verdicts_of(page)
    assert (outcome, "rotor: 5 mm was given" in sentence) == ("unknown", True)


def test_files_that_are_not_accepted_at_the_start_are_told_in_sentences(
    monkeypatch: pytest.MonkeyPatch, tmp_path: Path
) -> None:
    broken = tmp_path / "broken.yaml"
    broken.write_text("format: 1\nlines:\n  - {id: hose, name: Hose, kind: garden_hose, outer: 0.2}\n")
    page = open_page(monkeypatch, catalog=(broken,))
    assert "things are not right." in words_of(page)
    assert "broken.yaml, line 3" in words_of(page)


def has_paper() -> bool:
    return find_spec("reportlab") is not None


def test_plan_and_pictures_can_be_taken_along(monkeypatch: pytest.MonkeyPatch) -> None:
    page = choose_tab(open_job(open_page(monkeypatch), "trail-rear-brake"), "Files")
    labels = [one.label for one in page.download_button]
    assert [one for one in labels if "PDF" not in one] == [
        "Plan (JSON)",
        "Side view (SVG)",
        "All pictures (SVG in a ZIP)",
    ]
    printed = ["Job card (PDF)", "Paper gauge (PDF)", "Measuring sheet (PDF)"] if has_paper() else []
    assert [one for one in labels if "PDF" in one] == printed
    assert ("No job card" in words_of(page)) != has_paper()


def test_where_nothing_can_be_printed_that_is_said_with_what_to_install(monkeypatch: pytest.MonkeyPatch) -> None:
    def refuse(extra: str) -> None:
        raise ExtraMissing(extra=extra, library="reportlab")

    page = open_page(monkeypatch)
    monkeypatch.setattr("ui.page.downloads.refuse_without", refuse)
    open_job(page, "trail-rear-brake")
    assert "Job card (PDF)" not in [one.label for one in page.download_button]
    assert "No job card: printing to PDF needs reportlab" in words_of(page)
    assert "pip install -e '.[paper]'" in words_of(page)


def test_no_picture_of_a_plan_tells_a_scale_on_the_page(monkeypatch: pytest.MonkeyPatch) -> None:
    page = open_job(open_page(monkeypatch), "trail-rear-brake")
    pictures = [
        svg for name in ("Holes", "Lengths", "All ways") for svg in pictures_of(choose_tab(page, name)).values()
    ]
    assert len(pictures) > 5
    for svg in pictures:
        assert not re.search(r"[Tt]rue size|Enlarged|Scale", svg)


def test_what_is_taken_along_is_the_plan_and_whole_pictures() -> None:
    from catalog import STARTER_FOLDER, read_catalog, read_job
    from planner import plan_as_record, plan_job
    from ui.page.downloads import packed_pictures
    from ui.page.session import demo_frames

    catalog = read_catalog([STARTER_FOLDER, *demo_frames()])
    job = read_job(DEMO_FOLDER / "trail-rear-brake.job.yaml", catalog)
    plan = plan_job(job=job, workshop=catalog.workshop)
    assert json.loads(json.dumps(plan_as_record(plan)))["route"] == list(plan.route)
    packed = packed_pictures(plan, job)
    assert packed == packed_pictures(plan, job)
    with zipfile.ZipFile(BytesIO(packed)) as pack:
        names = pack.namelist()
        assert {"route.svg", "lengths.svg"} <= set(names)
        assert all(pack.read(name).startswith(b"<svg") for name in names)
        for port_id in plan.route:
            assert any(port_id in name for name in names), port_id
