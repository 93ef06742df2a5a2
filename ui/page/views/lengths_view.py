"""Show how long the line must be: the bar, each leg, and how the cut length comes about."""

import streamlit as st

from planner import (
    RoutingPlan,
    added_words,
    asked_length_words,
    draw_length_bar,
    leg_size,
    order_words,
    unknown_legs_words,
)
from planner import in_markdown as plain
from ui.page.views.port_picker import show_picture

WIDE_MM, NARROW_MM = 180, 92


def show_lengths(plan: RoutingPlan) -> None:
    """The length bar, the legs with their low, nominal and high figures, and the sum."""
    if plan.lengths is None:
        st.caption("No length: there is no way through.")
        return
    wide, narrow = (
        draw_length_bar(plan.lengths, names=plan.names, width_mm=mm, may_be_cut=plan.outcome.lets_work_begin)
        for mm in (WIDE_MM, NARROW_MM)
    )
    show_picture(wide, narrow=narrow, key="length_bar")
    st.markdown(_legs_table(plan))
    for words in _sum_in_words(plan):
        st.markdown(words)


def _legs_table(plan: RoutingPlan) -> str:
    rows = ["| Leg | Low | Nominal | High |", "|:--|--:|--:|--:|"]
    for leg in plan.lengths.legs if plan.lengths else ():
        figures = " | ".join(leg_size(length_mm, unit="") for length_mm in (leg.low_mm, leg.nominal_mm, leg.high_mm))
        rows.append(f"| {plain(plan.names.run(leg.run_id))} | {figures} |")
    return "\n".join([*rows, "", ":small[All figures in mm.]"])


def _sum_in_words(plan: RoutingPlan) -> list[str]:
    lengths = plan.lengths
    if lengths is None:
        return []
    need = (
        f"a length not known ({unknown_legs_words(lengths, names=plan.names)})"
        if lengths.need_mm is None
        else f"{lengths.need_mm:.0f} mm"
    )
    told = f"Need {need}{added_words(lengths)}, rounded up: **{asked_length_words(plan)}**."
    words = [told, f"Counted: {plain(lengths.posture)}."]
    if lengths.measured_difference_ratio is not None and lengths.measured_old_mm is not None:
        share = f"{100 * lengths.measured_difference_ratio:+.1f} %"
        words.append(f"The old line was measured at {lengths.measured_old_mm:.0f} mm, {share} against this plan.")
    if order := order_words(lengths):
        words.append(f"As supplied it was not told; {order}.")
    return words
