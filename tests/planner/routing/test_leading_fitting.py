"""A fitting that leads the new line through must pass everything on the way, not the holes alone."""

from dataclasses import replace

import pytest

from planner.parts import Frame, Guide, JobEnd
from planner.routing.passage import Mover, check_step
from planner.routing.run_graph import RunState
from planner.verdicts import Check, Outcome, State, Thing, ThingKind
from tests.builders import make_job, make_lane_frame, make_limits

JOINT = Thing(id="spoke", kind=ThingKind.JOINT, diameter_mm=5.0, tolerance_mm=0.0)
NUT = Thing(id="nut", kind=ThingKind.FITTING, diameter_mm=8.0, tolerance_mm=0.0, rigid_length_mm=30.0)
BORE_MM = 6.0
STRAIGHT = Guide(bore_diameter_mm=BORE_MM, bend_radius_mm=None, turn_deg=0.0, tolerance_mm=0.0)
BENT = Guide(bore_diameter_mm=9.0, bend_radius_mm=40.0, turn_deg=90.0, tolerance_mm=0.0)


def frame_with(*, guide: Guide | None, tube_bore_mm: float = 40.0) -> Frame:
    """Two holes of 12 mm, wide enough for all; what lies between them is not."""
    frame = make_lane_frame((12.0, 12.0))
    run = replace(frame.runs["through-0"], guide=guide)
    zone = replace(frame.zones["tube-0"], bore_diameter_mm=tube_bore_mm)
    return replace(frame, runs={**frame.runs, run.id: run}, zones={zone.id: zone})


def refused(frame: Frame, leading: Thing | None) -> list[Check]:
    checks = check_step(
        job=make_job(frame),
        mover=Mover(joint=JOINT, leading_fitting=leading, feed_from=JobEnd.FROM),
        state=RunState(place="in-0", run_id="through-0"),
        limits=make_limits(),
    )
    return [check for check in checks if check.outcome is Outcome.NO_FIT]


@pytest.mark.parametrize(
    ("frame", "rule"),
    [
        (frame_with(guide=STRAIGHT), "guide_bore"),
        (frame_with(guide=None, tube_bore_mm=BORE_MM), "zone_bore"),
    ],
    ids=["a guide", "a tube without a guide"],
)
def test_what_holds_the_fitting_back_lets_the_joint_alone_pass(frame: Frame, rule: str) -> None:
    """8 mm do not go into 6 mm; 5 mm do."""
    assert refused(frame, None) == []
    told = [check for check in refused(frame, NUT) if check.rule == rule]
    assert [(check.state, check.thing, check.run_id) for check in told] == [(State.DRAWING, NUT, "through-0")]
    assert told[0].clearance_mm == pytest.approx(BORE_MM - NUT.diameter_mm)


def test_a_stiff_fitting_is_held_up_by_the_bend_of_a_guide() -> None:
    """L = 2 sqrt((R + D/2)^2 - (R - D/2 + d)^2) with R = 44.5, D = 9, d = 8: 2 sqrt(49^2 - 48^2) = 19.70 mm of 30."""
    told = [check for check in refused(frame_with(guide=BENT), NUT) if check.rule == "guide_bend"]
    assert [(check.thing, check.size_mm) for check in told] == [(NUT, 30.0)]
    assert told[0].available_mm == pytest.approx(2 * (49**2 - 48**2) ** 0.5)
    assert refused(frame_with(guide=BENT), None) == []
