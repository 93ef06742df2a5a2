"""The strip of poses: what is shown of a motion, and that the pieces drawn touch no wall."""

import xml.etree.ElementTree as ET
from dataclasses import replace

import pytest
from shapely.geometry import Polygon, box

from planner.documents.drawings.motion_drawing import draw_motion, piece_corners, poses_to_show
from planner.errors import ImpossibleDimensionError
from planner.fit.wall_fit import check_rigid_through_wall
from planner.parts import Port
from planner.verdicts import Check, Outcome, Pose, Thing, ThingKind
from tests.planner.documents.drawing_samples import make_frame

SVG = "{http://www.w3.org/2000/svg}"
NECK = make_frame().ports["neck-left"]


def _check(
    *, is_entry: bool = True, length_mm: float = 21.0, port: Port = NECK, corridor_mm: float | None = 44.0
) -> Check:
    return check_rigid_through_wall(
        port=port,
        run_id="down-run",
        corridor_mm=corridor_mm,
        item=Thing(id="joint", kind=ThingKind.JOINT, diameter_mm=5.23, tolerance_mm=0.05, rigid_length_mm=length_mm),
        is_entry=is_entry,
        is_insert_out=True,
    )


def _moments(svg: str) -> list[ET.Element]:
    return [node for node in ET.fromstring(svg).iter(f"{SVG}g") if node.get("class") == "moment"]


@pytest.mark.parametrize("count", [5, 6, 7])
@pytest.mark.parametrize("width_mm", [180, 92])
def test_as_many_moments_as_asked_for_are_drawn(count: int, width_mm: float) -> None:
    assert len(_moments(draw_motion(_check(), pose_count=count, width_mm=width_mm).svg)) == count


@pytest.mark.parametrize("count", [4, 8])
def test_fewer_than_five_or_more_than_seven_are_refused(count: int) -> None:
    with pytest.raises(ImpossibleDimensionError, match=rf"pose_count: {count} poses was given; it must be 5 to 7"):
        draw_motion(_check(), pose_count=count)


@pytest.mark.parametrize("is_entry", [True, False], ids=["going in", "coming out"])
def test_no_piece_drawn_touches_the_wall_or_the_far_side(is_entry: bool) -> None:
    motion = _check(is_entry=is_entry).motion
    assert motion
    walls = [box(-200, -1.6, -9.5, 0), box(9.5, -1.6, 200, 0), box(-200, 44, 200, 60)]
    for pose in poses_to_show(motion, count=7, wall_thickness_mm=1.6):
        piece = Polygon(piece_corners(pose, length_mm=21, diameter_mm=5.23))
        assert piece.area == pytest.approx(21 * 5.23)
        assert all(piece.intersection(wall).area < 1e-6 for wall in walls)


def test_going_in_starts_outside_and_ends_lying_in_the_tube() -> None:
    shown = poses_to_show(_check().motion or (), count=6, wall_thickness_mm=1.6)
    assert shown[0].y_mm < 0 < shown[-1].y_mm
    assert shown[-1].tilt_deg == pytest.approx(0)


def test_coming_out_is_the_same_told_backwards() -> None:
    going_in = _check().motion or ()
    forwards = poses_to_show(going_in, count=6, wall_thickness_mm=1.6)
    backwards = poses_to_show(tuple(reversed(going_in)), count=6, wall_thickness_mm=1.6)
    assert backwards == tuple(reversed(forwards))


def test_poses_between_two_given_ones_are_found_by_going_evenly() -> None:
    ends = (Pose(x_mm=0, y_mm=0, tilt_deg=60), Pose(x_mm=12, y_mm=6, tilt_deg=0))
    middle = poses_to_show(ends, count=5, wall_thickness_mm=1)[2]
    assert (middle.x_mm, middle.y_mm, middle.tilt_deg) == pytest.approx((6, 3, 30))


def test_a_motion_that_stands_still_is_shown_standing_still() -> None:
    still = Pose(x_mm=1, y_mm=2, tilt_deg=3)
    assert poses_to_show((still, still), count=5, wall_thickness_mm=1) == (still,) * 5
    assert poses_to_show((), count=5, wall_thickness_mm=1) == ()


def test_without_a_motion_the_piece_lies_beside_the_hole() -> None:
    check = _check(length_mm=140)
    assert check.outcome is Outcome.NO_FIT
    svg = draw_motion(check).svg
    assert len(_moments(svg)) == 1
    words = " ".join(node.text or "" for node in ET.fromstring(svg).iter(f"{SVG}text"))
    assert "no motion was found" in words


def test_a_hole_nobody_measured_gives_a_short_picture() -> None:
    assert not _moments(draw_motion(_check(port=replace(NECK, opening=None))).svg)


def test_a_tube_nobody_measured_is_not_drawn_as_one_without_room() -> None:
    assert not _moments(draw_motion(_check(corridor_mm=None)).svg)


def test_the_same_motion_gives_the_same_bytes() -> None:
    assert draw_motion(_check()).svg == draw_motion(_check()).svg
