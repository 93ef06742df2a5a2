"""Photographs taken at a slant by a known camera, points set as hands set them: how far off what is told is."""

from math import hypot

import numpy as np
import pytest

from tests.pinhole import Camera
from tests.planner.geometry.test_slanted_view import BASE_MM, rim_points
from tests.ui.page_builders import button, open_page, words_of
from tests.ui.test_photo import HOLE, REAR, TABLE, TRUE_MM, made_photo
from ui.shared.photo_marks import PhotoFigures, figures_of, points_of
from ui.shared.photo_view import HAND_PX, slant_off_ratio

CAMERAS = {
    "square": Camera(),
    "ten degrees": Camera(yaw_deg=10, roll_deg=2),
    "from behind and above": Camera(yaw_deg=-22, pitch_deg=8, roll_deg=-3),
    "from the front and near": Camera(yaw_deg=28, pitch_deg=-6, away_mm=2000, zoom=1600),
    "far to the side": Camera(yaw_deg=38, away_mm=4000, zoom=3200),
}
TRUE = TABLE | REAR
ALONG_MM = 35.13


def marked(camera: Camera, *, seed: int, wheels: tuple[str, ...] = ("rear", "front")) -> dict[str, tuple[float, float]]:
    """Every point as a hand sets it, anywhere within three pixels each way."""
    hand = np.random.default_rng(seed)
    wanted = {**TRUE_MM, "known-1": TRUE_MM["rear-axle"], "known-2": TRUE_MM["front-axle"]}
    for wheel in wheels:
        around = rim_points(TRUE_MM[f"{wheel}-axle"], turned=float(hand.uniform(0, 6)))
        wanted |= {f"{wheel}-rim-{n}": point for n, point in enumerate(around, start=1)}
    found = {}
    for name, point in wanted.items():
        x, y = camera.sees(point)
        found[name] = (x + hand.uniform(-HAND_PX, HAND_PX), y + hand.uniform(-HAND_PX, HAND_PX))
    return {**found, "known-1": found["rear-axle"], "known-2": found["front-axle"]}


def told(camera: Camera, *, seed: int, with_rims: bool = True, **more: tuple[str, ...]) -> PhotoFigures:
    marks = marked(camera, seed=seed, **more)
    return figures_of(marks, known_mm=BASE_MM, holes=[HOLE], with_rims=with_rims)


@pytest.mark.parametrize("camera", CAMERAS.values(), ids=CAMERAS)
def test_no_figure_is_farther_off_than_is_told(camera: Camera) -> None:
    for seed in range(12):
        found = told(camera, seed=seed)
        assert found.view is not None
        assert found.view.is_corrected
        for name, true in TRUE.items():
            assert abs(found.told[name] - true) <= found.errors[name], (name, seed)
        along_mm = float(found.places["hole 1 place"].split()[1])
        assert abs(along_mm - ALONG_MM) <= found.errors["hole 1 place"] + 0.5
        assert found.worst_mm < 40


def test_what_is_put_right_is_far_nearer_than_what_is_not() -> None:
    camera = CAMERAS["from the front and near"]
    right, left = told(camera, seed=1), told(camera, seed=1, with_rims=False)
    off_mm = {name: abs(left.told[name] - true) for name, true in TRUE.items() if "angle" not in name}
    assert max(off_mm.values()) > 60
    assert max(abs(right.told[name] - TRUE[name]) for name in off_mm) < max(off_mm.values()) / 4


@pytest.mark.parametrize("camera", CAMERAS.values(), ids=CAMERAS)
def test_by_one_wheel_it_is_told_how_many_per_cent_lengths_may_be_off(camera: Camera) -> None:
    for seed in range(4):
        found = told(camera, seed=seed, wheels=("rear",))
        assert found.view is not None
        assert not found.view.is_corrected
        for name, true in TRUE.items():
            if "angle" not in name:
                allowed = found.errors[name] + found.view.off_ratio * max(abs(true), BASE_MM / 2)
                assert abs(found.told[name] - true) <= allowed, (name, seed)


def test_how_far_off_a_slant_makes_lengths_is_as_far_as_a_camera_sees_it() -> None:
    """Frames' lengths anywhere on the bicycle, scaled by its wheelbase, from three metres."""
    for yaw_deg in (5, 10, 20, 30):
        camera = Camera(yaw_deg=yaw_deg)
        ends = [(camera.sees(TRUE_MM[one]), camera.sees(TRUE_MM[other])) for one, other in PAIRS]
        scale = BASE_MM / hypot(*np.subtract(*ends[0]))
        for (one, other), (a, b) in zip(PAIRS, ends, strict=True):
            true_mm = hypot(*np.subtract(TRUE_MM[one], TRUE_MM[other]))
            assert abs(scale * hypot(*np.subtract(a, b)) / true_mm - 1) <= slant_off_ratio(yaw_deg), (
                one,
                yaw_deg,
            )


PAIRS = (
    ("rear-axle", "front-axle"),
    ("bb", "rear-axle"),
    ("bb", "head-top"),
    ("bb", "seat-top"),
    ("head-top", "head-bottom"),
)


def test_rims_are_asked_for_only_where_they_are_wanted() -> None:
    assert not [name for name in points_of([]) if "rim" in name]
    assert len([name for name in points_of([], with_rims=True) if "rim" in name]) == 10


@pytest.mark.parametrize(
    ("camera", "wheels", "told", "mark"),
    [
        (CAMERAS["ten degrees"], ("rear", "front"), ["from square**, and put right", "count as ordinary"], "corrected"),
        (CAMERAS["ten degrees"], ("rear",), ["by one wheel: lengths may be", "told by eye"], ""),
        (CAMERAS["ten degrees"], (), ["Whether the view is slanted is not known", "taken squarely"], ""),
    ],
    ids=["both wheels", "one wheel", "no wheel"],
)
def test_the_page_says_how_slanted_it_is_and_what_the_places_count_for(
    monkeypatch: pytest.MonkeyPatch, camera: Camera, wheels: tuple[str, ...], told: list[str], mark: str
) -> None:
    page = open_page(monkeypatch, catalog=(), screen="new_frame")
    for key, words in (("name", "Blue"), ("holes", "2")):
        next(one for one in page.text_input if one.key == f"choice_new_{key}").set_value(words).run()
    next(one for one in page.file_uploader if one.key == "photo_file").upload("s.jpg", made_photo(), "image/jpeg").run()
    page.session_state["choice_new_photo_known"] = str(BASE_MM)
    page.session_state["choice_new_photo_rims"] = True
    page.session_state["choice_new_photo_marks"] = [
        [name, *at] for name, at in marked(camera, seed=3, wheels=wheels).items()
    ]
    page.run()
    said = words_of(page)
    assert [words for words in told if words not in said and words not in str(page.checkbox)] == []
    button(page, "Take these figures into the form").click().run()
    assert not page.exception
    reach = page.session_state["choice_new_reach"]
    assert reach.endswith(f"({mark} photo)" if mark else " (photo)")
