"""All that is kept of one job, gathered to be told."""

from dataclasses import dataclass, field

from catalog import Happening, StoredJob, StoredPlan, StoredQuote


@dataclass(frozen=True, slots=True, kw_only=True)
class JobFacts:
    """All that is kept of one job.

    job : as it stands
    plans, quotes : oldest first
    history : of the job, oldest first; empty where only a list was asked for
    quote_histories : of each quote, by number; likewise
    """

    job: StoredJob
    plans: tuple[StoredPlan, ...]
    quotes: tuple[StoredQuote, ...]
    history: tuple[Happening, ...] = ()
    quote_histories: dict[int, tuple[Happening, ...]] = field(default_factory=dict)
