"""Show the way through the frame: the side view with its ports, the section of the one picked, what was ruled out."""

import streamlit as st

from planner import RoutingPlan, deciding_check, draw_route, end_name, sentence_for
from planner.parts import Job
from ui import session
from ui.hole_view import show_port
from ui.plain_words import plain
from ui.port_picker import pick_port
from ui.verdict_view import OUTCOME_WORDS, labels_of


def show_route(plan: RoutingPlan, job: Job) -> None:
    """The side view; a port picked in it, or in the list below it, shows its section."""
    if not job.frame.ports:
        st.caption("This frame has no ports.")
        return
    picked = session.picked_port(among=tuple(job.frame.ports), first=_first_port(plan, job))
    picture, section = st.columns([3, 2])
    with picture:
        pick_port(
            draw_route(plan, job.frame, picked_port=picked),
            narrow_svg=draw_route(plan, job.frame, width_mm=95, picked_port=picked),
            picked_port=picked,
            key="side_view",
            when_picked=session.pick_port,
        )
    labels = labels_of(job)
    section.selectbox(
        "Port shown (or click one in the picture)",
        list(job.frame.ports),
        key=session.PICKED_PORT_KEY,
        format_func=lambda port_id: f"{port_id}: {labels[port_id]}",
    )
    with section:
        show_port(job.frame.ports[picked], plan, job)


def _first_port(plan: RoutingPlan, job: Job) -> str:
    decider = deciding_check(plan)
    if decider is not None and decider.port_id:
        return decider.port_id
    stopping = plan.no_route.ports if plan.no_route else ()
    return next(iter((*stopping, *plan.route, *job.frame.ports)))


def show_ruled_out(plan: RoutingPlan, job: Job) -> None:
    """Every method and direction that was ruled out, with every reason; and what would also work."""
    for option in plan.options[1:]:
        remark = ", holds nothing: push only" if option.remark == "holds_nothing" else ""
        way = f"{option.method_id}, fed from {end_name(plan, option.feed_from)}"
        st.markdown(f"**{plain(way)}** would also work: {OUTCOME_WORDS[option.outcome]}{remark}.")
    labels = labels_of(job)
    grouped: dict[tuple[str | None, object], list[str]] = {}
    for rejection in plan.rejected:
        sentences = grouped.setdefault((rejection.method_id, rejection.feed_from), [])
        sentence = sentence_for(rejection, labels=labels)
        if sentence not in sentences:
            sentences.append(sentence)
    for (method_id, feed_from), sentences in grouped.items():
        tried = f"{method_id or 'every method'}" + (f", fed from {end_name(plan, feed_from)}" if feed_from else "")
        st.markdown(f"**{plain(tried)}** is ruled out:")
        st.markdown("\n".join(f"- {plain(sentence)}" for sentence in sentences))
    if not plan.rejected and not plan.options[1:]:
        st.caption("Nothing else was tried.")
