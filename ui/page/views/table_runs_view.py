"""Show how far the tables are that are decided in the background."""

import streamlit as st

from planner import in_markdown as plain
from ui.page import session
from ui.page.table_runs import Run, forget_run, runs, stop_run


def show_runs() -> None:
    """Those under way with the time left, in every window; the window that asked shows its table once it is there."""
    if runs():
        _show_each()


@st.fragment(run_every=1.0)
def _show_each() -> None:
    for name, run in list(runs().items()):
        if not run.ended:
            _show_run(name, run)
        elif run.table_id is not None:
            forget_run(name)
            if session.held("table_run") == name:
                session.let_go("table_run")
                st.query_params["table"] = str(run.table_id)
            st.rerun()
        else:
            with st.container(horizontal=True, vertical_alignment="center"):
                st.warning(plain(f"{run.title}: {run.refused}"), icon=":material/pause_circle:")
                st.button("Put away", key=f"away_{name}", on_click=forget_run, args=(name,))


def _show_run(name: str, run: Run) -> None:
    with st.container(horizontal=True, vertical_alignment="center"):
        st.progress(run.done_n / run.whole_n, text=plain(f"{run.title}: {run.left()}"))
        st.button("Stop", key=f"stop_{name}", icon=":material/stop:", on_click=stop_run, args=(name,))
