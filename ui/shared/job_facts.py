"""All that is kept of one job, gathered to be told."""

from collections.abc import Callable, Iterator, Sequence
from dataclasses import dataclass
from datetime import date
from typing import TYPE_CHECKING, TypeVar

from catalog import Happening, StoreDamaged, StoredJob, StoredPlan, StoredQuote
from ui.shared.bench_work import words_of_record
from ui.shared.days import now, time_zone_of, today_in

if TYPE_CHECKING:
    from catalog import Store

Kept = TypeVar("Kept")


@dataclass(frozen=True, slots=True, kw_only=True)
class JobFacts:
    """All that is kept of one job.

    job : as it stands
    plans, quotes : oldest first, without those that are damaged
    damages : what is not as it was saved, a sentence for each
    today, time_zone : the day it is in the shop, and by which zone
    history : of the job, oldest first
    quote_histories : of each quote, by number
    bench : how far the work is and how long it took beside the estimate, a sentence for each plan worked by
    """

    job: StoredJob
    plans: tuple[StoredPlan, ...]
    quotes: tuple[StoredQuote, ...]
    damages: tuple[str, ...]
    today: date
    time_zone: str
    history: tuple[Happening, ...]
    quote_histories: dict[int, tuple[Happening, ...]]
    bench: tuple[str, ...] = ()


def facts_of(store: "Store", job: StoredJob) -> JobFacts:
    """All that is kept of a job, gathered."""
    plans, bad_plans = _sound(store.plans.get, store.plans.ids_of_job(job.id))
    quotes, bad_quotes = _sound(store.quotes.get, store.quotes.ids_of_job(job.id))
    time_zone = time_zone_of(store)
    return JobFacts(
        job=job,
        plans=plans,
        quotes=quotes,
        damages=(*bad_plans, *bad_quotes),
        today=today_in(time_zone),
        time_zone=time_zone,
        history=store.jobs.history(job.id),
        bench=tuple(_bench_words(store, job, plans)),
        quote_histories={quote.id: store.quotes.history(quote.id) for quote in quotes},
    )


def _bench_words(store: "Store", job: StoredJob, plans: Sequence[StoredPlan]) -> Iterator[str]:
    records = {plan.id: plan.record for plan in plans}
    for note in store.bench.of_job(job.id):
        if note.plan_id in records:
            yield f"By plan {note.plan_id}: {words_of_record(note, records[note.plan_id], now=now())}."


def _sound(get: Callable[[int], Kept], numbers: Sequence[int]) -> tuple[tuple[Kept, ...], tuple[str, ...]]:
    """What can be read, and a sentence for each that is damaged: one does not hide the others."""
    found: list[Kept] = []
    damages: list[str] = []
    for number in numbers:
        try:
            found.append(get(number))
        except StoreDamaged as damaged:
            damages.append(str(damaged))
    return tuple(found), tuple(damages)
