"""How far a spoke link may reach: only what its way really asks of it counts, a bend here and a wall there."""

from dataclasses import replace

import pytest

from planner import plan_job
from planner.parts import OUTSIDE, Frame, Guide, Zone
from planner.verdicts import Check, Outcome
from tests.builders import make_frame, make_job, make_port, make_run, make_spoke, make_workshop

BENT = Guide(bore_diameter_mm=7.0, bend_radius_mm=60.0, turn_deg=90.0, tolerance_mm=0.0)
"""Round it a link of 5.05 may be 2 sqrt(67^2 - 65.05^2) = 32.09 long, half of it in each bore."""
ALONG, THROUGH_THE_SIDE = (-1.0, 0.0, 0.0), (0.0, 0.0, -1.0)
NARROW_MM, WIDE_MM = 9.0, 40.0


def frame_of(bore_mm: float, heading: tuple[float, float, float], *, guide: Guide | None) -> Frame:
    """A tube from "in" to "mid", in it a guide or none, and behind it a bend in a guide of its own."""
    near = Zone(id="tube", path_mm=((0.0, 0.0, 0.0), (-500.0, 0.0, 0.0)), bore_diameter_mm=bore_mm)
    far = Zone(id="far", path_mm=((-500.0, 0.0, 0.0), (-900.0, 0.0, 0.0)), bore_diameter_mm=bore_mm)
    return make_frame(
        make_port("in", heading=heading),
        make_port("mid", joins=("tube", "far"), position_mm=(-500.0, 0.0, 0.0), heading=heading),
        make_port("out", joins=("far", OUTSIDE), position_mm=(-900.0, 0.0, 0.0), heading=heading),
        runs=(
            make_run("a", "start", "in", zone_id=OUTSIDE),
            make_run("straight", "in", "mid", guide=guide),
            make_run("bent", "mid", "out", zone_id="far", guide=BENT),
            make_run("c", "out", "end", zone_id=OUTSIDE),
        ),
        zones=(near, far),
    )


def proposal_of(frame: Frame) -> Check:
    plan = plan_job(job=make_job(frame), workshop=make_workshop(make_spoke(reach_mm=30.0)))
    assert plan.outcome is Outcome.NO_FIT
    (proposal,) = (check for check in plan.advisories if check.rule == "spoke_reach")
    assert proposal.size_mm is not None
    shorter = make_workshop(make_spoke(reach_mm=proposal.size_mm - 0.01))
    assert plan_job(job=make_job(frame), workshop=shorter).outcome is Outcome.FITS
    return proposal


@pytest.mark.parametrize("bore_mm", [NARROW_MM, WIDE_MM])
def test_in_a_guide_the_wall_of_the_tube_round_it_counts_nothing(bore_mm: float) -> None:
    straight = replace(BENT, turn_deg=0.0, bend_radius_mm=None)
    proposal = proposal_of(frame_of(bore_mm, THROUGH_THE_SIDE, guide=straight))
    assert (proposal.run_id, proposal.port_id) == ("bent", None)
    assert proposal.size_mm == pytest.approx(16.05, abs=0.01)


@pytest.mark.parametrize("bore_mm", [NARROW_MM, WIDE_MM])
def test_a_hole_that_looks_along_its_tube_lets_a_link_of_any_length_in(bore_mm: float) -> None:
    proposal = proposal_of(frame_of(bore_mm, ALONG, guide=None))
    assert (proposal.run_id, proposal.port_id) == ("bent", None)
    assert proposal.size_mm == pytest.approx(16.05, abs=0.01)


def test_through_the_side_of_a_narrow_tube_the_wall_decides_before_the_bend() -> None:
    """The hole is 8, the link 5.05 and the tube 9: it cannot lie down in it at twice 16."""
    proposal = proposal_of(frame_of(NARROW_MM, THROUGH_THE_SIDE, guide=None))
    assert (proposal.run_id, proposal.port_id) == ("straight", "in")
    assert proposal.size_mm is not None
    assert proposal.size_mm < 16.0
