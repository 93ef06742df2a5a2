"""Ask for what a plan says to measure first, right beside its verdict, and plan with it."""

from collections.abc import Mapping

import streamlit as st

from planner import RoutingPlan, figure_words, figures_asked, job_as_read, measures_told
from planner import in_markdown as plain
from planner.parts import Figure, Job, LineFigure, PortLooks, ReadWhat
from ui.page import session
from ui.page.forms.measure_field import ask_measure
from ui.shared.figure_text import LOOKS_WORDS, OFF_MM, TypedFigure, figure_help, read_figure

READ, OFF = "choice_read", "choice_off"
"""How keys begin of what was read, and of how far that may be off."""

Typed = Mapping[Figure, TypedFigure]


def _key(frame_id: str, figure: Figure, *, begins: str = READ) -> str:
    return f"{begins}|{frame_id}|{figure.what}|{figure.id}"


def figures_typed(job: Job) -> dict[Figure, TypedFigure]:
    """What was typed here of this job's frame and lines."""
    begins = f"{READ}|{job.frame.id}|"
    found = {}
    for key, typed in session.choices_beginning(begins).items():
        what, id = key.removeprefix(begins).split("|", 1)
        figure = Figure(what=LineFigure(what) if what in [*LineFigure] else ReadWhat(what), id=id)
        if typed and _is_of(figure, job):
            off = str(session.chosen(_key(job.frame.id, figure, begins=OFF)) or "")
            found[figure] = read_figure(figure, str(typed), off_typed=off)
    return found


def with_readings(job: Job, typed: Typed) -> Job:
    """The job with every figure as it was read here; what cannot be read leaves its figure as it is."""
    return job_as_read(job, [one.read for one in typed.values() if one.read is not None])


def reading_problems(job: Job, typed: Typed) -> list[str]:
    """What cannot be read of what was typed, in sentences."""
    return [
        f"what was measured of {figure_words(figure, job)} cannot be read"
        for figure, one in typed.items()
        if one.problem
    ]


def ask_readings(job: Job, typed: Typed, plan: RoutingPlan | None = None) -> None:
    """A field for each figure that the plan asks for first, and for those that were typed here."""
    asked = (figures_asked(one, job) for one in (() if plan is None else measures_told(plan)))
    first = next((figures for figures in asked if figures), ())
    for figure in dict.fromkeys([*typed, *first]):
        _ask_one(figure, job, typed.get(figure, TypedFigure()))


def forget_readings(job: Job, figures: Mapping[Figure, object]) -> None:
    """Nothing typed of these figures any more."""
    for figure in figures:
        for begins in (READ, OFF):
            session.forget_beginning(_key(job.frame.id, figure, begins=begins))


def _ask_one(figure: Figure, job: Job, typed: TypedFigure) -> None:
    called = plain(figure_words(figure, job))
    key = _key(job.frame.id, figure)
    if figure.what is ReadWhat.LOOKS:
        st.selectbox(
            called,
            [one.value for one in PortLooks],
            key=key,
            index=None,
            placeholder="Look, and choose",
            format_func=lambda one: LOOKS_WORDS[PortLooks(one)],
        )
        return
    is_hole = isinstance(figure.what, ReadWhat) and figure.what.is_hole
    place, beside = st.columns([3, 2], vertical_alignment="top") if is_hole else (st.container(), None)
    session.start_choice(key, "")
    hint = "7.2 if round, or slot 19x7" if is_hole else figure_help(figure.what).range
    place.text_input(f"{called} measured, {figure.unit}", key=key, placeholder=hint)
    if typed.problem:
        place.error(plain(typed.problem), icon=":material/error:")
    elif typed.remark:
        place.caption(plain(typed.remark))
    if beside is not None:
        ask_measure(beside, "Give or take, mm", key=_key(job.frame.id, figure, begins=OFF), start=OFF_MM)


def _is_of(figure: Figure, job: Job) -> bool:
    """Whether the job has what it is a figure of: another frame or another line has figures of its own."""
    lines = {line.line.id for line in (job.old, job.new) if line is not None}
    ends = [end for line in (job.old, job.new) if line is not None for end in (line.from_end, line.to_end)]
    match figure.what:
        case LineFigure.OLD_OUTER | LineFigure.OLD_CABLE:
            return job.old is not None and job.old.line.id == figure.id
        case LineFigure.STAYING_OUTER:
            return figure.id in {staying.line.id for staying in job.staying}
        case LineFigure.BORE:
            return figure.id in lines
        case LineFigure():
            return figure.id in {end.fitting.id for end in ends if end.fitting is not None}
        case ReadWhat.CAVITY:
            return figure.id in job.frame.zones
        case ReadWhat.LENGTH | ReadWhat.BORE | ReadWhat.BEND:
            return figure.id in job.frame.runs
    return figure.id in job.frame.ports
