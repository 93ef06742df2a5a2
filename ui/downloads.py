"""What can be taken away from the page: the plan as JSON and its pictures as SVG."""

import json
from io import BytesIO
from zipfile import ZIP_DEFLATED, ZipFile, ZipInfo

import streamlit as st

from planner import RoutingPlan, draw_hole, draw_length_bar, draw_route, plan_as_record
from planner.parts import Job
from ui.hole_view import HOLE_RULES, motion_pictures, names_of

_NO_TIME = (1980, 1, 1, 0, 0, 0)
"""The earliest moment a ZIP file can tell: the same plan gives the same bytes."""


def show_downloads(plan: RoutingPlan, job: Job) -> None:
    """Buttons that save the plan and its pictures."""
    record = json.dumps(plan_as_record(plan), indent=2, ensure_ascii=False)
    name = plan.job_id
    st.download_button("Plan (JSON)", record, f"{name}.json", "application/json", width="stretch")
    side_view = draw_route(plan, job.frame)
    st.download_button("Side view (SVG)", side_view, f"{name}-route.svg", "image/svg+xml", width="stretch")
    packed = packed_pictures(plan, job)
    st.download_button(
        "All pictures (SVG in a ZIP)", packed, f"{name}-pictures.zip", "application/zip", width="stretch"
    )


def packed_pictures(plan: RoutingPlan, job: Job) -> bytes:
    """Every picture of a plan in one file."""
    packed = BytesIO()
    with ZipFile(packed, "w", ZIP_DEFLATED) as pack:
        for name, svg in pictures_of(plan, job).items():
            pack.writestr(ZipInfo(f"{name}.svg", date_time=_NO_TIME), svg)
    return packed.getvalue()


def pictures_of(plan: RoutingPlan, job: Job) -> dict[str, str]:
    """Every picture of a plan, by name."""
    pictures = {"route": draw_route(plan, job.frame)}
    if plan.lengths is not None:
        pictures["lengths"] = draw_length_bar(plan.lengths)
    for number, check in enumerate(plan.checks, 1):
        port = job.frame.ports.get(check.port_id or "")
        if port is None:
            continue
        name = f"{number:02d}-{port.id}-{check.rule}-{check.state}"
        if check.rule in HOLE_RULES:
            pictures[name] = draw_hole(check, port, names=names_of(job))
        elif check.motion:
            pictures[name] = motion_pictures(check, port, plan, job)[0]
    return pictures
