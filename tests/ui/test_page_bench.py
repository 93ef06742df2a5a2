"""The work step by step at the bench: what is shown large, ticked and timed, and told beside the estimate."""

from collections.abc import Iterable
from datetime import UTC, datetime, timedelta
from pathlib import Path

import pytest
from streamlit.testing.v1 import AppTest

from catalog import EditConflict, StoredBenchNote, open_store, read_catalog
from planner.documents.drawings.stand_drawing import HELD
from tests.ui.page_builders import button, markup_of, open_page, pictures_of, words_of
from tests.ui.shop_samples import STARTER, done, flat
from ui.shared.bench_work import (
    MOST_AT_ONCE_S,
    BenchWork,
    as_content,
    show_step,
    start,
    stop,
    tick,
    work_of,
    work_words,
)

NOON = datetime(2031, 3, 14, 12, tzinfo=UTC)


def _later(minutes: float) -> datetime:
    return NOON + timedelta(minutes=minutes)


def _bench(monkeypatch: pytest.MonkeyPatch, store: Path) -> AppTest:
    return open_page(monkeypatch, store=store, screen="bench", job="trail-rear-brake")


def _step(page: AppTest) -> str:
    (found,) = [body for body in markup_of(page) if "lp-step" in body]
    return found


def test_one_step_is_shown_large_with_its_cautions_and_the_way_on(store: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    page = _bench(monkeypatch, store)
    assert "Step 1 of 57" in _step(page)
    assert button(page, "Back").disabled
    assert page.warning, "what can hurt at the first step"
    button(page, "Done").click().run()
    assert not page.exception
    assert "Step 2 of 57" in _step(page)
    button(page, "Next").click().run()
    button(page, "Back").click().run()
    button(page, "Back").click().run()
    assert "Step 1 of 57" in _step(page)
    assert "done" in _step(page)
    button(page, "Not done after all").click().run()
    assert "0 of 57 steps done" in words_of(page)


def test_the_hole_a_step_names_is_drawn(store: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    with open_store(store) as opened:
        opened.bench.save(1, as_content(BenchWork(at=13)), based_on=0)
    page = _bench(monkeypatch, store)
    assert "Down tube, upper left" in _step(page)
    assert {"bench_place", "bench_hole"} <= set(pictures_of(page))


def test_how_the_bicycle_is_held_is_drawn_where_the_step_says_it_and_nowhere_else(
    store: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    held = {}
    for n in (5, 6):
        with open_store(store) as opened:
            note = opened.bench.get(1)
            opened.bench.save(1, as_content(BenchWork(at=n)), based_on=note.version)
        page = _bench(monkeypatch, store)
        held["by its seat post" in _step(page)] = pictures_of(page).get("bench_held", "")
    assert "Upright in the stand, held by the seat post" in held[True]
    assert held[False] == ""


def test_what_is_drawn_of_how_it_is_held_is_what_the_starter_s_steps_say() -> None:
    steps = {step.id: step.text for step in read_catalog([STARTER]).workshop.steps}
    assert set(HELD) <= set(steps)
    assert "by its seat post" in steps["stand"]
    assert "on its wheels or hold it by its axles" in steps["stand-on-axles"]


def test_where_the_work_is_outlives_the_window_and_is_told_with_the_job(
    store: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    page = _bench(monkeypatch, store)
    button(page, "Start the clock").click().run()
    button(page, "Done").click().run()
    assert not page.exception
    assert "Step 2 of 57" in _step(_bench(monkeypatch, store))
    with open_store(store) as opened:
        work = work_of(opened.bench.get(1))
        opened.bench.save(1, as_content(stop(work, work.since + timedelta(minutes=30))), based_on=2)  # type: ignore[operator]
    told = "By plan 1: 1 of 57 steps done, 30 min at the bench, estimated 242 min in all."
    assert told in words_of(open_page(monkeypatch, store=store, screen="jobs", job="trail-rear-brake"))
    assert told in flat(done("jobs", "trail-rear-brake", "--store", store))


@pytest.mark.parametrize(
    ("ticked", "told"), [((1, 2, 4), "Next: step 3 of 57"), (range(1, 58), "All 57 steps are done")]
)
def test_the_job_tells_as_next_what_is_not_done_yet(
    store: Path, monkeypatch: pytest.MonkeyPatch, ticked: Iterable[int], told: str
) -> None:
    with open_store(store) as opened:
        opened.bench.save(1, as_content(BenchWork(at=5, done=frozenset(ticked))), based_on=0)
    page = open_page(monkeypatch, store=store, screen="jobs", job="trail-rear-brake")
    assert [told in markup for markup in markup_of(page) if "lp-next" in markup and "<style" not in markup] == [True]


def test_two_tablets_at_one_job_are_told_and_the_later_one_changes_nothing(
    store: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    with open_store(store) as opened:
        opened.bench.save(1, as_content(BenchWork(at=5)), based_on=0)
        with pytest.raises(EditConflict, match="bench note of plan 1"):
            opened.bench.save(1, as_content(BenchWork(at=9)), based_on=0)
        assert work_of(opened.bench.get(1)).at == 5
    assert "Step 5 of 57" in _step(_bench(monkeypatch, store))


def test_without_a_job_the_bench_leads_to_the_jobs(store: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    assert "Choose a job first" in words_of(open_page(monkeypatch, store=store, screen="bench"))


def test_the_clock_counts_for_the_step_that_was_shown() -> None:
    work = start(BenchWork(), NOON)
    work = show_step(work, 2, _later(10))
    work = show_step(work, 3, _later(25))
    assert work.total_s(_later(27)) == 27 * 60
    work = stop(work, _later(30))
    assert dict(work.spent_s) == {1: 600.0, 2: 900.0, 3: 300.0}
    assert work.total_s(_later(90)) == 30 * 60
    assert show_step(work, 1, _later(90)).total_s(_later(95)) == 30 * 60, "a clock that stands counts nothing"
    assert start(start(work, _later(100)), _later(105)).since == _later(100)


def test_a_clock_that_was_forgotten_is_left_out_and_that_is_said() -> None:
    work = stop(start(BenchWork(), NOON), NOON + timedelta(seconds=MOST_AT_ONCE_S + 1))
    assert (work.total_s(NOON), work.has_gap) == (0.0, True)
    told = work_words(work, steps=57, estimate_min=242.0, now=NOON)
    assert (
        told
        == "0 of 57 steps done, 0 min at the bench, estimated 242 min in all; a clock that ran for hours was left out"
    )


def test_what_is_kept_reads_back_the_same() -> None:
    work = tick(show_step(start(BenchWork(), NOON), 4, _later(3)), is_done=True)
    assert work_of(StoredBenchNote(plan_id=1, content=as_content(work), version=1)) == work
    assert work_of(StoredBenchNote(plan_id=1, content={}, version=0)) == BenchWork()
