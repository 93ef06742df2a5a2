"""How long a picture takes: a click on the page redraws the side view twice."""

from dataclasses import replace
from typing import Any

import pytest

from planner.documents.drawings.hole_drawing import draw_hole
from planner.documents.drawings.length_bar import draw_length_bar
from planner.documents.drawings.motion_drawing import draw_motion
from planner.documents.drawings.route_drawing import draw_route
from planner.verdicts import Pose
from tests.planner.documents.drawing_samples import make_frame, make_lengths, make_plan


@pytest.mark.parametrize("width_mm", [180, 95])
def test_side_view(benchmark: Any, width_mm: float) -> None:
    plan, frame = make_plan(), make_frame()
    assert benchmark(lambda: draw_route(plan, frame, width_mm=width_mm).svg).startswith("<svg")


def test_hole(benchmark: Any) -> None:
    check = make_plan().checks[0]
    assert benchmark(lambda: draw_hole(check, label="Down tube").svg).startswith("<svg")


def test_motion(benchmark: Any) -> None:
    motion = (
        Pose(x_mm=0, y_mm=-12, tilt_deg=90),
        Pose(x_mm=0, y_mm=22, tilt_deg=90),
        Pose(x_mm=9, y_mm=22, tilt_deg=0),
    )
    check = make_plan().checks[0]
    assert check.room is not None
    check = replace(check, motion=motion, room=replace(check.room, corridor_mm=44.0))
    assert benchmark(lambda: draw_motion(check).svg).startswith("<svg")


def test_length_bar(benchmark: Any) -> None:
    lengths = make_lengths()
    assert benchmark(lambda: draw_length_bar(lengths).svg).startswith("<svg")
