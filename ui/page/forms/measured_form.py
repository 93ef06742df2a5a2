"""Ask for what a plan says to measure first, right beside its verdict, and plan with it."""

from collections.abc import Iterable, Mapping

import streamlit as st

from planner import figure_words, job_as_read, visit_as_read
from planner import in_markdown as plain
from planner.parts import Figure, Job, LineFigure, PortLooks, ReadWhat, Visit
from ui.page import session
from ui.page.forms.measure_field import ask_measure
from ui.shared.figure_text import LOOKS_WORDS, OFF_MM, TypedFigure, figure_help, read_figure

READ, OFF = "read", "off"
"""How keys are marked of what was read, and of how far that may be off."""

Asked = Job | Visit
"""What is planned on the page: one line, or several in one visit."""

Typed = Mapping[Figure, TypedFigure]


def _begins(asked: Asked, of: str = READ) -> str:
    prefix = session.VISIT_READINGS if isinstance(asked, Visit) else session.JOB_READINGS
    return f"{prefix}{of}|{asked.frame.id}|"


def _key(asked: Asked, figure: Figure, of: str = READ) -> str:
    whose = f"|{figure.of_line}" if figure.of_line else ""
    return f"{_begins(asked, of)}{figure.what}|{figure.id}{whose}"


def figures_typed(asked: Asked) -> dict[Figure, TypedFigure]:
    """What was typed here of this job's frame and lines."""
    begins = _begins(asked)
    found = {}
    for key, typed in session.choices_beginning(begins).items():
        what, id, *of_line = key.removeprefix(begins).split("|")
        kind = LineFigure(what) if what in [*LineFigure] else ReadWhat(what)
        figure = Figure(what=kind, id=id, of_line="".join(of_line))
        if typed and _is_of(figure, asked):
            off = str(session.chosen(_key(asked, figure, OFF)) or "")
            found[figure] = read_figure(figure, str(typed), off_typed=off)
    return found


def job_with_readings(job: Job, typed: Typed) -> Job:
    """The job with every figure as it was read here; what cannot be read leaves its figure as it is."""
    return job_as_read(job, [one.read for one in typed.values() if one.read is not None])


def visit_with_readings(visit: Visit, typed: Typed) -> Visit:
    """The visit with every figure as it was read here, likewise."""
    return visit_as_read(visit, [one.read for one in typed.values() if one.read is not None])


def reading_problems(asked: Asked, typed: Typed) -> list[str]:
    """What cannot be read of what was typed, in sentences."""
    return [
        f"what was measured ({figure_words(figure, asked)}) cannot be read"
        for figure, one in typed.items()
        if one.problem
    ]


def ask_readings(asked: Asked, typed: Typed, first: Iterable[Figure] = (), *, is_waiting: bool = False) -> None:
    """A field for each figure that was typed here, and for each that is asked for first.

    first : what the plan asks to be measured before all else
    is_waiting : whether the fields only show what was typed, for the form is to be put right first
    """
    figures = dict.fromkeys([*typed, *first])
    if figures and is_waiting:
        st.caption("What is measured here waits until the form is right: what was typed is kept, and counts then.")
    for figure in figures:
        _ask_one(figure, asked, typed.get(figure, TypedFigure()), is_waiting=is_waiting)


def forget_readings(asked: Asked, figures: Iterable[Figure]) -> None:
    """Nothing typed of these figures any more."""
    for figure in figures:
        for of in (READ, OFF):
            session.forget_choice(_key(asked, figure, of))


def _ask_one(figure: Figure, asked: Asked, typed: TypedFigure, *, is_waiting: bool) -> None:
    called = plain(figure_words(figure, asked))
    key = _key(asked, figure)
    if figure.what is ReadWhat.LOOKS:
        st.selectbox(
            called,
            [one.value for one in PortLooks],
            key=key,
            index=None,
            placeholder="Look, and choose",
            format_func=lambda one: LOOKS_WORDS[PortLooks(one)],
            disabled=is_waiting,
        )
        return
    is_hole = isinstance(figure.what, ReadWhat) and figure.what.is_hole
    place, beside = st.columns([3, 2], vertical_alignment="bottom") if is_hole else (st.container(), None)
    session.start_choice(key, "")
    hint = "7.2 if round, or slot 19x7" if is_hole else figure_help(figure.what).range
    place.text_input(f"{called} measured, {figure.unit}", key=key, placeholder=hint, disabled=is_waiting)
    if beside is not None:
        off_key = _key(asked, figure, OFF)
        ask_measure(beside, "Give or take, mm", key=off_key, start=OFF_MM, is_waiting=is_waiting)
    if typed.problem:  # below both fields, which stand side by side however long the label is
        st.error(plain(typed.problem), icon=":material/error:")
    elif typed.remark:
        st.caption(plain(typed.remark))


def _is_of(figure: Figure, asked: Asked) -> bool:
    """Whether the job has what it is a figure of: another frame or another line has figures of its own."""
    lines = {line.id: line for line in asked.lines} if isinstance(asked, Visit) else {"": asked}
    told = [each for line in lines.values() for each in (line.old, line.new) if each is not None]
    ends = [end for each in told for end in (each.from_end, each.to_end)]
    match figure.what:
        case LineFigure.OLD_OUTER | LineFigure.OLD_CABLE:
            line = lines.get(figure.of_line)
            return line is not None and line.old is not None and line.old.line.id == figure.id
        case LineFigure.STAYING_OUTER:
            old = [line.old.line.id for line in asked.lines if line.old] if isinstance(asked, Visit) else []
            return figure.id in [*old, *(each.line.id for each in asked.staying)]
        case LineFigure.BORE:
            return figure.id in {each.line.id for each in told}
        case LineFigure():
            return figure.id in {end.fitting.id for end in ends if end.fitting is not None}
        case ReadWhat.CAVITY:
            return figure.id in asked.frame.zones
        case ReadWhat.LENGTH | ReadWhat.BORE | ReadWhat.BEND:
            return figure.id in asked.frame.runs
    return figure.id in asked.frame.ports
