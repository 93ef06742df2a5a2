"""Measure a frame on a photograph of its side: points set on it become figures of the form beside it."""

from collections.abc import Mapping

import streamlit as st

from catalog import usual_frame
from planner import in_markdown as plain
from ui.page import session
from ui.page.forms.measure_field import ask_measure
from ui.page.forms.photo_figures import show_figures
from ui.page.photo_kept import PhotoRefused, marks, photo, set_mark, take_last_back, take_photo
from ui.page.views.photo_picker import pick_points
from ui.page.views.problem_view import show_refusal
from ui.shared.dialogue.said_places import SIDES
from ui.shared.photo_marks import PhotoHole, figures_of, points_of

_KEY = f"{session.NEW_FRAME}photo_"
_NEXT, _SENT = "photo_next", "photo_sent"
_TUBES = (
    "down_tube",
    "top_tube",
    "seat_tube",
    "head_tube",
    "stay_left",
    "stay_right",
    "seatstay_left",
    "seatstay_right",
)
HOW = (
    "Photograph the side squarely, from three metres or more, the camera as high as the bottom bracket, both wheels "
    "level, with something of known length in the plane of the frame: wheel centres, or a rule. A second one tells "
    "how far the first can be believed. The picture stays on this machine."
)


def ask_photo(*, hole_count: int) -> None:
    """The photograph with its points, and a button that takes what they say into the form.

    hole_count : how many holes the frame is told to have
    """
    with st.expander("Measure on a photograph of the side", icon=":material/photo_camera:", key="photo_fold"):
        st.caption(HOW)
        _ask_picture()
        picture = photo()
        if picture is None:
            return
        known, second = _ask_known()
        with_rims = _ask_rims()
        holes = _ask_holes(hole_count)
        names, found = points_of(holes, with_rims=with_rims, with_second=second is not None), marks()
        name = _ask_next(names, found)
        pick_points(
            picture,
            marks={one: found[one] for one in names if one in found},
            name=name,
            next_words=names[name],
            key="photo_picture",
            when_set=_set,
            when_back=_back,
        )
        _ask_numbers(name, names[name], found)
        show_figures(figures_of(found, known_mm=known, holes=holes, with_rims=with_rims, second_mm=second))


def _ask_picture() -> None:
    sent = st.file_uploader("A picture: JPEG or PNG", type=["jpg", "jpeg", "png"], key="photo_file")
    if sent is None or session.held(_SENT) == sent.file_id:
        return
    session.hold(_SENT, sent.file_id)
    try:
        take_photo(sent.getvalue())
    except PhotoRefused as refusal:
        show_refusal(refusal)


def _ask_known() -> tuple[float | None, float | None]:
    """The known distance, and a second one that tells whether the first can be believed; None for what is not told."""
    first, second = st.columns(2)
    first_mm = ask_measure(first, "Known distance, mm", key=f"{_KEY}known", placeholder="between the first two points")
    second_mm = ask_measure(
        second,
        "A second distance that is known, mm (empty: none)",
        key=f"{_KEY}second",
        placeholder="best square to the first: a rule set upright",
    )
    for place, typed in ((first, first_mm), (second, second_mm)):
        if typed.value is not None and typed.value <= 0:
            place.error("A length above zero.", icon=":material/error:")
    values = (typed.value if typed.value is not None and typed.value > 0 else None for typed in (first_mm, second_mm))
    return next(values), next(values)


def _ask_rims() -> bool:
    """Whether the wheels are to tell how slanted the view is."""
    session.start_choice(f"{_KEY}rims", False)
    with_rims = st.checkbox("Find out by both wheels whether it was taken at a slant", key=f"{_KEY}rims")
    if with_rims:
        st.caption(
            "Both axles, and five points on each rim, spread all round on one and the same edge of it; both wheels of "
            "one size. A slant up to 40° is put right, with what is farther away being smaller."
        )
    return with_rims


def _ask_holes(count: int) -> tuple[PhotoHole, ...]:
    found = []
    for n in range(1, count + 1):
        tube, side = st.columns(2)
        zone = tube.selectbox(
            f"Hole {n} is in",
            _TUBES,
            index=None,
            key=f"{_KEY}tube {n}",
            placeholder="not to be measured here",
            format_func=lambda one: usual_frame().tubes[one].name,
        )
        session.start_choice(f"{_KEY}side {n}", SIDES[0])
        on = side.selectbox(f"Side of hole {n}", SIDES, key=f"{_KEY}side {n}")
        if zone is not None:
            found.append(PhotoHole(n=n, zone=zone, side=on))
    return tuple(found)


def _ask_next(names: Mapping[str, str], found: Mapping[str, tuple[float, float]]) -> str:
    """The point that is set next: the first one that is missing, or the one that was chosen."""
    missing = [name for name in names if name not in found]
    session.start_choice_among(_NEXT, tuple(names), missing[0] if missing else next(iter(names)))
    ways, back = st.columns([2, 1], vertical_alignment="bottom")
    ways.selectbox(
        "Next point",
        tuple(names),
        key=_NEXT,
        format_func=lambda name: f"{names.get(name, name)}{' (set)' if name in found else ''}",
    )
    back.button("Take the last point back", icon=":material/undo:", disabled=not found, on_click=_back)
    return str(session.chosen(_NEXT))


def _set(name: str, x: float, y: float) -> None:
    """A point is set, and the next one that is missing is asked for."""
    set_mark(name, x, y)
    session.forget_beginning(_NEXT)


def _back() -> None:
    """The point that was set last is asked for again."""
    take_last_back()
    session.forget_beginning(_NEXT)


def _ask_numbers(name: str, words: str, found: Mapping[str, tuple[float, float]]) -> None:
    """The same point by its place on the picture, for hands without a pointer."""
    x_px, y_px = (f"{one:.1f}" for one in found[name]) if name in found else ("", "")
    right, down, button = st.columns([1, 1, 1], vertical_alignment="bottom")
    x = ask_measure(right, "Pixels from the left", key=f"photo_x {name} {x_px}", unit="", start=x_px)
    y = ask_measure(down, "Pixels from the top", key=f"photo_y {name} {y_px}", unit="", start=y_px)
    ready = x.value is not None and y.value is not None
    args = (name, x.value or 0.0, y.value or 0.0)
    button.button("Set this point", key="photo_set", disabled=not ready, on_click=_set, args=args, help=plain(words))
