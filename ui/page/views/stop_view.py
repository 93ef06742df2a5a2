"""Show what stops a no, to scale, and what of the catalog would pass there."""

import streamlit as st

from catalog import Catalog
from planner import RoutingPlan, Stop, can_draw_stop, draw_stop, find_lines_that_pass, find_stops, finely
from planner import in_markdown as plain
from planner.parts import Job
from ui.page.views.port_picker import show_picture

STOP_PX = 560
STOP_KEY = "stop_shown"


def show_stop(plan: RoutingPlan, job: Job, catalog: Catalog) -> None:
    """The place that stops the way; where there are several, one is picked. Nothing for a plan."""
    stops = {stop.place_id: stop for stop in find_stops(plan) if can_draw_stop(stop.check)}
    if not stops:
        return
    names = {stop.place_id: plan.names.place(plan.names.run(stop.place_id)) for stop in stops.values()}
    picked = next(iter(stops))
    if len(stops) > 1:
        key = f"{STOP_KEY}_{'_'.join(stops)}"
        picked = st.selectbox("What stops it", list(stops), format_func=lambda one: names[one], key=key) or picked
    stop = stops[picked]
    picture = draw_stop(stop.check, names=plan.names, needed=stop.needed)
    show_picture(picture, key="stop", most_px=STOP_PX)
    _show_what_passes(stop, job, catalog)


def _show_what_passes(stop: Stop, job: Job, catalog: Catalog) -> None:
    """Which lines of the catalog pass there alone."""
    found = find_lines_that_pass(
        stop.check,
        job.frame.ports.get(stop.place_id),
        lines=catalog.lines.values(),
        running_clearance_mm=catalog.workshop.limits.running_clearance_mm,
    )
    if found is None:
        return
    told = "; ".join(
        f"{plain(catalog.lines[line_id].name)} ({finely(spare_mm, digits=2)} mm to spare)"
        for line_id, spare_mm in found.items()
    )
    st.markdown(f"**Lines of the catalog that pass there alone:** {told or 'none'}.")
