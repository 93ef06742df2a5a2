"""Ask for a table: which frames, by words and by saved jobs, against which brakes; and have it decided."""

from collections.abc import Iterable, Sequence
from typing import Any

import streamlit as st

from catalog import Catalog, CatalogError, Store, job_from_fields
from planner import in_markdown as plain
from planner import told_apart
from planner.errors import PlannerError
from planner.parts import Case, FrameEnd, case_of_job
from ui.page import session
from ui.page.draft_form import form_of_choices
from ui.page.forms.name_field import ask_who
from ui.page.table_runs import start_run
from ui.page.views.problem_view import show_refusal
from ui.shared.planned_visit import is_visit
from ui.table.asked import TableAsked, asked_of_parts, bare_cases
from ui.table.keep import keep_table
from ui.table.workers import FEW

PREFIX = "choice_place_table_"
FRAMES, BRAKES, JOBS, ENDS = (f"{PREFIX}{name}" for name in ("frames", "brakes", "jobs", "ends"))
MOST_JOBS, MOST_NAMED = 200, 3
TABLES_PAGE = "screens/frames_and_brakes.py"
HELP = "Words that all stand in a name or id; a comma between several kinds: trail, city"


def ask_table(store: Store, catalog: Catalog) -> TableAsked | None:
    """What is asked; None while there is nothing to decide, which is said."""
    with st.container(border=True):
        session.start_choice(ENDS, FrameEnd.REAR.value)
        ends = st.segmented_control(
            "Which brake", [end.value for end in FrameEnd], key=ENDS, format_func=str.capitalize
        )
        frames_column, brakes_column = st.columns(2)
        with frames_column:
            frames = _ask_words("Frames", catalog.frames.values(), key=FRAMES)
            left_out = [frame for frame in frames if ends and not bare_cases(frame, FrameEnd(ends))]
            told, is_sound = _ask_jobs(store, catalog)
        with brakes_column:
            brakes = _ask_words("Brakes", catalog.brakes.values(), key=BRAKES)
        asked_of = {case.frame.id for case in told}
        if named := [frame.name for frame in left_out if frame.id not in asked_of]:
            st.caption(plain(f"Left out, for they tell no way to a {ends} brake: {_named(named)}."))
    if not ends or not is_sound:
        return None
    asked = asked_of_parts(catalog.workshop, frames=frames, told=told, brakes=brakes, ends=FrameEnd(ends))
    if asked.cases and asked.brakes:
        return asked
    st.info("No frame or no brake is left: take words out, or ask for the other end.", icon=":material/arrow_upward:")
    return None


def show_decide_button(store: Store, asked: TableAsked) -> None:
    """The button that decides it: at once where it takes a moment, else in the background."""
    frames_n, brakes_n = len(asked.cases), len(asked.brakes)
    title = f"{frames_n} {_several('frame', frames_n)} against {brakes_n} {_several('brake', brakes_n)}"
    st.markdown(f"**{title}: {frames_n * brakes_n} {_several('pair', frames_n * brakes_n)}**")
    with st.container(horizontal=True, vertical_alignment="bottom"):
        by = ask_who(key="table_by")
        note = st.text_input("Why, to find it again", key=f"{PREFIX}note", max_chars=500)
        is_asked = st.button("Decide them all", type="primary", icon=":material/grid_on:", disabled=not by)
    if not is_asked:
        return
    if frames_n > FEW:
        session.hold("table_run", start_run(asked, title=title, by=by, note=note))
        st.rerun()
    try:
        with st.spinner(f"Deciding {title}"):
            made = keep_table(asked, store, by=by, note=note)
    except (CatalogError, PlannerError) as refusal:
        show_refusal(refusal)
        return
    st.query_params["table"] = str(made.brief.id)
    st.rerun()


def _ask_words(what: str, among: Iterable[Any], *, key: str) -> list[Any]:
    """Those in whose name or id the words stand; how many they are, with the first of their names."""
    words = st.text_input(what, key=key, type="search", placeholder="All of them, or words in their names", help=HELP)
    kinds = [kind.lower().split() for kind in (words or "").split(",") if kind.strip()]
    found = [
        each
        for each in among
        if not kinds or any(all(word in f"{each.name} {each.id}".lower() for word in kind) for kind in kinds)
    ]
    st.caption(plain(f"{len(found)}: {_named([each.name for each in found])}" if found else "None has these words."))
    return found


def _named(names: Sequence[str]) -> str:
    more = len(names) - MOST_NAMED
    return "; ".join(names[:MOST_NAMED]) + (f"; and {more} more" if more > 0 else "")


def _ask_jobs(store: Store, catalog: Catalog) -> tuple[list[Case], bool]:
    """Frames as saved jobs tell them; and whether all of those suit the catalog, else it is said."""
    briefs, _ = store.find_briefs(words="", state=None, most=MOST_JOBS)
    if not briefs:
        return [], True
    titles = told_apart({brief.id: brief.title for brief in briefs})
    session.start_choice(JOBS, [])
    chosen = st.multiselect(
        "With what lies in them, as saved jobs tell",
        list(titles),
        key=JOBS,
        placeholder="None: the frames are empty",
        format_func=lambda id: titles.get(id, id),
    )
    told: list[Case] = []
    try:
        for name in chosen:
            content = store.jobs.get(name).content
            if is_visit(content):
                st.warning(plain(f"{titles[name]} has several lines: save one of them as a job of its own."))
            else:
                told.append(case_of_job(job_from_fields(content, catalog)))
    except CatalogError as refusal:
        show_refusal(refusal)
        return [], False
    return told, True


def _several(word: str, count: int) -> str:
    return word if count == 1 else f"{word}s"


TABLE_FORM = form_of_choices(
    "frames_and_brakes", prefix=PREFIX, title="Frames and brakes", usual={ENDS: FrameEnd.REAR.value}
)
