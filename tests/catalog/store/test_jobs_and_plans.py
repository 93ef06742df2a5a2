"""Jobs with their history, plans pinned to exact revisions."""

import pytest

from catalog.store import Store
from catalog.store_errors import EditConflict, NotInStore, StoreRefused
from catalog.store_plans import hash_of_inputs
from catalog.store_things import JobState, Pin
from tests.catalog.store.conftest import Clock
from tests.catalog.store.test_documents import hose

PIN = Pin(kind="line", id="hose-50", revision=1)


def save_job(store: Store, *, based_on: int | None = None, to: str = "caliper-rear", by: str = "Mira") -> int:
    content = {"id": "swap", "frame": "larkmoor-140", "from": "bar-right", "to": to}
    return store.jobs.save(id="swap", title="Rear swap", content=content, by=by, based_on=based_on).version


def test_a_job_comes_back_as_it_was_saved(store: Store, clock: Clock) -> None:
    saved = store.jobs.save(
        id="swap", title="Rear swap", content={"to": "caliper"}, by="Mira", for_whom="Ana Müllerová"
    )
    assert store.jobs.get("swap") == saved
    assert (saved.version, saved.state, saved.for_whom) == (1, JobState.WAITING, "Ana Müllerová")
    assert saved.changed_at == clock.moment


def test_a_jobs_history_tells_every_step_and_what_it_asked_then(store: Store, clock: Clock) -> None:
    save_job(store)
    clock.advance(hours=1)
    save_job(store, based_on=1, to="caliper-front", by="Jonas")
    store.jobs.move("swap", JobState.ON_THE_BENCH, based_on=2, by="Jonas")
    store.jobs.move("swap", JobState.FINISHED, based_on=3, by="Mira", note="rode it")
    told = [(h.version, h.state, h.done_by, h.note) for h in store.jobs.history("swap")]
    assert told == [
        (1, "waiting", "Mira", ""),
        (2, "waiting", "Jonas", ""),
        (3, "on_the_bench", "Jonas", ""),
        (4, "finished", "Mira", "rode it"),
    ]
    assert [store.jobs.content_at("swap", version)["to"] for version in (1, 2)] == ["caliper-rear", "caliper-front"]
    assert [job.id for job in store.jobs.list(JobState.FINISHED)] == ["swap"]
    assert store.jobs.list(JobState.WAITING) == ()


def test_two_people_edit_a_job_and_the_later_is_told(store: Store) -> None:
    save_job(store)
    save_job(store, based_on=1, to="caliper-front", by="Jonas")
    with pytest.raises(EditConflict, match=r"job swap: you opened revision 1; revision 2 was saved since by Jonas.*to"):
        save_job(store, based_on=1, to="bar-left")
    with pytest.raises(EditConflict, match="you meant to add it"):
        save_job(store)


@pytest.mark.parametrize("to", [JobState.WAITING, JobState.FINISHED])
def test_a_waiting_job_cannot_skip_the_bench(file_store: Store, to: JobState) -> None:
    save_job(file_store)
    with pytest.raises(
        StoreRefused, match=f"waiting -> {to} was given; from here it goes to on_the_bench or called_off"
    ):
        file_store.jobs.move("swap", to, based_on=1, by="Mira")


def test_a_job_that_is_not_there(file_store: Store) -> None:
    save_job(file_store)
    with pytest.raises(NotInStore, match="job swop is not in the store; did you mean swap"):
        file_store.jobs.get("swop")
    with pytest.raises(NotInStore, match="job swap, version 9"):
        file_store.jobs.content_at("swap", 9)


def test_a_plan_keeps_its_record_and_the_exact_revisions(store: Store) -> None:
    store.documents.save(hose(5.0), by="Mira")
    save_job(store)
    record = {"outcome": "fits", "route": ["neck-left"], "lengths": {"cut_mm": 1725.0}}
    plan = store.plans.save(job_id="swap", job_version=1, record=record, pins=[PIN], by="Mira")
    store.documents.save(hose(5.5, based_on=1), by="Jonas")
    kept = store.plans.get(plan.id)
    assert kept == plan
    assert (kept.record, kept.pins, kept.outcome) == (record, (PIN,), "fits")
    assert store.documents.at_all(kept.pins)[0].content["outer"] == 5.0
    assert store.plans.list_of_job("swap") == (plan,)


def test_the_hash_of_a_plan_s_inputs_is_that_of_the_job_and_the_exact_entries() -> None:
    job, newer = {"id": "swap", "from": "bar"}, Pin(kind="line", id="hose-50", revision=2)
    same = hash_of_inputs(job=job, pins=[PIN, newer])
    assert same == hash_of_inputs(job=job, pins=[newer, PIN])
    assert (
        len({same, hash_of_inputs(job=job, pins=[PIN]), hash_of_inputs(job={**job, "from": "grip"}, pins=[PIN])}) == 3
    )


def test_a_plan_needs_a_job_and_revisions_that_are_there(store: Store) -> None:
    save_job(store)
    with pytest.raises(NotInStore, match="line hose-50, revision 1 is not in the store"):
        store.plans.save(job_id="swap", job_version=1, record={"outcome": "fits"}, pins=[PIN], by="Mira")
    with pytest.raises(NotInStore, match="job swap, version 2"):
        store.plans.save(job_id="swap", job_version=2, record={"outcome": "fits"}, pins=[], by="Mira")
    with pytest.raises(NotInStore, match="plan 1 is not in the store"):
        store.plans.get(1)


def test_a_plan_uses_one_revision_of_a_document(store: Store) -> None:
    store.documents.save(hose(5.0), by="Mira")
    store.documents.save(hose(5.2, based_on=1), by="Mira")
    save_job(store)
    both = [PIN, Pin(kind="line", id="hose-50", revision=2)]
    with pytest.raises(StoreRefused, match="line hose-50: revisions 1 and 2 was given"):
        store.plans.save(job_id="swap", job_version=1, record={"outcome": "fits"}, pins=both, by="Mira")


def test_an_outcome_that_is_none_of_the_four_is_refused(store: Store) -> None:
    save_job(store)
    with pytest.raises(StoreRefused, match="outcome: perhaps was given; it is fits, tight, unknown or no_fit"):
        store.plans.save(job_id="swap", job_version=1, record={"outcome": "perhaps"}, pins=[], by="Mira")
