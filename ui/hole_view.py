"""Show one port: what was asked of it, the hole at true scale, and how a stiff piece gets through its wall."""

from typing import Any

import streamlit as st

from planner import RoutingPlan, draw_hole, draw_motion
from planner.parts import Job, Port
from planner.verdicts import Check, State
from ui.plain_words import plain
from ui.port_picker import show_picture
from ui.verdict_view import check_line, labels_of

HOLE_PX = 460


def show_port(port: Port, plan: RoutingPlan, job: Job) -> None:
    """Everything the plan says about one port."""
    st.markdown(f"#### {plain(port.label or port.id)}")
    checks = [check for check in plan.checks if check.port_id == port.id]
    if not checks:
        st.caption("The way of this plan does not use this port.")
    labels = labels_of(job)
    if checks:
        st.markdown("  \n".join(check_line(check, labels) for check in checks))
    shown = [check for check in checks if check.rule in HOLE_RULES or check.motion]
    for tab, check in zip(_tabs([_tab_words(check) for check in shown]), shown, strict=True):
        with tab:
            _show_picture(check, port, plan, job)


def _tabs(names: list[str]) -> list[Any]:
    return list(st.tabs(names)) if names else []


def _tab_words(check: Check) -> str:
    if check.motion:
        return "Stiff piece"
    words = {State.DRAWING: "While drawing", State.RIDING: "While riding"}[check.state or State.DRAWING]
    return f"{words}, fitting" if check.rule == "leading_fitting" else words


def _show_picture(check: Check, port: Port, plan: RoutingPlan, job: Job) -> None:
    key = f"{check.rule}_{check.state}_{check.run_id}_{port.id}_{check.size_mm}"
    if check.motion:
        svg, narrow = motion_pictures(check, port, plan, job)
        show_picture(svg, narrow_svg=narrow, key=key)
    else:
        show_picture(draw_hole(check, port, names=names_of(job)), key=key, most_px=HOLE_PX)


HOLE_RULES = ("port_clearance", "leading_fitting")


def names_of(job: Job) -> dict[str, str]:
    """What to call the lines that stay, by id."""
    return {staying.line.id: staying.line.name for staying in job.staying}


def motion_pictures(check: Check, port: Port, plan: RoutingPlan, job: Job) -> tuple[str, str]:
    """The strip of poses for a wide and for a narrow window."""
    length_mm = check.size_mm or 0.0
    run = job.frame.runs[check.run_id or ""]
    corridor_mm = job.frame.zones[run.zone_id].bore_diameter_mm or 0.0
    diameter_mm = _diameter_of_piece_mm(length_mm, plan, job)
    wide, narrow = (
        draw_motion(
            check,
            port,
            piece_length_mm=length_mm,
            piece_diameter_mm=diameter_mm,
            corridor_mm=corridor_mm,
            width_mm=width_mm,
        )
        for width_mm in (180, 92)
    )
    return wide, narrow


def _diameter_of_piece_mm(length_mm: float, plan: RoutingPlan, job: Job) -> float:
    """The stiff piece of this length: the joint, or else the fitting on the leading end."""
    if plan.joint is not None and plan.joint.rigid_length_mm == length_mm:
        return plan.joint.diameter_mm
    fittings = [end.fitting for end in (job.new.from_end, job.new.to_end) if end.fitting is not None]
    return next(fitting.outer_diameter_mm for fitting in fittings if fitting.length_mm == length_mm)
