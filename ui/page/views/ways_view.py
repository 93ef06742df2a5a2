"""Show why this way and no other: the table of all that was tried, one way along its places, what stops a no."""

import streamlit as st

from catalog import Catalog
from planner import (
    Picture,
    RoutingPlan,
    WayTable,
    draw_way_strip,
    draw_way_table,
    fed_words,
    find_way_table,
    other_ways,
    outcome_word,
    proposals,
    remark_words,
    row_words,
    sentence_for,
    whole_minutes,
)
from planner import in_markdown as plain
from planner.parts import Job
from ui.page.plans import JOB_BY_VALUE
from ui.page.views.port_picker import show_picture
from ui.page.views.verdict_view import check_line

WIDE_MM, NARROW_MM = 160, 90
MOST_PX = 1100
"""Wider the letters would only grow."""
WAY_KEY = "way_shown"


def show_ways(plan: RoutingPlan, job: Job, catalog: Catalog) -> None:
    """What else would work, every way against every place, and one of them along the way."""
    _show_others(plan)
    table = _way_table_of(job, catalog, plan)
    if not table.ways and not table.unmade:
        st.caption("Nothing else was tried: no joint moves through this frame.")
        return
    wide, narrow = _table_drawn(job, catalog, plan)
    show_picture(wide, narrow=narrow, key="way_table", most_px=MOST_PX)
    if table.ways and table.places:
        _show_one(table, plan, job, catalog)


@st.cache_resource(show_spinner="Comparing all ways", max_entries=64, hash_funcs=JOB_BY_VALUE)
def _way_table_of(job: Job, catalog: Catalog, _plan: RoutingPlan) -> WayTable:
    """Every way against every place of the plan of this job; the same job is asked once."""
    return find_way_table(job=job, workshop=catalog.workshop, plan=_plan)


@st.cache_resource(show_spinner=False, max_entries=64, hash_funcs=JOB_BY_VALUE)
def _table_drawn(job: Job, catalog: Catalog, _plan: RoutingPlan) -> tuple[Picture, Picture]:
    """The table for a wide and for a narrow window; that of the same job is drawn once."""
    table = _way_table_of(job, catalog, _plan)
    return draw_way_table(table, _plan, width_mm=WIDE_MM), draw_way_table(table, _plan, width_mm=NARROW_MM)


@st.cache_resource(show_spinner=False, max_entries=64, hash_funcs=JOB_BY_VALUE)
def _strip_drawn(job: Job, catalog: Catalog, nth: int, _plan: RoutingPlan) -> tuple[Picture, Picture]:
    """One row along its places, likewise."""
    table = _way_table_of(job, catalog, _plan)
    row = table.ways[nth]
    return draw_way_strip(table, row, _plan, width_mm=WIDE_MM), draw_way_strip(table, row, _plan, width_mm=NARROW_MM)


def _show_one(table: WayTable, plan: RoutingPlan, job: Job, catalog: Catalog) -> None:
    """The places of one way, drawn with what passes them, and in words."""
    names = [row_words(row, plan) for row in table.ways]
    key = f"{WAY_KEY}_{len(names)}"
    nth = st.selectbox("One way along its places", range(len(names)), format_func=lambda n: names[n], key=key)
    row = table.ways[nth or 0]
    wide, narrow = _strip_drawn(job, catalog, nth or 0, plan)
    show_picture(wide, narrow=narrow, key="way_strip", most_px=MOST_PX)
    told = [check_line(check, plan.names) for check in row.cells if check is not None]
    with st.expander("The same in words"):
        st.markdown("\n".join(f"- {line}" for line in told))


def _show_others(plan: RoutingPlan) -> None:
    """What would serve as well, with minutes, and changed methods that would."""
    for option in other_ways(plan):
        remark = f", {remark_words(option.remark)}" if option.remark else ""
        way = fed_words(plan, method_name=option.method.name, feed_from=option.feed_from, route=option.route)
        works = f"would also work: {outcome_word(option.outcome)}"
        said = works if plan.outcome.lets_work_begin else "is not proven either"
        st.markdown(f"**{plain(way)}** {said}, about {whole_minutes(option.work_min)} min{remark}.")
    for check in proposals(plan) if plan.outcome.lets_work_begin else ():
        st.markdown(f"{plain(sentence_for(check, names=plan.names))}.")
