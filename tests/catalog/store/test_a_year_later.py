"""A saved quote and a saved plan print the same a year later, whatever became of the catalog since."""

from datetime import date
from decimal import Decimal
from pathlib import Path

import pytest

from catalog import read_job
from catalog.store import Store
from catalog.store_catalog import catalog_at, catalog_of_store
from catalog.store_errors import StoreDamaged
from catalog.store_import import import_files
from catalog.store_records import as_record, draft_of_quote, from_record
from catalog.store_things import Change, QuoteState
from planner import RoutingPlan, find_total_range, plan_as_record, plan_job, quote_line_words, time_sentences
from planner.documents.paper.job_card import job_card_pdf
from planner.documents.paper.quote_sheet import quote_pdf
from planner.plan.quote import Quote, make_quote
from tests.catalog.store.conftest import Clock
from tests.planner.documents.drawing_samples import make_plan, make_stopped_plan

ROOT = Path(__file__).parents[3]
JOB = ROOT / "demo_frames" / "trail-rear-brake.job.yaml"


def fill(store: Store) -> None:
    frames = ROOT / "demo_frames" / "trail.frame.yaml"
    import_files(store, [frames, ROOT / "catalog" / "starter"], by="Mira")


def spoil(store: Store) -> None:
    """Change every line's and brake's price and every frame's name, as a year does."""
    changes = [
        Change(
            kind=revision.pin.kind,
            id=revision.pin.id,
            name=revision.name,
            content={**revision.content, field: new},
            based_on=revision.pin.revision,
        )
        for kind, field, new in (("brake", "price", "999.00"), ("frame", "name", "Renamed"), ("part", "price", "77.00"))
        for revision in store.documents.list_current(kind)
    ]
    store.documents.save_all(changes, by="Jonas", note="a year of changes")


def test_a_quote_prints_the_same_a_year_later(store: Store, clock: Clock) -> None:
    fill(store)
    now = catalog_of_store(store)
    job = read_job(JOB, now.catalog)
    plan = plan_job(job=job, workshop=now.catalog.workshop)
    quote = make_quote(job=job, plan=plan, workshop=now.catalog.workshop)
    assert quote is not None
    first = quote_pdf(quote=quote, number="1", date_text="2031-03-14")
    kept = store.jobs.save(id=job.id, title=job.title, content={"file": JOB.read_text(encoding="utf-8")}, by="Mira")
    record = plan_as_record(plan)
    saved = store.plans.save(job_id=job.id, job_version=kept.version, record=record, pins=now.pins, by="Mira")
    draft = draft_of_quote(quote, for_whom="Ana", on=date(2031, 3, 14), pins=now.pins, plan_ids=[saved.id])
    id = store.quotes.save(draft, by="Mira").id
    store.quotes.move(id, QuoteState.HANDED_OVER, today=date(2031, 3, 14), based_on=1, by="Mira")

    clock.advance(days=365)
    spoil(store)
    again = store.quotes.get(id).draft
    assert quote_pdf(quote=from_record(Quote, again.record), number="1", date_text="2031-03-14") == first
    assert again.valid_until > date(2031, 3, 14)
    then = catalog_at(store, again.pins)
    assert then.brakes == now.catalog.brakes
    assert catalog_of_store(store).catalog.brakes != now.catalog.brakes
    replanned = plan_job(job=read_job(JOB, then), workshop=then.workshop)
    assert plan_as_record(replanned) == store.plans.get(saved.id).record == record


def test_a_kept_plan_prints_the_same_card(file_store: Store) -> None:
    fill(file_store)
    now = catalog_of_store(file_store)
    job = read_job(JOB, now.catalog)
    plan = plan_job(job=job, workshop=now.catalog.workshop)
    again = from_record(RoutingPlan, as_record(plan))
    assert again == plan
    assert job_card_pdf(plan=again, frame=job.frame, pictures=[]) == job_card_pdf(
        plan=plan, frame=job.frame, pictures=[]
    )


@pytest.mark.parametrize("plan", [make_plan(), make_stopped_plan()], ids=["a plan", "a no"])
def test_every_field_of_a_plan_survives(file_store: Store, plan: RoutingPlan) -> None:
    content = as_record(plan)
    file_store.jobs.save(id="x", title="x", content=content, by="Mira")
    assert from_record(RoutingPlan, file_store.jobs.get("x").content) == plan


def test_money_is_text_in_a_record() -> None:
    from tests.planner.documents.test_quote_sheet import make_quote as sample

    record = as_record(sample())
    assert record["total"] == "30.42"
    assert from_record(Quote, record).total == Decimal("30.42")
    assert from_record(Quote, record) == sample()


def test_a_quote_stands_for_its_days() -> None:
    from tests.planner.documents.test_quote_sheet import make_quote as sample

    assert draft_of_quote(sample(), for_whom="", on=date(2031, 3, 14)).valid_until == date(2031, 4, 13)


def test_a_record_of_something_else_is_said_so() -> None:
    with pytest.raises(StoreDamaged, match="a stored quote cannot be trusted: job_id: Field required"):
        from_record(Quote, {})


def test_what_is_no_result_has_no_record() -> None:
    with pytest.raises(TypeError, match="dict is no dataclass"):
        as_record({})


def test_a_quote_of_an_older_program_reads_as_it_was(store: Store) -> None:
    fill(store)
    now = catalog_of_store(store)
    job = read_job(JOB, now.catalog)
    quote = make_quote(job=job, plan=plan_job(job=job, workshop=now.catalog.workshop), workshop=now.catalog.workshop)
    assert quote is not None
    record = as_record(quote)
    labour = record["lines"][-1]
    labour |= {"name": "Labour, 100 min", "quantity": "1.666666666666666666666666667", "unit": "h"}
    del labour["price_per"]
    record["time"] |= {"mean_min": 99.7}
    record["alternatives"][0]["more_min"] = -3.85
    read = from_record(Quote, record)
    assert quote_line_words(read.lines[-1])[:3] == ("Labour, 100 min", "1.6667 h", "60.00")
    assert time_sentences(read)[0].startswith("About 100 minutes of work")
    assert find_total_range(quote=read) == find_total_range(quote=quote)
