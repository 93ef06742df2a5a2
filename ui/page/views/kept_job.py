"""Show one saved job: its plan as it was kept, what is printed of it, where it stands, its quotes and its history."""

from collections.abc import Sequence

import streamlit as st

from catalog import CatalogError, Happening, Store, StoredJob, StoredQuote
from planner import cut_label_pdf, job_card_pdf, label_of_plan
from planner import in_markdown as plain
from planner.errors import PlannerError
from ui.page import hand_over_draft, kept, session
from ui.page.downloads import what_paper_lacks
from ui.page.drafts import changed_last, keep
from ui.page.forms.back_form import show_back_form
from ui.page.forms.hand_over_form import show_hand_over
from ui.page.forms.move_buttons import show_job_moves
from ui.page.forms.open_saved import show_open_button
from ui.page.forms.quote_form import quote_form_of, show_quote_form
from ui.page.views.job_list import JOBS_PAGE
from ui.page.views.markup import safe, show_markup, show_table
from ui.page.views.planned_visit_view import show_planned_visit
from ui.page.views.problem_view import show_refusal
from ui.page.views.route_view import show_picked_hole, show_route
from ui.page.views.tabs import show_tabs
from ui.page.views.verdict_view import show_open_questions, show_verdict
from ui.shared.bench_work import work_of
from ui.shared.days import today_in, told_moment
from ui.shared.job_facts import JobFacts, facts_of
from ui.shared.planned_job import PlannedJob
from ui.shared.planned_visit import PlannedVisit
from ui.shared.state_words import ENDED, told

BENCH_PAGE = "screens/bench.py"
QUOTES, HAND_OVER = "Quotes", "Hand-over"


def show_kept_job(store: Store, job: StoredJob) -> None:
    """Everything that is kept of a job."""
    facts = facts_of(store, job)
    whom = f" · for {job.for_whom}" if job.for_whom else ""
    about = f"{job.id} · {told(job.state)} · version {job.version}{whom}"
    show_markup(f'<div class="lp-job"><h1>{safe(job.title)}</h1><p>{safe(about)}</p></div>')
    for damage in facts.damages:
        st.error(plain(damage), icon=":material/error:")
    with st.container(horizontal=True, vertical_alignment="center"):
        show_open_button(job)
        st.page_link(
            BENCH_PAGE, label="Steps at the bench", icon=":material/construction:", query_params={"job": job.id}
        )
        show_job_moves(store, job)
    for words in facts.bench:
        st.markdown(plain(words))
    _show_plan(store, job)
    opened = show_tabs(
        {
            QUOTES: lambda: _show_quotes(store, job, facts),
            HAND_OVER: lambda: _show_hand_over(store, job),
            "History": lambda: _show_history(store, job, facts),
        },
        key=f"job_tabs_{job.id}",
        first=_first_tab(job),
    )
    if opened != HAND_OVER:
        hand_over_draft.keep_typed(job.id, job.title)
    if opened != QUOTES:
        keep(quote_form_of(job))


def _first_tab(job: StoredJob) -> str:
    """Where a job is opened at: at what was filled in last and is not done yet."""
    name = f"job_first_tab_{job.id}"
    if session.held(name) is None:
        begun = {HAND_OVER: hand_over_draft.form_of(job.id, job.title), QUOTES: quote_form_of(job)}
        session.hold(name, changed_last(begun))
    return str(session.held(name))


def _show_plan(store: Store, job: StoredJob) -> None:
    try:
        planned = kept.planned(store, job.id)
    except (CatalogError, PlannerError) as refusal:
        show_refusal(refusal)
        return
    for remark in planned.remarks:
        st.caption(plain(remark))
    if isinstance(planned, PlannedVisit):
        show_planned_visit(planned)
        return
    answer, picture = st.columns([9, 11])
    with answer:
        done = work_of(store.bench.get(planned.plan_id)).done if planned.plan_id is not None else ()
        show_verdict(planned.plan, done=done)
        _show_papers(planned)
    with picture:
        show_route(planned.plan, planned.job)
    show_open_questions(planned.plan)
    show_picked_hole(planned.plan, planned.job)


def _show_hand_over(store: Store, job: StoredJob) -> None:
    try:
        show_hand_over(store, job, kept.planned(store, job.id))
    except (CatalogError, PlannerError) as refusal:
        show_refusal(refusal)


def _show_papers(planned: PlannedJob) -> None:
    if missing := what_paper_lacks():
        st.info(f"Nothing to print: {plain(missing)}", icon=":material/print_disabled:")
        return
    name, day = planned.job.id, today_in(planned.workshop.limits.time_zone).isoformat()
    with st.container(horizontal=True):
        st.download_button(
            "Job card (PDF)",
            lambda: job_card_pdf(plan=planned.plan, frame=planned.job.frame, date_text=day),
            f"{name}-card.pdf",
            "application/pdf",
            on_click="ignore",
            icon=":material/print:",
        )
        label = label_of_plan(planned.plan)
        if label is not None:
            st.download_button(
                "Label for the line (PDF)",
                lambda: cut_label_pdf(labels=[label]),
                f"{name}-label.pdf",
                "application/pdf",
                on_click="ignore",
                icon=":material/label:",
            )


def _show_history(store: Store, job: StoredJob, facts: JobFacts) -> None:
    show_happenings(facts.history, facts.time_zone)
    show_back_form(store, job, facts.history)


def _show_quotes(store: Store, job: StoredJob, facts: JobFacts) -> None:
    if not facts.quotes:
        st.caption("No quote of this job yet.")
    for quote in facts.quotes:
        st.page_link(JOBS_PAGE, label=plain(_quote_words(quote, facts)), query_params={"quote": str(quote.id)})
    show_quote_form(store, job, facts.quotes)


def _quote_words(quote: StoredQuote, facts: JobFacts) -> str:
    state = quote.state_on(facts.today)
    replaced = "" if quote.replaced_by_id is None else f", replaced by quote {quote.replaced_by_id}"
    until = f", stands until {quote.draft.valid_until}" if state not in ENDED and state != "drafted" else ""
    return f"Quote {quote.id}: {quote.draft.total} {quote.draft.currency}, {told(state)}{until}{replaced}"


def show_happenings(history: Sequence[Happening], time_zone: str) -> None:
    """What happened, newest first."""
    rows = (
        (str(one.version), told(one.state), told_moment(one.done_at, time_zone), one.done_by, one.note)
        for one in reversed(history)
    )
    show_table(("Version", "State", "When", "Who", "Why"), rows, is_stacked=True)
