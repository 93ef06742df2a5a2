"""Show one step of the work large, for a tablet on a stand: what to do, what can hurt, where, and the clock."""

import streamlit as st

from catalog import EditConflict, Store, StoredBenchNote
from planner import RoutingPlan, Step, draw_hole, draw_route, rescue_sheet, step_with_rescue, steps_by_part
from planner import in_markdown as plain
from planner.parts import Frame
from ui.page import session
from ui.page.views.markup import safe, show_markup
from ui.page.views.port_picker import show_picture
from ui.shared.bench_work import (
    BenchWork,
    as_content,
    estimate_of,
    show_step,
    start,
    stop,
    tick,
    work_of,
    work_words,
)
from ui.shared.days import now
from ui.shared.planned_job import PlannedJob

CONFLICT = "bench_conflict"


def show_bench(store: Store, planned: PlannedJob, plan_id: int) -> None:
    """The step the work is at, with the way on and back; everything is kept with the plan at once."""
    plan, note = planned.plan, store.bench.get(plan_id)
    if not plan.steps:
        st.info("No steps: there is no plan to work from.", icon=":material/info:")
        return
    work = work_of(note)
    step = plan.steps[min(max(work.at, 1), len(plan.steps)) - 1]
    if session.held(CONFLICT):
        session.let_go(CONFLICT)
        st.warning("Another window was quicker: this is how far it is there.", icon=":material/sync_problem:")
    part = next((title for title, steps in steps_by_part(plan) if step in steps), "")
    is_done = step.n in work.done
    head = f"Step {step.n} of {len(plan.steps)}{f' · {part}' if part else ''}{' · done' if is_done else ''}"
    told, seen = st.columns([3, 2])
    with told:
        show_markup(
            f'<section class="lp-step"><p class="lp-about">{safe(head)}</p><h1>{safe(step.text)}</h1></section>'
        )
        _show_buttons(store, note, work, plan, step)
        _show_more(plan, step)
    with seen:
        _show_place(plan, planned.job.frame, step)
        words = work_words(work, steps=len(plan.steps), estimate_min=estimate_of(plan), now=now())
        st.markdown(plain(f"{words[:1].upper()}{words[1:]}."))
        st.progress(len(work.done) / len(plan.steps))


def _show_buttons(store: Store, note: StoredBenchNote, work: BenchWork, plan: RoutingPlan, step: Step) -> None:
    last, is_done = len(plan.steps), step.n in work.done

    def keep(changed: BenchWork) -> None:
        try:
            store.bench.save(note.plan_id, as_content(changed), based_on=note.version)
        except EditConflict:
            session.hold(CONFLICT, True)

    with st.container(horizontal=True, key="bench_ways"):
        if st.button("Back", icon=":material/arrow_back:", disabled=step.n == 1, shortcut="Left", width="stretch"):
            keep(show_step(work, step.n - 1, now()))
            st.rerun()
        label = "Not done after all" if is_done else "Done"
        if st.button(label, icon=":material/check:", type="primary", shortcut="D", width="stretch"):
            ticked = tick(work, is_done=not is_done)
            keep(show_step(ticked, min(step.n + 1, last), now()) if not is_done else ticked)
            st.rerun()
        if st.button(
            "Next", icon=":material/arrow_forward:", disabled=step.n == last, shortcut="Right", width="stretch"
        ):
            keep(show_step(work, step.n + 1, now()))
            st.rerun()
    runs = work.since is not None
    if st.button(
        "Stop the clock" if runs else "Start the clock", icon=":material/timer:", width="stretch", key="bench_clock"
    ):
        keep(stop(work, now()) if runs else start(work, now()))
        st.rerun()


def _show_more(plan: RoutingPlan, step: Step) -> None:
    """What can hurt at this step, why it is done, and what to do where it sticks."""
    for caution in step.cautions:
        st.warning(plain(caution), icon=":material/warning:")
    if step.why:
        st.markdown(f"**Why:** {plain(step.why)}")
    if step is step_with_rescue(plan):
        with st.expander("When it sticks or parts", expanded=True):
            for title, told in rescue_sheet(plan):
                lines = [f"**{title}**", *(f"{words}: {' '.join(map(plain, texts))}" for words, texts in told)]
                st.markdown("  \n".join(lines))


def _show_place(plan: RoutingPlan, frame: Frame, step: Step) -> None:
    """The side view with the hole ringed that the step names, and how its line lies in it."""
    named = [port for port in frame.ports.values() if port.label and port.label in step.text]
    ringed = named[0].id if named else ""
    wide, narrow = (draw_route(plan, frame, width_mm=mm, picked_port=ringed, is_bare=True) for mm in (110, 90))
    show_picture(wide, narrow=narrow, key="bench_place")
    check = next((one for one in plan.checks if one.port_id == ringed and one.rule.is_about_hole), None)
    if check is not None:
        label = frame.ports[ringed].label
        show_picture(draw_hole(check, label=label, names=plan.names.things, is_on_paper=False), key="bench_hole")
