"""Show the way through the frame: the side view with its ports, the section of the one picked."""

from typing import Any

import streamlit as st

from planner import (
    Picture,
    RoutingPlan,
    deciding_check,
    draw_route,
)
from planner import in_markdown as plain
from planner.parts import Frame, Job, Port
from ui.page import session
from ui.page.made_once import made_once
from ui.page.views.hole_view import show_port
from ui.page.views.markup import safe, show_markup
from ui.page.views.port_picker import pick_port, show_picture

FRAME_PX = 640
FRAME_MM = (150.0, 85.0)
"""Width of the paper of a bare frame in a wide and in a narrow window."""

POSTURE = "posture_"
"""How keys of bar and rear as they are turned in the picture begin."""

PORT_IN_ADDRESS = "port"
"""Names the port whose section is open in the address."""


def show_route(plan: RoutingPlan, job: Job) -> None:
    """The side view with its ports and their names; a port picked in it opens its section."""
    if not job.frame.ports:
        st.caption("This frame has no ports.")
        return
    _take_port_of_address(job)
    picked = _picked_port(plan, job)
    room = st.container()
    bar_deg, swing_deg = _ask_posture(job.frame)
    wide, narrow = _side_views(plan, job, picked_port=picked, bar_deg=bar_deg, swing_deg=swing_deg)
    with room:
        pick_port(wide, narrow=narrow, picked_port=picked, key="side_view", when_picked=_pick)
        names = (safe(plan.names.place(port_id)) for port_id in plan.route)
        show_markup(f'<ol class="lp-holes">{"".join(f"<li>{name}</li>" for name in names)}</ol>')


def show_picked_hole(plan: RoutingPlan, job: Job) -> None:
    """The section of a port picked in the picture, in a drawer over the answer until it is put away."""
    port = job.frame.ports.get(session.port_asked_for())
    if port is not None:
        _drawer(port, plan)


def _take_port_of_address(job: Job) -> None:
    """Open the port that the address names, once; put it away where somebody went back from it."""
    named, before = st.query_params.get(PORT_IN_ADDRESS, ""), session.held(PORT_IN_ADDRESS)
    if named in job.frame.ports and before != named:
        session.pick_port(named)
    elif before and not named:
        session.put_port_away()
    session.hold(PORT_IN_ADDRESS, named)


def _pick(port_id: str) -> None:
    session.pick_port(port_id)
    session.hold(PORT_IN_ADDRESS, port_id)
    st.query_params[PORT_IN_ADDRESS] = port_id


def _put_away() -> None:
    session.put_port_away()
    session.let_go(PORT_IN_ADDRESS)
    st.query_params.pop(PORT_IN_ADDRESS, None)


@st.dialog("Hole", position="right", width="small", on_dismiss=_put_away)
def _drawer(port: Port, plan: RoutingPlan) -> None:
    show_port(port, plan, place="drawer")


def show_holes(plan: RoutingPlan, job: Job) -> None:
    """The section of one port after the other."""
    if not job.frame.ports:
        st.caption("This frame has no ports.")
        return
    picked = _picked_port(plan, job)
    st.selectbox(
        "Port shown (or click one in the picture)",
        list(job.frame.ports),
        key=session.PICKED_PORT_KEY,
        format_func=plan.names.place,
    )
    show_port(job.frame.ports[picked], plan, place="list")


def _picked_port(plan: RoutingPlan, job: Job) -> str:
    return session.picked_port(among=tuple(job.frame.ports), first=_first_port(plan, job))


def show_still_route(plan: RoutingPlan, job: Job) -> None:
    """The side view of a plan, to look at only."""
    wide, narrow = _side_views(plan, job)
    show_picture(wide, narrow=narrow, key="still_route", most_px=FRAME_PX)


def _side_views(plan: RoutingPlan, job: Job, **how: Any) -> tuple[Picture, Picture]:
    """The side view for a wide and for a narrow window.

    how : what else `draw_route` is told
    """
    frame, line = job.frame, job.new.line

    def draw() -> tuple[Picture, Picture]:
        wide, narrow = (draw_route(plan, frame, width_mm=mm, line=line, is_bare=True, **how) for mm in (110, 90))
        return wide, narrow

    return made_once(draw, "side views", plan, frame, line, how=tuple(how.items()))


def show_frame(frame: Frame) -> None:
    """The side view of a frame with nothing planned on it."""
    wide, narrow = (draw_route(None, frame, width_mm=width_mm, is_bare=True) for width_mm in FRAME_MM)
    show_picture(wide, narrow=narrow, key=f"frame_{frame.id}", most_px=FRAME_PX)


def show_frame_with_ports(frame: Frame) -> None:
    """The side view of a frame with nothing planned on it; a port picked in it is told below."""
    if not frame.ports:
        show_frame(frame)
        return
    named = st.query_params.get(PORT_IN_ADDRESS, "")
    picked = named if named in frame.ports else ""
    wide, narrow = (draw_route(None, frame, width_mm=mm, picked_port=picked, is_bare=True) for mm in FRAME_MM)
    key = f"ports_{frame.id}"
    pick_port(wide, narrow=narrow, picked_port=picked, key=key, when_picked=_name_port, most_px=FRAME_PX)
    if picked:
        port = frame.ports[picked]
        measured = "hole not measured, " if port.opening is None else ""
        told = f"{port.label or port.id}: {measured}wall {port.wall_thickness_mm:g} mm, tilt {port.tilt_deg:g}°"
        st.markdown(f"**{plain(told)}**")


def _name_port(port_id: str) -> None:
    st.query_params[PORT_IN_ADDRESS] = port_id


def _ask_posture(frame: Frame) -> tuple[float, float]:
    """How far the bar is turned and the rear swung in the picture; nothing is asked where nothing moves."""
    lock_deg = int(frame.bar.lock_deg) if frame.bar else 0
    swing_to_deg = int(frame.rear.swing_deg) if frame.rear else 0
    bar, rear = f"{POSTURE}bar_{frame.id}_{lock_deg}_deg", f"{POSTURE}rear_{frame.id}_{swing_to_deg}_deg"
    if lock_deg or swing_to_deg:
        session.keep_beginning(bar, rear)
        turn = st.expander("Turn the bar, swing the rear", key=f"turn_{frame.id}", on_change="rerun")
        if turn.open and lock_deg:
            side = "left" if frame.bar and frame.bar.axis[2] > 0 else "right"
            session.start_choice(bar, 0)
            turn.slider(f"Bar, degrees (+ turns to the {side})", -lock_deg, lock_deg, key=bar)
        if turn.open and swing_to_deg:
            session.start_choice(rear, 0)
            least_deg, most_deg = sorted((0, swing_to_deg))
            turn.slider("Rear suspension, degrees from rest", least_deg, most_deg, key=rear)
    return float(session.chosen(bar) or 0), float(session.chosen(rear) or 0)


def _first_port(plan: RoutingPlan, job: Job) -> str:
    decider = deciding_check(plan)
    if decider is not None and decider.port_id:
        return decider.port_id
    stopping = plan.no_route.ports if plan.no_route else ()
    return next(iter((*stopping, *plan.route, *job.frame.ports)))
