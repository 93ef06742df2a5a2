"""How far the work at the bench is: which steps are ticked, how long each took, whether the clock runs."""

from collections.abc import Mapping
from dataclasses import dataclass, field, replace
from datetime import datetime
from typing import TYPE_CHECKING, Any

if TYPE_CHECKING:
    from catalog import StoredBenchNote
    from planner import RoutingPlan

MOST_AT_ONCE_S = 4 * 3600.0
"""A clock that ran longer than this was forgotten: what it counted is left out, and that is said."""


@dataclass(frozen=True, slots=True, kw_only=True)
class BenchWork:
    """How far the work is.

    at : the step that is shown, from 1
    done : numbers of the steps that are ticked
    spent_s : time taken at each step, by its number [s]
    since : when the clock was started; None while it stands
    has_gap : whether a clock that was forgotten was left out
    """

    at: int = 1
    done: frozenset[int] = frozenset()
    spent_s: Mapping[int, float] = field(default_factory=dict)
    since: datetime | None = None
    has_gap: bool = False

    def total_s(self, now: datetime) -> float:
        """Time taken so far, with what runs now. [s]"""
        return sum(self.spent_s.values()) + self.running_s(now)

    def running_s(self, now: datetime) -> float:
        """What the clock counts since it was started. [s]"""
        return 0.0 if self.since is None else max((now - self.since).total_seconds(), 0.0)


def show_step(work: BenchWork, n: int, now: datetime) -> BenchWork:
    """Another step is shown; what the clock counted so far belongs to the one before."""
    counted = _counted(work, now)
    return replace(counted, at=n, since=None if work.since is None else now)


def tick(work: BenchWork, *, is_done: bool) -> BenchWork:
    """The step shown is done, or not after all."""
    return replace(work, done=work.done | {work.at} if is_done else work.done - {work.at})


def start(work: BenchWork, now: datetime) -> BenchWork:
    """The clock runs from now on."""
    return work if work.since is not None else replace(work, since=now)


def stop(work: BenchWork, now: datetime) -> BenchWork:
    """The clock stands from now on."""
    return replace(_counted(work, now), since=None)


def _counted(work: BenchWork, now: datetime) -> BenchWork:
    ran_s = work.running_s(now)
    if ran_s > MOST_AT_ONCE_S:
        return replace(work, has_gap=True)
    return replace(work, spent_s={**work.spent_s, work.at: work.spent_s.get(work.at, 0.0) + ran_s})


def as_content(work: BenchWork) -> dict[str, Any]:
    """The same as the store keeps it."""
    return {
        "at": work.at,
        "done": sorted(work.done),
        "spent_s": {str(n): round(spent_s, 1) for n, spent_s in sorted(work.spent_s.items()) if spent_s},
        "since": None if work.since is None else work.since.isoformat(),
        "has_gap": work.has_gap,
    }


def work_of(note: "StoredBenchNote") -> BenchWork:
    """How far the work is by what was kept; the beginning where nothing was."""
    content = note.content
    since = content.get("since")
    return BenchWork(
        at=content.get("at", 1),
        done=frozenset(content.get("done", ())),
        spent_s={int(n): spent_s for n, spent_s in content.get("spent_s", {}).items()},
        since=None if since is None else datetime.fromisoformat(since),
        has_gap=content.get("has_gap", False),
    )


def work_words(work: BenchWork, *, steps: int, estimate_min: float | None, now: datetime) -> str:
    """How far it is and how long it took, beside the estimate.

    steps : how many there are
    estimate_min : of the whole work, repeats counted; None where there is none [min]
    """
    told = f"{len(work.done)} of {steps} steps done, {work.total_s(now) / 60:.0f} min at the bench"
    if estimate_min is not None:
        from planner import whole_minutes

        told += f", estimated {whole_minutes(estimate_min)} min in all"
    gap = "; a clock that ran for hours was left out" if work.has_gap else ""
    return f"{told}{gap}{', the clock is running' if work.since is not None else ''}"


def words_of_record(note: "StoredBenchNote", record: Mapping[str, Any], *, now: datetime) -> str:
    """The same from a plan as the store keeps it."""
    whole = record.get("whole") or {}
    options = whole.get("options") or ()
    totals = record.get("totals") or {}
    estimate = options[0].get("work_min") if options else totals.get("minutes")
    return work_words(work_of(note), steps=len(record.get("steps") or ()), estimate_min=estimate, now=now)


def estimate_of(plan: "RoutingPlan") -> float | None:
    """Minutes of the whole work, repeats counted; None where there is no plan."""
    return plan.options[0].work_min if plan.options else None
