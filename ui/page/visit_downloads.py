"""What can be taken away of a visit: card, quote and labels as PDF, the plan as JSON, the job file, all pictures."""

import json
from io import BytesIO
from zipfile import ZIP_DEFLATED, ZipFile, ZipInfo

import streamlit as st

from planner import in_markdown as plain
from planner import visit_as_record
from ui.page.downloads import NO_TIME, offer, what_paper_lacks
from ui.shared.days import today_in
from ui.shared.planned_visit import PlannedVisit
from ui.shared.visit_papers import has_labels, visit_card, visit_labels, visit_quote
from ui.shared.visit_pictures import pictures_of_visit


def show_visit_card_button(planned: PlannedVisit) -> None:
    """The sheet for the bench; where nothing can be printed, what is missing."""
    if missing := what_paper_lacks():
        st.info(f"No job card: {plain(missing)}", icon=":material/print_disabled:")
        return
    plan = planned.plan
    is_begun = plan.outcome.lets_work_begin
    st.download_button(
        "Job card (PDF)" if is_begun else "This answer (PDF)",
        lambda: visit_card(planned, day=_today(planned)),
        f"{plan.visit_id}-{'card' if is_begun else 'answer'}.pdf",
        "application/pdf",
        on_click="ignore",
        type="primary" if is_begun else "secondary",
        icon=":material/print:",
    )


def show_visit_downloads(planned: PlannedVisit, job_text: str) -> None:
    """Buttons that save the visit, its plan, its papers and pictures, each made when it is asked for.

    job_text : the visit as a job file
    """
    name = planned.plan.visit_id
    offer("Job file (YAML)", f"{name}.visit.yaml", "application/yaml", lambda: job_text)
    offer("Plan (JSON)", f"{name}.json", "application/json", lambda: _record(planned))
    if not what_paper_lacks() and planned.plan.totals is not None:
        offer("Quote (PDF)", f"{name}-quote.pdf", "application/pdf", lambda: visit_quote(planned, day=_today(planned)))
        if has_labels(planned.plan):
            labels = f"{name}-labels.pdf"
            offer("Labels of the lines to cut (PDF)", labels, "application/pdf", lambda: visit_labels(planned.plan))
    offer("All pictures (SVG in a ZIP)", f"{name}-pictures.zip", "application/zip", lambda: packed_pictures(planned))


def _today(planned: PlannedVisit) -> str:
    return today_in(planned.workshop.limits.time_zone).isoformat()


def _record(planned: PlannedVisit) -> str:
    return json.dumps(visit_as_record(planned.plan), indent=2, ensure_ascii=False)


def packed_pictures(planned: PlannedVisit) -> bytes:
    """Every picture of a visit in one file."""
    packed = BytesIO()
    with ZipFile(packed, "w", ZIP_DEFLATED) as pack:
        for name, picture in pictures_of_visit(planned.plan, planned.visit).items():
            pack.writestr(ZipInfo(f"{name}.svg", date_time=NO_TIME), picture.svg)
    return packed.getvalue()
