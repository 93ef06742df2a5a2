"""Show one port: what was asked of it, the hole, and how a stiff piece gets through its wall."""

from typing import Any

import streamlit as st

from planner import RoutingPlan, draw_hole, draw_motion
from planner.parts import Port
from planner.rules import PlaceRule
from planner.verdicts import Check, State, ThingKind
from ui.page.views.markup import safe, show_markup
from ui.page.views.port_picker import show_picture
from ui.page.views.verdict_view import check_line

HOLE_PX = 460
WIDE_MM, NARROW_MM = 180, 92


def show_port(port: Port, plan: RoutingPlan, *, place: str) -> None:
    """Everything the plan says about one port.

    place : where on the page it is shown; no two of one name at once
    """
    show_markup(f'<h3 class="lp-title">{safe(plan.names.place(port.id))}</h3>')
    cautions = [check for check in plan.advisories if check.rule is PlaceRule.WEDGE]
    checks = [check for check in (*plan.checks, *cautions) if check.port_id == port.id]
    if not checks:
        st.caption("The way of this plan does not use this port.")
    if checks:
        st.markdown("  \n".join(check_line(check, plan.names) for check in checks))
    shown = [check for check in checks if check.rule.is_about_hole or check.motion]
    for tab, check in zip(_tabs([_tab_words(check) for check in shown]), shown, strict=True):
        with tab:
            _show_picture(check, port, plan, key=f"{place}_{check.key}")


def _tabs(names: list[str]) -> list[Any]:
    return list(st.tabs(names)) if names else []


def _tab_words(check: Check) -> str:
    words = {State.DRAWING: "While drawing", State.RIDING: "While riding"}[check.state or State.DRAWING]
    if check.motion:
        words = "Stiff piece"
    return f"{words}, fitting" if check.thing and check.thing.kind is ThingKind.FITTING else words


def _show_picture(check: Check, port: Port, plan: RoutingPlan, *, key: str) -> None:
    called = plan.names.place(port.id)
    if check.motion:
        wide, narrow = (draw_motion(check, label=called, width_mm=mm, is_on_paper=False) for mm in (WIDE_MM, NARROW_MM))
        show_picture(wide, narrow=narrow, key=key)
    else:
        hole = draw_hole(check, label=called, names=plan.names.things, is_on_paper=False)
        show_picture(hole, key=key, most_px=HOLE_PX)
