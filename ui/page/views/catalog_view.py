"""Show catalog entries in the words of the trade, each on its own short lines so that a narrow window holds them."""

from collections.abc import Callable, Iterable
from typing import Protocol, TypeVar

import streamlit as st

from catalog import Catalog
from planner import in_markdown as plain
from planner import need_words
from planner.parts import Brake, Fitting, Frame, Line, LineEnd, SmallPart
from ui.page.views.route_view import show_frame


class _Named(Protocol):
    """Whatever can be looked up by its name or id."""

    @property
    def id(self) -> str: ...

    @property
    def name(self) -> str: ...


Entry = TypeVar("Entry", bound=_Named)


def _show_frames(catalog: Catalog, wanted: str) -> None:
    for frame in _chosen(catalog.frames.values(), wanted):
        with st.expander(f"{plain(frame.name)} ({plain(frame.id)})"):
            show_frame(frame)
            _show_lines(_port_lines(frame))


def _port_lines(frame: Frame) -> list[str]:
    told = []
    for port in frame.ports.values():
        kinds = ", ".join(kind.value.replace("_", " ") for kind in port.admits)
        told.append(
            f"**{plain(port.id)}**: {plain(port.label)}; wall {port.wall_thickness_mm:g} mm, tilt {port.tilt_deg:g}°"
            + ("; not measured" if port.opening is None else "")
            + ("; with an insert" if port.insert else "")
            + (f"; takes only {kinds}" if kinds else "")
        )
    for run in frame.runs.values():
        guide = f", guide of {run.guide.bore_diameter_mm:g} mm bore" if run.guide else ""
        told.append(f"**{plain(run.id)}**: {plain(' to '.join(run.between))} through {plain(run.zone_id)}{guide}")
    return told


def _show_brakes(catalog: Catalog, wanted: str) -> None:
    for brake in _chosen(catalog.brakes.values(), wanted):
        _show_entry(brake.name, brake.id, _brake_lines(brake))


def _brake_lines(brake: Brake) -> list[str]:
    fluid = need_words(f"fluid:{brake.fluid.value}") if brake.fluid else "no fluid: pulled by a cable"
    length = "not measured" if brake.supplied_length_mm is None else f"{brake.supplied_length_mm:.0f} mm"
    return [
        f"line: {plain(brake.line.name)}, supplied {length}",
        plain(fluid),
        f"lever end: {_end_words(brake.lever_end)}",
        f"caliper end: {_end_words(brake.caliper_end)}",
    ]


def _end_words(end: LineEnd) -> str:
    if end.fitting is None:
        return "bare"
    return f"{plain(end.fitting.name)}, " + ("fitted" if end.is_fitted else "lies beside it")


def _show_lines_section(catalog: Catalog, wanted: str) -> None:
    for line in _chosen(catalog.lines.values(), wanted):
        _show_entry(line.name, line.id, _line_lines(line))


def _line_lines(line: Line) -> list[str]:
    bore = "no bore measured" if line.bore_diameter_mm is None else f"bore {line.bore_diameter_mm:g} mm"
    return [
        f"{line.kind.value.replace('_', ' ')}, {line.outer_diameter_mm:g} ± {line.outer_tolerance_mm:g} mm, {bore}",
        f"bent no tighter than {line.minimum_bend_radius_mm:g} mm, to the inside of the bend",
    ]


def _show_fittings(catalog: Catalog, wanted: str) -> None:
    for fitting in _chosen(catalog.fittings.values(), wanted):
        _show_entry(fitting.name, fitting.id, _fitting_lines(fitting))


def _fitting_lines(fitting: Fitting) -> list[str]:
    thread = f", thread {fitting.thread}" if fitting.thread else ""
    size = f"{fitting.outer_diameter_mm:g} mm across, {fitting.length_mm:g} mm long"
    return [f"{fitting.style.value}, set by the {fitting.set_by.value}", plain(f"{size}{thread}")]


def _show_methods(catalog: Catalog, wanted: str) -> None:
    for method in _chosen(catalog.workshop.methods, wanted):
        holds = "not measured" if method.holds_n is None else f"{method.holds_n:g} N"
        _show_entry(method.name, method.id, [f"holds {holds}; {method.setup_min:g} min to make"])


def _show_parts(catalog: Catalog, wanted: str) -> None:
    currency = catalog.workshop.limits.currency
    for part in _chosen(catalog.workshop.small_parts.values(), wanted):
        _show_entry(part.name, part.id, [_price_words(part, currency)])


def _price_words(part: SmallPart, currency: str) -> str:
    return "not priced" if part.price is None else f"{part.price} {currency}"


def _show_shop(catalog: Catalog, _wanted: str) -> None:
    limits = catalog.workshop.limits
    _show_lines(
        [
            f"running clearance wanted in the worst case: {limits.running_clearance_mm:g} mm",
            f"a stud is {limits.stud_squeeze_min_mm:g} to {limits.stud_squeeze_max_mm:g} mm thicker than its bore",
            f"trim allowance: {limits.trim_allowance_mm:g} mm; cut lengths in steps of {limits.length_step_mm:g} mm",
            f"a joint is pulled only where it holds {limits.pull_margin_ratio:g} times the drag",
            f"work: {limits.labour_per_hour} {limits.currency} an hour",
        ]
    )


SECTIONS: dict[str, Callable[[Catalog, str], None]] = {
    "Frames": _show_frames,
    "Brakes": _show_brakes,
    "Lines": _show_lines_section,
    "Fittings": _show_fittings,
    "Methods": _show_methods,
    "Small parts": _show_parts,
    "Shop limits": _show_shop,
}
"""What can be looked through, in the order of the buttons."""


def _chosen(things: Iterable[Entry], wanted: str) -> list[Entry]:
    found = [thing for thing in things if wanted in f"{thing.name} {thing.id}".lower()]
    if not found:
        st.info(
            "Nothing here." if not wanted else f"Nothing here contains “{plain(wanted)}”.", icon=":material/search:"
        )
    return found


def _show_entry(name: str, thing_id: str, lines: list[str]) -> None:
    with st.container(border=True):
        st.markdown(f"**{plain(name)}** ({plain(thing_id)})  \n" + "  \n".join(lines))


def _show_lines(lines: list[str]) -> None:
    st.markdown("\n".join(f"- {line}" for line in lines))
