"""What can be taken away from the page: the plan as JSON, its pictures as SVG, what is printed for it as PDF."""

import json
from collections.abc import Callable
from io import BytesIO
from zipfile import ZIP_DEFLATED, ZipFile, ZipInfo

import streamlit as st

from catalog import Catalog
from planner import RoutingPlan, draw_route, gauge_sheet_pdf, job_card_pdf, measuring_sheet_pdf, plan_as_record
from planner import in_markdown as plain
from planner.parts import Job
from planner.verdicts import Outcome
from ui.shared.days import today_in
from ui.shared.extras import ExtraMissing, refuse_without
from ui.shared.plan_pictures import pictures_of

_CARD_NAMES = {Outcome.UNKNOWN: "What to measure first (PDF)", Outcome.NO_FIT: "Why there is no plan (PDF)"}
"""What the sheet is called where nothing may be begun by it."""

NO_TIME = (1980, 1, 1, 0, 0, 0)
"""The earliest moment a ZIP file can tell: the same plan gives the same bytes."""


def show_downloads(plan: RoutingPlan, job: Job, catalog: Catalog) -> None:
    """Buttons that save the plan and its pictures, each made when it is asked for."""
    name = plan.job_id
    offer("Plan (JSON)", f"{name}.json", "application/json", lambda: _record(plan))
    offer("Side view (SVG)", f"{name}-route.svg", "image/svg+xml", lambda: draw_route(plan, job.frame).svg)
    if not what_paper_lacks():
        offer("Paper gauge (PDF)", f"{name}-gauge.pdf", "application/pdf", lambda: _gauge(plan, job, catalog))
        sheet = f"{job.frame.id}-measuring.pdf"
        offer("Measuring sheet (PDF)", sheet, "application/pdf", lambda: _sheet(job, catalog))
    packed = f"{name}-pictures.zip"
    offer("All pictures (SVG in a ZIP)", packed, "application/zip", lambda: packed_pictures(plan, job))


def show_card_button(plan: RoutingPlan, job: Job) -> None:
    """The sheet for the bench; where nothing can be printed, what is missing."""
    if missing := what_paper_lacks():
        st.info(f"No job card: {plain(missing)}", icon=":material/print_disabled:")
        return
    st.download_button(
        _CARD_NAMES.get(plan.outcome, "Job card (PDF)"),
        lambda: _card(plan, job),
        f"{plan.job_id}-{'card' if plan.outcome.lets_work_begin else 'answer'}.pdf",
        "application/pdf",
        on_click="ignore",
        type="primary" if plan.outcome.lets_work_begin else "secondary",
        icon=":material/print:",
    )


def offer(label: str, name: str, kind: str, make: Callable[[], str | bytes]) -> None:
    """A button that saves a file, made when it is asked for.

    name : of the file
    kind : its media type
    """
    st.download_button(label, make, name, kind, on_click="ignore", width="stretch")


def what_paper_lacks() -> str:
    """Which library that prints is not installed, and what to do about it; "" where none is missing."""
    try:
        refuse_without("paper")
    except ExtraMissing as missing:
        return str(missing)
    return ""


def _card(plan: RoutingPlan, job: Job) -> bytes:
    return job_card_pdf(plan=plan, frame=job.frame, date_text=today_in("").isoformat())


def _gauge(plan: RoutingPlan, job: Job, catalog: Catalog) -> bytes:
    measures = catalog.workshop.measures
    return gauge_sheet_pdf(plan=plan, frame=job.frame, measures=measures, date_text=today_in("").isoformat())


def _sheet(job: Job, catalog: Catalog) -> bytes:
    measures = catalog.workshop.measures
    return measuring_sheet_pdf(frame=job.frame, measures=measures, date_text=today_in("").isoformat())


def _record(plan: RoutingPlan) -> str:
    return json.dumps(plan_as_record(plan), indent=2, ensure_ascii=False)


def packed_pictures(plan: RoutingPlan, job: Job) -> bytes:
    """Every picture of a plan in one file."""
    packed = BytesIO()
    with ZipFile(packed, "w", ZIP_DEFLATED) as pack:
        for name, picture in pictures_of(plan, job).items():
            pack.writestr(ZipInfo(f"{name}.svg", date_time=NO_TIME), picture.svg)
    return packed.getvalue()
