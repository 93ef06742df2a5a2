"""All that is kept of one job, gathered to be told."""

from dataclasses import dataclass
from datetime import date

from catalog import Happening, StoredJob, StoredPlan, StoredQuote


@dataclass(frozen=True, slots=True, kw_only=True)
class JobFacts:
    """All that is kept of one job.

    job : as it stands
    plans, quotes : oldest first, without those that are damaged
    damages : what is not as it was saved, a sentence for each
    today, time_zone : the day it is in the shop, and by which zone
    history : of the job, oldest first
    quote_histories : of each quote, by number
    """

    job: StoredJob
    plans: tuple[StoredPlan, ...]
    quotes: tuple[StoredQuote, ...]
    damages: tuple[str, ...]
    today: date
    time_zone: str
    history: tuple[Happening, ...]
    quote_histories: dict[int, tuple[Happening, ...]]
