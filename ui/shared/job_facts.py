"""All that is kept of one job, gathered to be told."""

from dataclasses import dataclass, field
from datetime import date

from catalog import Happening, StoredJob, StoredPlan, StoredQuote


@dataclass(frozen=True, slots=True, kw_only=True)
class JobFacts:
    """All that is kept of one job.

    job : as it stands
    plans, quotes : oldest first
    today, time_zone : the day it is in the shop, and by which zone
    history : of the job, oldest first; empty where only a list was asked for
    quote_histories : of each quote, by number; likewise
    """

    job: StoredJob
    plans: tuple[StoredPlan, ...]
    quotes: tuple[StoredQuote, ...]
    today: date
    time_zone: str
    history: tuple[Happening, ...] = ()
    quote_histories: dict[int, tuple[Happening, ...]] = field(default_factory=dict)
