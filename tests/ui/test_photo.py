"""A frame measured on a photograph of its side: made pictures whose distances are known."""

from io import BytesIO
from math import cos, radians, sin
from typing import Any

import pytest
from hypothesis import given
from hypothesis import strategies as st
from PIL import Image, ImageDraw
from streamlit.testing.v1 import AppTest

from tests.ui.page_builders import button, open_page, words_of
from ui.page.photo_kept import PhotoRefused, read_photo
from ui.shared.dialogue.frame_fields import frame_entry
from ui.shared.dialogue.frame_questions import frame_script
from ui.shared.dialogue.questions import walk
from ui.shared.photo_marks import PhotoFigures, PhotoHole, figures_of, points_of

HEAD_ANGLE, SEAT_ANGLE = 66.5, 75.0
TRUE_MM: dict[str, tuple[float, float]] = {
    "bb": (0.0, 0.0),
    "rear-axle": (-430.8, 60.0),
    "front-axle": (722.0, 60.0),
    "head-top": (430.0, 620.0),
    "head-bottom": (430.0 + 110 * cos(radians(HEAD_ANGLE)), 620.0 - 110 * sin(radians(HEAD_ANGLE))),
    "seat-top": (-440 * cos(radians(SEAT_ANGLE)), 440 * sin(radians(SEAT_ANGLE))),
    "down_tube start": (465.0, 537.0),
    "down_tube end": (32.0, 38.0),
    "hole-1": (442.0, 510.5),
}
"""A frame's points, x forward and z up from the bottom bracket."""

TABLE = {"reach": 430, "stack": 620, "head_angle": 66.5, "head_tube": 110, "seat_angle": 75, "seat_tube": 440}
REAR = {"chainstay": 435.0, "bb_drop": 60}
HOLE = PhotoHole(n=1, zone="down_tube", side="left")
ALONG_MM = 35.1
"""From (465, 537) to (442, 510.5) along the down tube, by hand: (23 · 433 + 26.5 · 499) / 660.7."""


def seen(
    *, pixel_mm: float = 0.8, lean_deg: float = 0.0, is_mirrored: bool = False, x: float = 700, y: float = 900
) -> dict[str, tuple[float, float]]:
    """Where the points are on a picture, with both axles as the known distance."""
    found = {}
    for name, (forward, up) in TRUE_MM.items():
        c, s = cos(radians(lean_deg)), sin(radians(lean_deg))
        right, high = forward * c - up * s, forward * s + up * c
        found[name] = (x + (-right if is_mirrored else right) / pixel_mm, y - high / pixel_mm)
    return {**found, "known-1": found["rear-axle"], "known-2": found["front-axle"]}


@given(st.floats(0.3, 2), st.floats(-4, 4), st.booleans())
def test_every_figure_is_found_however_the_picture_lies(pixel_mm: float, lean_deg: float, is_mirrored: bool) -> None:
    marks = seen(pixel_mm=pixel_mm, lean_deg=lean_deg, is_mirrored=is_mirrored)
    found = figures_of(marks, known_mm=1152.8, holes=[HOLE])
    assert found.view is not None
    assert found.view.pixel_mm == pytest.approx(pixel_mm)
    assert dict(found.told) == pytest.approx(TABLE | REAR, rel=0.002)
    assert found.places == {"hole 1 place": f"down {ALONG_MM:.0f} left"}
    assert found.is_level


def test_nothing_is_told_before_the_known_distance_is() -> None:
    marks = seen()
    assert figures_of(marks, known_mm=None, holes=[]).told == {}
    assert figures_of({"bb": marks["bb"]}, known_mm=100, holes=[]).told == {}
    assert not figures_of({**marks, "known-2": marks["known-1"]}, known_mm=100, holes=[]).told


def _told_second(told_mm: float) -> PhotoFigures:
    """The points, with the way from bottom bracket to the seat tube's upper end as a second distance, 440 mm long."""
    marks = seen()
    marks |= {"known-3": marks["bb"], "known-4": marks["seat-top"]}
    return figures_of(marks, known_mm=1152.8, holes=[HOLE], second_mm=told_mm)


def test_a_second_known_distance_tells_how_far_the_scale_may_be_off() -> None:
    one, same, apart = figures_of(seen(), known_mm=1152.8, holes=[HOLE]), *map(_told_second, (440.0, 431.2))
    assert same.view is not None
    assert same.view.apart_ratio == pytest.approx(0, abs=1e-9)
    assert same.errors == pytest.approx(one.errors), "two scales that agree make nothing surer nor less sure"
    assert apart.view is not None
    assert apart.view.apart_ratio == pytest.approx(440 / 431.2 - 1)
    assert dict(apart.told) == pytest.approx(dict(one.told)), "the first one tells, the second makes it doubtful"
    for name in ("reach", "chainstay", "seat_tube"):
        by_second_mm = one.told[name] * 0.02  # 431.2 is 2 % less than 440
        assert apart.errors[name] == pytest.approx((one.errors[name] ** 2 + by_second_mm**2) ** 0.5)
    assert apart.errors["head_angle"] == pytest.approx(one.errors["head_angle"]), "a scale turns nothing"


def test_a_second_distance_counts_once_both_its_ends_are_set() -> None:
    assert list(points_of([], with_second=True))[:5] == ["known-1", "known-2", "known-3", "known-4", "bb"]
    assert "known-3" not in points_of([])
    marks = {**seen(), "known-3": seen()["bb"]}
    for more in ({}, {"known-4": marks["bb"]}):
        view = figures_of(marks | more, known_mm=1152.8, holes=[], second_mm=440).view
        assert view is not None
        assert view.apart_ratio is None


def made_photo(*, orientation: int | None = None) -> bytes:
    """A drawing of the frame as a photograph, its points as dots."""
    picture = Image.new("RGB", (1800, 1100), "#dfe4e8")
    pen = ImageDraw.Draw(picture)
    for x, y in seen().values():
        pen.ellipse((x - 6, y - 6, x + 6, y + 6), fill="#222222")
    written, exif = BytesIO(), Image.Exif()
    if orientation is not None:
        exif[0x0112] = orientation
        exif[0x010E] = "Somebody's kitchen"
    picture.save(written, "JPEG", exif=exif)
    return written.getvalue()


def test_a_picture_stands_upright_and_says_nothing_of_where_it_was_taken() -> None:
    lying, standing = read_photo(made_photo()), read_photo(made_photo(orientation=6))
    assert (lying["w"], lying["h"]) == (1600, 978)
    assert standing["h"] == 1600
    assert standing["url"].startswith("data:image/jpeg;base64,")
    from base64 import b64decode

    kept = b64decode(standing["url"].partition(",")[2])
    assert b"kitchen" not in kept
    assert not Image.open(BytesIO(kept)).getexif()


@pytest.mark.parametrize("content", [b"", b"GIF89a", made_photo()[:300], b"<svg/>"])
def test_what_is_no_picture_is_refused_in_a_sentence(content: bytes) -> None:
    with pytest.raises(PhotoRefused, match=r"not a JPEG or PNG picture that can be read\."):
        read_photo(content)


ANSWERS = {
    "name": "Blue",
    "holes": "2",
    "hole 1 place": "down 35 left",
    "hole 1 opening": "slot 18x7",
    "hole 2 place": "down 600 left",
    "hole 2 opening": "7.4",
    "lengths": "table",
    "reach": "430",
    "stack": "620",
    "head_angle": "66.5",
    "head_tube": "110",
    "seat_angle": "75",
    "seat_tube": "440",
    "chainstay": "435",
    "width": "780",
    "stem": "50",
}


@pytest.mark.parametrize(
    ("mark", "error"),
    [("", "ordinary"), (" (photo)", "rough"), (" (square photo)", "ordinary"), (" (corrected photo)", "ordinary")],
)
def test_what_a_photograph_told_is_marked_and_counts_as_told_by_eye_unless_it_was_square(mark: str, error: str) -> None:
    told = walk(frame_script, {**ANSWERS, "reach": f"430{mark}"}, takes_defaults=True).told
    assert told is not None
    entry: dict[str, Any] = frame_entry(told)
    assert entry["geometry_error"].value == error
    assert ("photograph" in str(entry["geometry"]["reach"])) == bool(mark)


def test_the_size_of_a_hole_is_never_taken_from_a_photograph() -> None:
    found = walk(frame_script, {**ANSWERS, "hole 1 opening": "slot 18x7 (photo)"}, takes_defaults=True)
    assert found.next is not None
    assert found.next.key == "hole 1 opening"


@pytest.fixture
def page(monkeypatch: pytest.MonkeyPatch) -> AppTest:
    """The form with a photograph on it, two holes to be told."""
    page = open_page(monkeypatch, catalog=(), screen="new_frame")
    for key, words in (("name", "Blue"), ("holes", "2")):
        _field(page, f"choice_new_{key}").set_value(words).run()
    uploader = next(one for one in page.file_uploader if one.key == "photo_file")
    uploader.upload("side.jpg", made_photo(), "image/jpeg").run()
    assert not page.exception
    return page


def _field(page: AppTest, key: str) -> Any:
    return next(one for one in [*page.text_input, *page.selectbox, *page.checkbox] if str(one.key).startswith(key))


def _set(page: AppTest, name: str) -> None:
    x, y = seen()[name]
    shown = 1600 / 1800
    _field(page, "photo_next").set_value(name).run()
    _field(page, f"photo_x {name}").set_value(f"{x * shown:.1f}")
    _field(page, f"photo_y {name}").set_value(f"{y * shown:.1f}").run()
    button(page, "Set this point").click().run()
    assert not page.exception


def test_points_set_by_number_become_figures_of_the_form(page: AppTest) -> None:
    _field(page, "choice_new_photo_tube 1").set_value("down_tube").run()
    _field(page, "choice_new_photo_known").set_value("1152,8").run()
    for name in ("known-1", "known-2", "bb", "rear-axle", "head-top", "hole-1", "down_tube start", "down_tube end"):
        _set(page, name)
    assert "One pixel is **0.90 mm**" in words_of(page)
    button(page, "Take these figures into the form").click().run()
    assert not page.exception
    assert _field(page, "choice_new_hole 1 place").value == "down 35 left (photo)"
    _field(page, "choice_new_hole 1 opening").set_value("slot 18x7").run()
    assert not page.error


SQUARELY, TAKE = "It was taken squarely, from three metres or more", "Take these figures into the form"


def test_two_known_distances_are_held_against_each_other(page: AppTest, monkeypatch: pytest.MonkeyPatch) -> None:
    marks = seen() | {"known-3": seen()["known-1"], "known-4": seen()["known-2"]}
    page.session_state["choice_new_photo_marks"] = [[name, *at] for name, at in marks.items() if "hole" not in name]
    page.session_state["choice_new_photo_known"] = "1152.8"
    for told, said, is_taken in (
        ("-3", "A length above zero.", True),
        ("1130", "2.0 % longer than it was told**", True),
        ("1052,8", "9.5 % longer than it was told, and so no figure is told", False),
        ("1152.8", "0.0 %", True),
    ):
        page.session_state["choice_new_photo_second"] = told
        page.run()
        assert not page.exception
        assert said in words_of(page) + " ".join(one.value for one in page.error)
        assert (TAKE in [one.label for one in page.button]) == is_taken
    assert SQUARELY in [one.label for one in page.checkbox]
    monkeypatch.setattr(PhotoFigures, "worst_mm", 99.0)
    page.run()
    assert "A length may be 99 mm off" in words_of(page), "two scales may be too far apart for ordinary places"
    assert SQUARELY not in [one.label for one in page.checkbox]


def test_the_last_point_is_taken_back(page: AppTest) -> None:
    for name in ("known-1", "known-2"):
        _set(page, name)
    assert _field(page, "photo_next").value == "bb"
    button(page, "Take the last point back").click().run()
    assert _field(page, "photo_next").value == "known-2"
    button(page, "Undo").click().run()
    assert not page.exception
