"""A quote with all that stands around its figures: made of a plan, kept, and read back to print the same."""

from dataclasses import dataclass, replace
from datetime import date, timedelta
from decimal import Decimal
from typing import TYPE_CHECKING, Any

from catalog import QuoteDraft, QuoteState, StoredQuote
from planner import (
    Alternative,
    Quote,
    RoutingPlan,
    VisitPlan,
    check_compatibility,
    end_name,
    make_quote,
    make_visit_quote,
    verdict_sentence,
    visit_verdict,
)
from planner.parts import JobEnd
from ui.shared.command_refused import CommandRefused
from ui.shared.days import last_day, today_in
from ui.shared.planned_job import PlannedJob
from ui.shared.planned_visit import Planned, PlannedVisit
from ui.shared.state_words import ENDED, told

if TYPE_CHECKING:
    from catalog import Store

RECORD_FORMAT = 1


@dataclass(frozen=True, slots=True, kw_only=True)
class QuotePaper:
    """What stands on a quote.

    quote : the figures
    verdict : what fits, in one sentence; "" where it was not kept
    way : the way that is quoted, told like the others; None likewise
    feed_names : names of the two ends of the job, by "from" and "to"
    for_whom, shop_name, shop_address : "" for none
    day : it was made
    handed_over, valid_until : first and last day it stands; None for a draft, whose days are not counted yet
    page_size : of the paper it was made for
    number : "" before it is kept
    state : where it stands; "" before it is kept
    replaces, replaced_by : numbers of the quotes it stands in for and that stands in for it; "" for none
    """

    quote: Quote
    verdict: str
    way: Alternative | None
    feed_names: dict[str, str]
    for_whom: str
    shop_name: str
    day: date
    handed_over: date | None
    valid_until: date | None
    page_size: str
    shop_address: str = ""
    number: str = ""
    state: str = ""
    replaces: str = ""
    replaced_by: str = ""


def quote_paper(
    planned: Planned, *, for_whom: str, shop_name: str, day: date, page_size: str, charges_new_line: bool
) -> QuotePaper | None:
    """The quote for a planned job of one line or of several; None where there is no plan to quote."""
    way: Alternative | None = None
    feed_names: dict[str, str] = {}
    if isinstance(planned, PlannedVisit):
        quote = _visit_quote(planned, charges_new_line)
    else:
        plan, quote = planned.plan, _job_quote(planned, charges_new_line)
        way, feed_names = _quoted_way(plan), {end.value: end_name(plan, end) for end in JobEnd}
    if quote is None:
        return None
    own = planned.workshop.limits
    return QuotePaper(
        quote=quote,
        verdict=verdict_of(planned.plan),
        way=way,
        feed_names=feed_names,
        for_whom=for_whom,
        shop_name=shop_name or own.shop_name,
        shop_address=own.shop_address if shop_name in ("", own.shop_name) else "",
        day=day,
        handed_over=day,
        valid_until=last_day(day, days=quote.valid_days),
        page_size=page_size,
    )


def verdict_of(plan: RoutingPlan | VisitPlan) -> str:
    """The answer in one sentence."""
    return visit_verdict(plan) if isinstance(plan, VisitPlan) else verdict_sentence(plan)


def _job_quote(planned: PlannedJob, charges_new_line: bool) -> Quote | None:
    parts = check_compatibility(
        job=planned.job,
        adapters=planned.workshop.adapters,
        route=planned.plan.route,
        limits=planned.workshop.limits,
    )
    return make_quote(
        job=planned.job,
        plan=planned.plan,
        workshop=planned.workshop,
        compatibility=parts,
        charges_new_line=charges_new_line,
    )


def _visit_quote(planned: PlannedVisit, charges_new_line: bool) -> Quote | None:
    return make_visit_quote(plan=planned.plan, workshop=planned.workshop, charges_new_line=charges_new_line)


def _quoted_way(plan: RoutingPlan) -> Alternative | None:
    if not plan.options:
        return None
    best = plan.options[0]
    return Alternative(
        method_id=best.method_id,
        method_name=plan.method_name,
        feed_from=best.feed_from,
        outcome=plan.outcome,
        more_min=0.0,
        more_money=Decimal(0),
        holds_n=best.joint.holds_n,
        remark=best.remark,
    )


def draft_of_paper(paper: QuotePaper, planned: Planned, *, replaces_id: int | None) -> QuoteDraft:
    """What the store keeps of a quote: everything it prints, and the exact revisions and the plan behind it."""
    from catalog import as_record, draft_of_quote

    draft = draft_of_quote(
        paper.quote,
        for_whom=paper.for_whom,
        on=paper.day,
        pins=planned.pins,
        plan_ids=() if planned.plan_id is None else (planned.plan_id,),
        replaces_id=replaces_id,
    )
    return replace(draft, record={**as_record(paper.quote), "paper": paper_as_record(paper)})


def paper_as_record(paper: QuotePaper) -> dict[str, Any]:
    """All that stands around the figures, as plain values."""
    from catalog import as_record

    return {
        "format": RECORD_FORMAT,
        "verdict": paper.verdict,
        "way": None if paper.way is None else as_record(paper.way),
        "feed_names": paper.feed_names,
        "for_whom": paper.for_whom,
        "shop_name": paper.shop_name,
        "shop_address": paper.shop_address,
        "day": paper.day.isoformat(),
        "valid_until": None if paper.valid_until is None else paper.valid_until.isoformat(),
        "page_size": paper.page_size,
    }


def paper_of_kept(kept: StoredQuote, *, today: date) -> QuotePaper:
    """A kept quote as it was made; one that was kept elsewhere without its paper gets the plainest one.

    today : the day it is in the shop: what is past is told as lapsed
    """
    from catalog import from_record

    record = dict(kept.draft.record)
    around = record.pop("paper", {})
    if around.get("format", RECORD_FORMAT) != RECORD_FORMAT:
        raise CommandRefused(
            command="quote",
            option="number",
            given=f"quote {kept.id} was kept by a newer program",
            allowed="that program, to print it",
        )
    quote = from_record(Quote, record)
    valid_until = kept.draft.valid_until
    first = valid_until - timedelta(days=quote.valid_days)
    is_draft = kept.state is QuoteState.DRAFTED
    replaces, replaced_by = kept.draft.replaces_id, kept.replaced_by_id
    return QuotePaper(
        quote=quote,
        verdict=around.get("verdict", ""),
        way=from_record(Alternative, around["way"]) if around.get("way") else None,
        feed_names=around.get("feed_names", {}),
        for_whom=kept.draft.for_whom,
        shop_name=around.get("shop_name", ""),
        shop_address=around.get("shop_address", ""),
        day=date.fromisoformat(around["day"]) if around.get("day") else first,
        handed_over=None if is_draft else first,
        valid_until=None if is_draft else valid_until,
        page_size=around.get("page_size", "a4"),
        number=str(kept.id),
        state=kept.state_on(today).value,
        replaces="" if replaces is None else str(replaces),
        replaced_by="" if replaced_by is None else str(replaced_by),
    )


def standing_sentences(paper: QuotePaper) -> tuple[str, ...]:
    """Where the quote stands among others, and that it no longer stands: to be read on the paper itself."""
    said = [f"This quote replaces quote {paper.replaces}, which no longer stands."] if paper.replaces else []
    if paper.state in ENDED:
        by = f", replaced by quote {paper.replaced_by}" if paper.replaced_by else ""
        said.append(f"This quote no longer stands: {told(paper.state)}{by}.")
    if paper.state == QuoteState.DRAFTED:
        said.append("A draft: its days are counted from the day it is handed over.")
    return tuple(said)


def stands_words(paper: QuotePaper) -> str:
    """The days it was made, handed over and stands."""
    if paper.handed_over is None or paper.valid_until is None:
        return f"made {paper.day}, stands for {paper.quote.valid_days} days from the day it is handed over"
    handed = "" if paper.handed_over == paper.day else f", handed over {paper.handed_over}"
    return f"{paper.day}{handed}, stands until {paper.valid_until}"


def keep_paper(
    store: "Store", paper: QuotePaper, planned: Planned, *, replaces_id: int | None, by: str, note: str
) -> QuotePaper:
    """A quote kept as a draft, as it reads with its number."""
    draft = draft_of_paper(paper, planned, replaces_id=replaces_id)
    today = today_in(planned.workshop.limits.time_zone)
    return paper_of_kept(store.quotes.save(draft, by=by, note=note), today=today)


def quote_paper_pdf(paper: QuotePaper, *, page_size: str | None = None) -> bytes:
    """The quote on paper, of the size it was made for unless another is asked for."""
    from planner import quote_pdf

    size: Any = page_size or paper.page_size
    return quote_pdf(
        quote=paper.quote,
        shop_name=paper.shop_name,
        shop_address=paper.shop_address,
        for_whom=paper.for_whom,
        number=paper.number,
        page_size=size,
        date_text=(paper.handed_over or paper.day).isoformat(),
        valid_until_text="" if paper.valid_until is None else paper.valid_until.isoformat(),
        remarks=standing_sentences(paper),
    )
