"""A quote with all that stands around its figures: made of a plan, kept, and read back to print the same."""

from dataclasses import dataclass, replace
from datetime import date, timedelta
from decimal import Decimal
from typing import Any

from catalog import QuoteDraft, StoredQuote
from planner import (
    Alternative,
    Quote,
    RoutingPlan,
    check_compatibility,
    make_quote,
    verdict_sentence,
)
from ui.shared.command_refused import CommandRefused
from ui.shared.days import last_day
from ui.shared.labels import labels_of
from ui.shared.planned_job import PlannedJob

RECORD_FORMAT = 1


@dataclass(frozen=True, slots=True, kw_only=True)
class QuotePaper:
    """What stands on a quote.

    quote : the figures
    verdict : what fits, in one sentence; "" where it was not kept
    way : the way that is quoted, told like the others; None likewise
    feed_names : names of the two ends of the job, by "from" and "to"
    for_whom, shop_name : "" for none
    day, valid_until : first and last day it stands
    page_size : of the paper it was made for
    number : "" before it is kept
    state : where it stands; "" before it is kept
    """

    quote: Quote
    verdict: str
    way: Alternative | None
    feed_names: dict[str, str]
    for_whom: str
    shop_name: str
    day: date
    valid_until: date
    page_size: str
    number: str = ""
    state: str = ""


def quote_paper(
    planned: PlannedJob, *, for_whom: str, shop_name: str, day: date, page_size: str, charges_new_line: bool
) -> QuotePaper | None:
    """The quote for a planned job; None where there is no plan to quote."""
    plan, limits = planned.plan, planned.workshop.limits
    parts = check_compatibility(
        job=planned.job,
        adapters=planned.workshop.adapters,
        route=plan.route,
        limits=limits,
    )
    quote = make_quote(
        job=planned.job,
        plan=plan,
        workshop=planned.workshop,
        compatibility=parts,
        charges_new_line=charges_new_line,
    )
    if quote is None:
        return None
    return QuotePaper(
        quote=quote,
        verdict=verdict_sentence(plan, labels=labels_of(planned.job)),
        way=_quoted_way(plan),
        feed_names={"from": plan.from_anchor_id, "to": plan.to_anchor_id},
        for_whom=for_whom,
        shop_name=shop_name,
        day=day,
        valid_until=last_day(day, days=quote.valid_days),
        page_size=page_size,
    )


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


def draft_of_paper(paper: QuotePaper, planned: PlannedJob, *, replaces_id: int | None) -> QuoteDraft:
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
        "day": paper.day.isoformat(),
        "valid_until": paper.valid_until.isoformat(),
        "page_size": paper.page_size,
    }


def paper_of_kept(kept: StoredQuote) -> QuotePaper:
    """A kept quote as it was made; one that was kept elsewhere without its paper gets the plainest one."""
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
    day = around.get("day") or (valid_until - timedelta(days=quote.valid_days)).isoformat()
    return QuotePaper(
        quote=quote,
        verdict=around.get("verdict", ""),
        way=from_record(Alternative, around["way"]) if around.get("way") else None,
        feed_names=around.get("feed_names", {}),
        for_whom=kept.draft.for_whom,
        shop_name=around.get("shop_name", ""),
        day=date.fromisoformat(day),
        valid_until=valid_until,
        page_size=around.get("page_size", "a4"),
        number=str(kept.id),
        state=kept.state.value,
    )
