"""Show one step of the work large, for a tablet on a stand: what to do, what can hurt, where, and the clock."""

import streamlit as st

from catalog import EditConflict, Store, StoredBenchNote
from planner import PART_TITLES, draw_held, draw_hole, draw_opening, draw_route, rescue_sheet, step_with_rescue
from planner import in_markdown as plain
from planner.parts import Frame, Port
from ui.page import session
from ui.page.views.halves import show_halves
from ui.page.views.markup import safe, show_markup
from ui.page.views.port_picker import show_picture
from ui.shared.bench_steps import BenchStep, bench_plan_of
from ui.shared.bench_work import (
    BenchWork,
    as_content,
    show_step,
    start,
    stop,
    tick,
    work_of,
    work_words,
)
from ui.shared.days import now
from ui.shared.planned_visit import Planned

CONFLICT = "bench_conflict"
_HOLE_PX = 460


def show_bench(store: Store, planned: Planned, plan_id: int) -> None:
    """The step the work is at, with the way on and back; everything is kept with the plan at once."""
    bench, note = bench_plan_of(planned), store.bench.get(plan_id)
    if not bench.steps:
        st.info("No steps: there is no plan to work from.", icon=":material/info:")
        return
    work = work_of(note)
    row = bench.steps[min(max(work.at, 1), len(bench.steps)) - 1]
    if session.held(CONFLICT):
        session.let_go(CONFLICT)
        st.warning("Another window was quicker: this is how far it is there.", icon=":material/sync_problem:")
    about = [f"Step {row.n} of {len(bench.steps)}", PART_TITLES[row.step.part] if row.step.part else "", row.whose]
    head = " · ".join(words for words in (*about, "done" if row.n in work.done else "") if words)
    told, seen = show_halves(stacks_fields=False)
    with told:
        show_markup(
            f'<section class="lp-step"><p class="lp-about">{safe(head)}</p><h1>{safe(row.step.text)}</h1></section>'
        )
        _show_buttons(store, note, work, row, last=len(bench.steps))
        _show_more(row)
    with seen:
        _show_place(row, bench.frame)
        words = work_words(work, steps=len(bench.steps), estimate_min=bench.estimate_min, now=now())
        st.markdown(plain(f"{words[:1].upper()}{words[1:]}."))
        st.progress(len(work.done) / len(bench.steps))


def _show_buttons(store: Store, note: StoredBenchNote, work: BenchWork, step: BenchStep, *, last: int) -> None:
    is_done = step.n in work.done

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


def _show_more(row: BenchStep) -> None:
    """What can hurt at this step, why it is done, and what to do where it sticks."""
    for caution in row.step.cautions:
        st.warning(plain(caution), icon=":material/warning:")
    if row.step.why:
        st.markdown(f"**Why:** {plain(row.step.why)}")
    if row.plan is not None and row.step == step_with_rescue(row.plan):
        with st.expander("When it sticks or parts", expanded=True):
            for title, told in rescue_sheet(row.plan):
                lines = [f"**{title}**", *(f"{words}: {' '.join(map(plain, texts))}" for words, texts in told)]
                st.markdown("  \n".join(lines))


def _show_place(row: BenchStep, frame: Frame) -> None:
    """How the bicycle is held where the step says so; the side view, the hole it names ringed; every hole it names."""
    held = draw_held(row.step.id)
    if held is not None:
        show_picture(held, key="bench_held", most_px=_HOLE_PX)
    named = [port for port in frame.ports.values() if port.label and port.label in row.step.text]
    if row.plan is not None:
        ringed = named[0].id if named else ""
        wide, narrow = (draw_route(row.plan, frame, width_mm=mm, picked_port=ringed, is_bare=True) for mm in (110, 90))
        show_picture(wide, narrow=narrow, key="bench_place")
    for n, port in enumerate(named):
        _show_hole(row, port, key=f"bench_hole_{n}" if n else "bench_hole")


def _show_hole(row: BenchStep, port: Port, *, key: str) -> None:
    """How the line lies in a hole where the plan proves it, else the hole by itself."""
    checks = () if row.plan is None else row.plan.checks
    check = next((one for one in checks if one.port_id == port.id and one.rule.is_about_hole), None)
    if check is not None and row.plan is not None:
        hole = draw_hole(check, label=row.plan.names.place(port.id), names=row.plan.names.things, is_on_paper=False)
        show_picture(hole, key=key, most_px=_HOLE_PX)
    elif port.opening is not None:
        show_picture(draw_opening(port.opening, label=port.label), key=key, most_px=_HOLE_PX)
