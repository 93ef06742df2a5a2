"""A job with its plan: read from a file and planned, or as the store keeps both."""

from collections.abc import Callable, Iterator, Mapping, Sequence
from contextlib import contextmanager
from dataclasses import dataclass, replace
from pathlib import Path
from typing import TYPE_CHECKING, Any, Generic, TypeVar

from catalog import Catalog, EntryNotAccepted, read_job
from planner import RoutingPlan, plan_job
from planner.parts import Job, Workshop
from ui.shared.catalog_choice import CatalogChoice, chosen_catalog, stand_in_remarks
from ui.shared.command_refused import CommandRefused
from ui.shared.store_place import is_store_there, opened_store

if TYPE_CHECKING:
    from catalog import Pin, Store, StoredJob, StoredPlan

JOB_FILE_ENDINGS = (".yaml", ".yml")
WHOLE, WHOLE_FORM = "whole", "whole_form"
FORM_NOW = 8
"""The form in which a whole plan is kept; one kept in another form is planned again."""


Asked = TypeVar("Asked")
Answer = TypeVar("Answer")


@dataclass(frozen=True, slots=True, kw_only=True)
class JobForm(Generic[Asked, Answer]):
    """How a job of one line, or one of several, is opened, planned and told.

    opened : from its fields, held against a catalog
    plan : its plan
    record : of the plan, as `lineplan plan --json` prints it
    answer : what a plan of it is
    """

    opened: Callable[[Mapping[str, object], Catalog], Asked]
    plan: Callable[[Asked, Workshop], Answer]
    record: Callable[[Answer], dict[str, Any]]
    answer: Callable[[], type[Answer]]


@dataclass(frozen=True, slots=True, kw_only=True)
class Kept(Generic[Asked, Answer]):
    """A saved job with its plan: the one kept last or, where there is none of it as it stands, a new one.

    job, plan, workshop : what was planned, the answer, and what it was planned with
    plan_id, pins : the plan's number in the store and the revisions it was made from; None and none for a new one
    remarks : what the reader should know about where it comes from
    """

    job: Asked
    plan: Answer
    workshop: Workshop
    plan_id: int | None = None
    pins: "tuple[Pin, ...]" = ()
    remarks: tuple[str, ...] = ()


@dataclass(frozen=True, slots=True, kw_only=True)
class PlannedJob:
    """A job and the plan that answers it.

    job, plan, workshop : what was planned, the answer, and what it was planned with
    for_whom : whom the job is for; "" where that was not told
    plan_id, pins : the plan's number in the store and the revisions it was made from; None and none for a file
    remarks : what the reader should know about where it comes from
    """

    job: Job
    plan: RoutingPlan
    workshop: Workshop
    for_whom: str = ""
    plan_id: int | None = None
    pins: "tuple[Pin, ...]" = ()
    remarks: tuple[str, ...] = ()


def _job_of(fields: Mapping[str, object], catalog: Catalog) -> Job:
    from catalog import job_from_fields

    return job_from_fields(fields, catalog)


def _record_of(plan: RoutingPlan) -> dict[str, Any]:
    from planner import plan_as_record

    return plan_as_record(plan)


ONE_LINE = JobForm(
    opened=_job_of,
    plan=lambda job, workshop: plan_job(job=job, workshop=workshop),
    record=_record_of,
    answer=lambda: RoutingPlan,
)


def is_job_file(asked: str) -> bool:
    """Whether a file is meant rather than the name of a saved job, which has no slash and no such ending."""
    looks_like_one = asked.lower().endswith(JOB_FILE_ENDINGS) or "/" in asked or "\\" in asked
    return looks_like_one or ("\0" not in asked and Path(asked).is_file())


def find_planned(asked: str, *, choice: CatalogChoice) -> PlannedJob:
    """The job in a file, planned; or the saved job of that name with the plan that was kept with it.

    A job file is held against the catalog chosen; a saved job against the revisions its plan was made from, unless
    catalog files are named.
    """
    if not is_job_file(asked) and not choice.paths and not choice.is_bare:
        with store_with_jobs(asked, place=choice.place) as store:
            return kept_plan(store, asked)
    catalog = chosen_catalog(choice)
    job = find_job(asked, catalog=catalog, place=choice.place)
    planned = planned_from_file(job, catalog)
    return planned if is_job_file(asked) else replace(planned, for_whom=saved_job(asked, place=choice.place).for_whom)


def planned_from_file(job: Job, catalog: Catalog) -> PlannedJob:
    """A job planned with the catalog it was held against."""
    return PlannedJob(
        job=job,
        plan=plan_job(job=job, workshop=catalog.workshop),
        workshop=catalog.workshop,
        remarks=stand_in_remarks(catalog.stands_in),
    )


def find_job(asked: str, *, catalog: Catalog, place: str) -> Job:
    """The job in a file, or the saved job of that name, held against a catalog.

    Raises EntryNotAccepted with everything that is wrong with it, or CommandRefused where there is no store to look in.
    """
    return (
        read_job(Path(asked), catalog) if is_job_file(asked) else job_of_fields(saved_job(asked, place=place), catalog)
    )


def saved_job(name: str, *, place: str) -> "StoredJob":
    """A saved job as it stands."""
    with store_with_jobs(name, place=place) as store:
        return store.jobs.get(name)


@contextmanager
def store_with_jobs(name: str, *, place: str) -> Iterator["Store"]:
    """The store that a name is to be looked up in."""
    if not place or not is_store_there(place):
        raise CommandRefused(
            command="job",
            option=name,
            given=f"no saved job of this name, for there is no store {place}".rstrip(),
            allowed="a job file, whose name ends in .yaml, or --store PLACE",
        )
    with opened_store(place, creates=False) as store:
        yield store


def kept_plan(store: "Store", name: str) -> PlannedJob:
    """A saved job with the plan kept last."""
    stored = store.jobs.get(name)
    kept = kept_in_form(store, stored, ONE_LINE)
    return PlannedJob(
        job=kept.job,
        plan=kept.plan,
        workshop=kept.workshop,
        for_whom=stored.for_whom,
        plan_id=kept.plan_id,
        pins=kept.pins,
        remarks=kept.remarks,
    )


def kept_in_form(store: "Store", stored: "StoredJob", form: JobForm[Asked, Answer]) -> Kept[Asked, Answer]:
    """A saved job with the plan kept last, of one line or of several."""
    from catalog import catalog_at, catalog_of_store

    name = stored.id
    plans = store.plans.list_of_job(name)
    if not plans or store.jobs.content_at(name, plans[-1].job_version) != stored.content:
        remark = f"{name}: no plan of it as it stands is kept; planned anew, and `lineplan save {name}` keeps that"
        catalog = catalog_of_store(store).catalog
        job = fields_opened(stored, catalog, form)
        return Kept(job=job, plan=form.plan(job, catalog.workshop), workshop=catalog.workshop, remarks=(remark,))
    kept = plans[-1]
    catalog = catalog_at(store, kept.pins)
    job = fields_opened(stored, catalog, form)
    plan, remarks = _plan_as_kept(kept, job, catalog.workshop, form)
    return Kept(
        job=job,
        plan=plan,
        workshop=catalog.workshop,
        plan_id=kept.id,
        pins=kept.pins,
        remarks=(*remarks, *_newer_revisions(store, name, kept.pins)),
    )


def record_of_plan(plan: Answer, form: JobForm[Asked, Answer]) -> dict[str, Any]:
    """What is kept of a plan: what `lineplan plan --json` prints, and all of it, to be printed from again."""
    from catalog import as_record

    return {**form.record(plan), WHOLE: as_record(plan), WHOLE_FORM: FORM_NOW}


def job_of_fields(stored: "StoredJob", catalog: Catalog) -> Job:
    """A saved job, held against a catalog."""
    return fields_opened(stored, catalog, ONE_LINE)


def fields_opened(stored: "StoredJob", catalog: Catalog, form: JobForm[Asked, Answer]) -> Asked:
    """A saved job of one line or of several, held against a catalog."""
    try:
        return form.opened(stored.content, catalog)
    except EntryNotAccepted as refusal:
        named = [replace(problem, file="the store", line=0) for problem in refusal.problems]
        raise EntryNotAccepted(named) from refusal


def _plan_as_kept(
    kept: "StoredPlan", job: Asked, workshop: Workshop, form: JobForm[Asked, Answer]
) -> tuple[Answer, tuple[str, ...]]:
    """The plan as it was kept; planned again from the same revisions where this program cannot read it as it stands."""
    from catalog import StoreDamaged, from_record

    try:
        is_this_form = kept.record.get(WHOLE_FORM) == FORM_NOW
        return from_record(form.answer(), kept.record[WHOLE] if is_this_form else {}), ()
    except StoreDamaged:
        plan = form.plan(job, workshop)
        told = {field: value for field, value in kept.record.items() if field not in (WHOLE, WHOLE_FORM)}
        same = "with the same answer" if form.record(plan) == told else "and the answer is not quite the same"
        remark = f"plan {kept.id} was kept by another version of this program: planned again from the same data, {same}"
        return plan, (remark,)


def _newer_revisions(store: "Store", name: str, pins: "Sequence[Pin]") -> tuple[str, ...]:
    """One remark that names what was changed since, up to three things."""
    now = {(r.pin.kind, r.pin.id): r.pin for r in store.documents.list_current(with_withdrawn=True)}
    changed = [pin for pin in pins if pin.kind != "file" and now.get((pin.kind, pin.id), pin) != pin]
    if not changed:
        return ()
    named = ", ".join(f"{pin.kind} {pin.id}" for pin in changed[:3])
    more = f" and {len(changed) - 3} more" if len(changed) > 3 else ""
    return (
        f"{name} is told as it was kept; since then the catalog changed: {named}{more}. "
        f"`lineplan save {name}` plans it with the catalog as it is now.",
    )
