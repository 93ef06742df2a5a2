"""A job, its plan and the catalog they rest on, kept in the store: all of it or nothing."""

from collections.abc import Callable, Sequence
from dataclasses import dataclass
from pathlib import Path
from typing import TYPE_CHECKING, Any, TypeVar

from catalog import (
    STARTER_FOLDER,
    Catalog,
    CatalogError,
    EditConflict,
    NotInStore,
    Pin,
    StoredJob,
    StoredPlan,
    WrittenMeanwhile,
    job_fields_in,
    pins_used,
    read_job_or_visit,
)
from planner.parts import Visit
from ui.shared.catalog_choice import CatalogChoice, stand_in_remarks
from ui.shared.planned_job import PlannedJob, fields_opened, is_job_file, record_of_plan
from ui.shared.planned_visit import Planned, PlannedVisit, form_of

if TYPE_CHECKING:
    from catalog import Imported, ReadyImport, Store

Also = TypeVar("Also")


@dataclass(frozen=True, slots=True, kw_only=True)
class SaveQuestion:
    """What to keep.

    asked : a job file, or the name of a saved job to plan again with the catalog as it is now
    choice : catalog files to read into the store first, over the starter or alone; and the store
    by : who keeps it; None for the login name
    for_whom : whom the job is for; None leaves it as it is
    note : why, for the history
    over : the version of the saved job that this one is to replace; None where there is none, or nothing changed
    """

    asked: str
    choice: CatalogChoice
    by: str | None
    for_whom: str | None
    note: str
    over: int | None


@dataclass(frozen=True, slots=True, kw_only=True)
class KeptJob:
    """What was kept.

    job, plan : as the store has them now
    planned : the same for the planner
    is_new_job, is_new_plan : whether this made a new version of the job, or a new plan
    imported : what reading the catalog files did; None where none were read
    """

    job: StoredJob
    plan: StoredPlan
    planned: Planned
    is_new_job: bool
    is_new_plan: bool
    imported: "Imported | None"


class KeptMeanwhile(CatalogError):  # noqa: N818  (named for what happened)
    """The store has another version of a job than the one its file would replace.

    version : the one it has; None where it has none
    saved_by : who kept that one
    changed : what would be another word than there
    """

    def __init__(
        self, told: str, *, version: int | None = None, saved_by: str = "", changed: Sequence[str] = ()
    ) -> None:
        self.version, self.saved_by, self.changed = version, saved_by, tuple(changed)
        super().__init__(told)


def keep_job(store: "Store", question: SaveQuestion, *, by: str) -> KeptJob:
    """Read the catalog files in, plan with the catalog as the store then has it, keep job and plan: all or nothing."""
    kept, _ = keep_job_and(store, question, by=by, also=lambda _: None)
    return kept


def keep_job_and(
    store: "Store", question: SaveQuestion, *, by: str, also: Callable[[Planned], Also]
) -> tuple[KeptJob, Also]:
    """The same, and keep in the same step what rests on it, such as its quote.

    Whoever is a moment later than somebody else, with the catalog or with the job, tries again: where both say the same
    there is no clash.
    """
    for _ in range(2):
        try:
            return _keep(store, question, by=by, also=also)
        except (EditConflict, WrittenMeanwhile):
            continue
    return _keep(store, question, by=by, also=also)


def _keep(store: "Store", question: SaveQuestion, *, by: str, also: Callable[[Planned], Also]) -> tuple[KeptJob, Also]:
    """Nothing is written before everything is planned, and then in one transaction."""
    before, fields = _before_and_now(store, question)
    if before is None and question.over is not None:
        raise KeptMeanwhile(f"job {fields.get('id')} is not in the store: nothing to replace, leave --over out")
    if before is not None and before.content != fields:
        _refuse_unseen(store, before, fields, question)
    ready = _ready_import(store, question)
    catalog, all_pins = _catalog_and_pins(store, ready)
    form = form_of(fields)
    if is_job_file(question.asked):
        job = read_job_or_visit(Path(question.asked), catalog)
    else:
        job = fields_opened(store.jobs.get(question.asked), catalog, form)
    plan = form.plan(job, catalog.workshop)
    record, pins = record_of_plan(plan, form), pins_used(job, all_pins)
    with store.together():
        if ready is not None:
            store.documents.save_all(ready.changes, by=by, note=f"for {Path(question.asked).name}")
        stored = _keep_fields(store, before, fields, question, title=job.title, by=by)
        old = store.plans.list_of_job(job.id)[-1:]
        same = next((plan for plan in old if (plan.record, plan.pins) == (record, pins)), None)
        if same is not None and store.jobs.content_at(job.id, same.job_version) != stored.content:
            same = None
        kept = same or store.plans.save(job_id=job.id, job_version=stored.version, record=record, pins=pins, by=by)
        about = {
            "plan": plan,
            "workshop": catalog.workshop,
            "for_whom": stored.for_whom,
            "plan_id": kept.id,
            "pins": pins,
            "remarks": () if ready is None else stand_in_remarks(ready.told.stands_in),
        }
        planned: Planned = PlannedVisit(visit=job, **about) if isinstance(job, Visit) else PlannedJob(job=job, **about)
        more = also(planned)
    told = KeptJob(
        job=stored,
        plan=kept,
        planned=planned,
        is_new_job=before is None or stored.version != before.version,
        is_new_plan=same is None,
        imported=None if ready is None else ready.told,
    )
    return told, more


def _catalog_and_pins(store: "Store", ready: "ReadyImport | None") -> tuple[Catalog, tuple[Pin, ...]]:
    """The catalog as the store will have it, or has it now."""
    from catalog import catalog_of_store

    if ready is not None:
        return ready.catalog, ready.pins
    pinned = catalog_of_store(store)
    return pinned.catalog, pinned.pins


def _before_and_now(store: "Store", question: SaveQuestion) -> tuple[StoredJob | None, dict[str, Any]]:
    """The saved job of this name, None where there is none, and the fields it is to have."""
    if not is_job_file(question.asked):
        before = store.jobs.get(question.asked)
        return before, before.content
    fields = job_fields_in(Path(question.asked))
    try:
        return store.jobs.get(str(fields.get("id"))), fields
    except NotInStore:
        return None, fields


def _refuse_unseen(store: "Store", before: StoredJob, fields: dict[str, Any], question: SaveQuestion) -> None:
    """Whoever replaces a saved job says which version they saw last; nothing has been kept so far."""
    if question.over == before.version:
        return
    from catalog import differences, sentences

    last = store.jobs.history(before.id)[-1]
    changed = sentences(differences(before.content, fields))
    seen = "" if question.over is None else f"you saw version {question.over} last, but "
    raise KeptMeanwhile(
        f"job {before.id}: {seen}the store has version {before.version}, kept by {last.done_by} "
        f"on {last.done_at:%Y-%m-%d %H:%M} UTC. "
        f"Yours says otherwise: {'; '.join(changed)}. Nothing of yours was kept: "
        f"`lineplan jobs {before.id} --file theirs.yaml` writes theirs out, "
        f"--over {before.version} puts yours in its place.",
        version=before.version,
        saved_by=last.done_by,
        changed=changed,
    )


def _ready_import(store: "Store", question: SaveQuestion) -> "ReadyImport | None":
    """The catalog files named, ready to be read in; where none are and the store is empty, the starter catalog."""
    from catalog import prepare_import

    paths: Sequence[Path] = question.choice.paths
    if not paths and not question.choice.is_bare and not store.documents.list_current(with_withdrawn=True):
        paths = [STARTER_FOLDER]
    return prepare_import(store, paths, over_starter=not question.choice.is_bare) if paths else None


def _keep_fields(
    store: "Store", before: StoredJob | None, fields: dict[str, Any], question: SaveQuestion, *, title: str, by: str
) -> StoredJob:
    had = "" if before is None else before.for_whom
    for_whom = had if question.for_whom is None else question.for_whom
    return store.jobs.save(
        id=str(fields["id"]),
        title=title,
        content=fields,
        by=by,
        for_whom=for_whom,
        based_on=None if before is None else before.version,
        note=question.note,
    )
