"""The hand-over record in the terminal, on paper and on the page: what is empty is not recorded, never assumed."""

from dataclasses import replace
from pathlib import Path
from typing import Any

import pytest
from pypdf import PdfReader
from streamlit.testing.v1 import AppTest

from catalog import open_store
from planner import Finding, HandOver, carried_over, hand_over_rows
from planner.plan.hand_over import LengthFitted, TorqueRead
from tests.ui.page_builders import box, button, choose_tab, open_page, words_of
from tests.ui.shop_samples import done, flat, refused
from ui.page.hand_over_draft import rows_of

JOB = "trail-rear-brake"


def _printed(path: Path) -> str:
    return flat(" ".join(page.extract_text() for page in PdfReader(path).pages))


def test_an_empty_record_says_of_everything_that_it_is_not_recorded(store: Path, tmp_path: Path) -> None:
    told = done("handover", JOB, "--store", store, "--pdf", tmp_path / "record.pdf")
    assert "nothing is recorded yet" in told
    rows = told.splitlines()[1:]
    assert len(rows) > 12
    assert all("not recorded" in row for row in rows)
    assert "Fluid filled in: not recorded (planned: DOT 4)" in told
    assert "Torque, Step 27: rotor's bolts, or its lockring" in told
    printed = _printed(tmp_path / "record.pdf")
    assert "What the makers of frame and brake say goes before everything on this sheet." in printed
    assert "Before the first ride" in printed
    assert printed.count("day ____________") == 3
    with open_store(store, create=False) as kept:
        assert kept.hand_overs.of_job(JOB) == (), "looking records nothing"


def test_what_is_recorded_is_kept_with_its_day_and_the_rest_stays_open(store: Path, tmp_path: Path) -> None:
    words = ("--fitted", "1=1494", "--torque", "28=6,5", "--lever", "not right", "--done-by", "Mira", "--by", "Mira")
    done("handover", JOB, "--store", store, *words)
    told = done("handover", JOB, "--store", store, "--leaks", "right", "--pdf", tmp_path / "record.pdf", "--by", "Ola")
    assert "hand-over record 2" in told
    assert "1494 mm (planned 1491 mm, 3 mm longer)" in told
    assert "Step 28: adapter's own bolts: 6.5 N m" in told
    assert "Lever: NOT RIGHT" in told
    assert "Leaks: dry at every joint under pressure" in told
    assert "Looked over by another person: not recorded" in told
    assert "the bicycle is not to be ridden until it is put right" in _printed(tmp_path / "record.pdf")
    with open_store(store, create=False) as kept:
        assert [one.saved_by for one in kept.hand_overs.of_job(JOB)] == ["Mira", "Ola"]


def test_everything_that_cannot_be_meant_is_told_at_once_and_nothing_kept(store: Path) -> None:
    words = ("--fitted", "2=1494", "--torque", "28=0", "--torque", "1=6", "--lever", "soft")
    told = refused("handover", JOB, "--store", store, *words).splitlines()
    assert told[0] == "handover > lever: soft was given, allowed: right or not right"
    assert told[1] == "handover > fitted: 2=1494 was given, allowed: a number of 1, = and a figure"
    assert told[2] == "handover > torque: 28=0 was given, allowed: a figure above 0 in N m behind ="
    assert told[3].startswith("handover > torque: 1=6 was given, allowed: a number of 27, 28,")
    with open_store(store, create=False) as kept:
        assert kept.hand_overs.of_job(JOB) == ()


def test_what_was_read_stays_when_the_plan_asks_for_something_else() -> None:
    line = LengthFitted(line_name="Hose", planned_mm=1491)
    kept = HandOver(
        lengths=(replace(line, fitted_mm=1490.0),),
        torques=(TorqueRead(bolts="Step 3: stem", read_nm=5.0), TorqueRead(bolts="Step 4: lever")),
        leaks=Finding.RIGHT,
    )
    asked = HandOver(lengths=(replace(line, planned_mm=1500.0),), torques=(TorqueRead(bolts="Step 5: lever"),))
    now = carried_over(asked, kept)
    assert [(one.planned_mm, one.fitted_mm) for one in now.lengths] == [(1500, None), (1491, 1490)]
    assert [(one.bolts, one.read_nm) for one in now.torques] == [("Step 5: lever", None), ("Step 3: stem", 5.0)]
    assert now.leaks is Finding.RIGHT
    assert ("Length of Hose", "not recorded (planned 1500 mm)") in hand_over_rows(now)


def _hand_over(monkeypatch: pytest.MonkeyPatch, store: Path) -> AppTest:
    return choose_tab(open_page(monkeypatch, store=store, screen="jobs", job=JOB), "Hand-over")


def test_the_record_is_filled_in_on_the_page(store: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    page = _hand_over(monkeypatch, store)
    assert "Nothing is recorded yet." in words_of(page)
    fields = {one.label: one for one in page.text_input}
    fields["Fluid filled in"].set_value("DOT 4, *lot* 7")
    length = next(field for label, field in fields.items() if label.startswith("Length of"))
    length.set_value("about 1490").run()
    assert "is not a number" in words_of(page)
    assert button(page, "Keep the record").disabled
    length.set_value("1490").run()
    box(page, "Leaks: dry at every joint under pressure").select("right")
    fields["Looked over by another person"].set_value("Ola").run()
    button(page, "Keep the record").click().run()
    assert not page.exception
    told = words_of(page)
    assert "DOT 4, *lot* 7 (planned: DOT 4)" in told
    assert "1490 mm (planned 1491 mm, 1 mm shorter)" in told
    with open_store(store, create=False) as kept:
        (one,) = kept.hand_overs.of_job(JOB)
    assert (one.content["looked_again_by"], one.content["lever_feel"]) == ("Ola", None)
    assert one.content["day"]


def _field(page: AppTest, label: str) -> Any:
    return next(one for one in page.text_input if one.label.startswith(label))


def _keep(page: AppTest) -> None:
    button(page, "Keep the record").click().run()
    assert not page.exception


def test_a_reload_in_the_middle_loses_nothing_until_the_record_is_kept(
    store: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    page = _hand_over(monkeypatch, store)
    with open_store(store, create=False) as kept:
        assert kept.drafts.recent("hand_over", most=9) == (), "looking is no draft"
    _field(page, "Fluid filled in").set_value("DOT 4, lot 7").run()
    button(page, "Undo").click().run()
    assert _field(page, "Fluid filled in").value == "", "the first thing typed can be taken back"
    button(page, "Redo").click().run()
    assert _field(page, "Fluid filled in").value == "DOT 4, lot 7"
    _field(page, "Torque read, N m. Step 28").set_value("6,5").run()
    box(page, "Leaks: dry at every joint under pressure").select("not right").run()
    again = _hand_over(monkeypatch, store)
    assert _field(again, "Fluid filled in").value == "DOT 4, lot 7"
    assert _field(again, "Torque read, N m. Step 28").value == "6,5"
    assert box(again, "Leaks: dry at every joint under pressure").value == "not_right"
    _keep(again)
    told = words_of(again)
    assert "Record 1" in told
    assert "6.5 N m" in told
    with open_store(store, create=False) as kept:
        assert kept.drafts.recent("hand_over", most=9) == ()
    _field(again, "Fluid filled in").set_value("").run()
    emptied = _hand_over(monkeypatch, store)
    assert _field(emptied, "Fluid filled in").value == "", "what was taken out of a record stays out"
    assert _field(emptied, "Torque read, N m. Step 28").value == "6.5"


def test_two_windows_that_fill_in_one_record_lose_nothing_of_each_other(
    store: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    one, other = (_hand_over(monkeypatch, store) for _ in range(2))
    _field(one, "Fluid filled in").set_value("DOT 4, lot 7").run()
    looking = _hand_over(monkeypatch, store)
    assert _field(looking, "Fluid filled in").value == "DOT 4, lot 7"
    _field(other, "Work done by").set_value("Ola").run()
    assert "What you have here goes on as a draft of its own." in words_of(other)
    _keep(one)
    with open_store(store, create=False) as kept:
        (left,) = kept.drafts.recent("hand_over", most=9)
        looking.run()
        assert kept.drafts.recent("hand_over", most=9) == (left,), "what is recorded begins no draft again by looking"
    other.run()
    assert "Record 1 was kept meanwhile" in words_of(other)
    assert _field(other, "Fluid filled in").value == "DOT 4, lot 7"
    _keep(other)
    with open_store(store, create=False) as kept:
        records = [one.content for one in kept.hand_overs.of_job(JOB)]
    assert [(one["fluid"], one["done_by"]) for one in records] == [("DOT 4, lot 7", ""), ("DOT 4, lot 7", "Ola")]


def test_what_was_typed_stays_at_its_bolt() -> None:
    line = LengthFitted(line_name="Hose", planned_mm=1491)
    record = HandOver(lengths=(line, line), torques=(TorqueRead(bolts="Step 3: stem's bolts", read_nm=5.0),))
    assert rows_of(record) == [
        ("length Hose 1491", None),
        ("length Hose 1491 #2", None),
        ("torque Step 3: stem's bolts", 5.0),
    ]
