"""What a photograph tells, each figure with how far it may be off, and the button that takes it into the form."""

from math import sqrt

import streamlit as st

from planner.parts import GeometryError
from ui.page import session
from ui.page.views.markup import safe, show_markup
from ui.shared.dialogue.frame_words import TABLE
from ui.shared.dialogue.questions import Source
from ui.shared.photo_marks import PhotoFigures
from ui.shared.photo_view import HAND_PX, PhotoView, slant_off_ratio

_SQUARE = f"{session.NEW_FRAME}photo_square"
MOST_MISFIT_PX = 2 * HAND_PX
"""Points farther from round rims than that were not set on them."""

MOST_APART_RATIO = slant_off_ratio(10)
"""Two known distances that are farther apart than a view 10 degrees from square makes them are not believed."""

CAUTION = (
    "What lies 60 mm nearer to the camera than the known distance is told 2 % too long from three metres. "
    "Never take the size of a hole from a photograph: calipers or drill shanks tell it."
)


def show_figures(figures: PhotoFigures) -> None:
    """The scale, how slanted the view is, and every figure, to be taken into the form."""
    view = figures.view
    if view is None:
        st.info("Mark both ends of the known distance and tell it in mm.", icon=":material/straighten:")
        return
    level = "level by the two axles" if figures.is_level else "level by the picture's edge: mark both axles to be surer"
    st.markdown(
        f"One pixel is **{view.pixel_mm:.2f} mm**; a point set by hand is good to about ±{figures.hand_mm:.0f} mm; "
        f"{level}."
    )
    _show_slant(view)
    if not _show_scales(view):
        return
    st.caption(CAUTION)
    rows = [
        (TABLE[name][0].rstrip("?"), _with_error(value, figures.errors[name], "°" if "angle" in name else " mm"))
        for name, value in figures.told.items()
    ]
    rows += [
        (f"{key.removesuffix(' place').capitalize()}", f"{words}, ± {figures.errors[key]:.0f} mm")
        for key, words in figures.places.items()
    ]
    if not rows:
        return
    show_markup(
        '<dl class="lp-facts">'
        + "".join(f"<dt>{safe(name)}</dt><dd>{safe(value)}</dd>" for name, value in rows)
        + "</dl>"
    )
    source = _ask_source(figures, view)
    st.button(
        "Take these figures into the form", type="primary", key="photo_take", on_click=_take, args=(figures, source)
    )


def _with_error(value: float, error: float, unit: str) -> str:
    return f"{value:.0f} ± {max(error, 0.5):.0f}{unit}"


def _show_slant(view: PhotoView) -> None:
    """How slanted the view is, and what that does to lengths."""
    if view.misfit_px > MOST_MISFIT_PX:
        st.warning(
            f"The points lie {view.misfit_px:.0f} pixels off round rims: set them anew on one edge of each rim, or the "
            "wheels are not of one size.",
            icon=":material/warning:",
        )
    if view.is_corrected:
        st.markdown(f"Seen **about {view.slant_deg:.0f}° from square**, and put right by the wheels.")
    elif view.slant_deg is not None:
        st.warning(
            f"Seen some {view.slant_deg:.0f}° from square, by one wheel: lengths may be "
            f"{100 * view.off_ratio:.0f} % off. Mark the other wheel as well, and that is put right.",
            icon=":material/warning:",
        )
    else:
        ten, twenty = (100 * slant_off_ratio(slant_deg) for slant_deg in (10, 20))
        st.caption(
            f"Whether the view is slanted is not known: 10° from square make lengths up to {ten:.0f} % wrong, 20° up "
            f"to {twenty:.0f} %. Both wheels would tell."
        )


def _show_scales(view: PhotoView) -> bool:
    """What a second known distance says of the first; False where they disagree too much for any figure."""
    if view.apart_ratio is None:
        return True
    apart = f"{100 * abs(view.apart_ratio):.1f} % {'longer' if view.apart_ratio > 0 else 'shorter'} than it was told"
    if abs(view.apart_ratio) > MOST_APART_RATIO:
        st.error(
            f"By the first known distance the second is {apart}, and so no figure is told: look at both lengths and "
            "their four points, and whether both lie in the plane of the frame. Taken at a slant, mark both wheels.",
            icon=":material/error:",
        )
        return False
    st.markdown(f"By the first known distance the second is **{apart}**; every ± below counts that.")
    return True


def _ask_source(figures: PhotoFigures, view: PhotoView) -> Source:
    """How well the figures count: as the wheels say; where they say nothing, as whoever took it says."""
    limits = session.catalog_in_use().workshop.limits.place_errors.get(GeometryError.ORDINARY)
    most_mm = 0.0 if limits is None else 3 * sqrt(2) * limits.port_mm  # a length has two ends, each as far off
    if (view.is_corrected or view.apart_ratio is not None) and figures.worst_mm > most_mm:
        st.caption(
            f"A length may be {figures.worst_mm:.0f} mm off, more than the {most_mm:.0f} mm that count as ordinary: "
            "the plan tells no length by these places."
        )
        return Source.PHOTO
    if view.is_corrected:
        st.caption(f"No length is more than {figures.worst_mm:.0f} mm off: the places count as ordinary.")
        return Source.CORRECTED_PHOTO
    if view.slant_deg is not None:
        st.caption("Places seen at a slant count as told by eye: the plan tells no length by them.")
        return Source.PHOTO
    session.start_choice(_SQUARE, False)
    square = st.checkbox("It was taken squarely, from three metres or more", key=_SQUARE)
    if not square:
        st.caption("Without that the places count as told by eye: the plan tells no length by them.")
    return Source.SQUARE_PHOTO if square else Source.PHOTO


def _take(figures: PhotoFigures, source: Source) -> None:
    """The fields of the form show the figures, each with where it comes from."""
    told = {
        name: f"{value:.1f} {source.mark}" if "angle" in name else f"{value:.0f} {source.mark}"
        for name, value in figures.told.items()
    }
    told |= {key: f"{words} {source.mark}" for key, words in figures.places.items()}
    if figures.told:
        told["lengths"] = "table"
    session.put_choices({f"{session.NEW_FRAME}{key}": words for key, words in told.items()})
