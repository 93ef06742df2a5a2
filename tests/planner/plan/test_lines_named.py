"""Other lines of the catalog as a way out of a no: of the kind that a stopping hole takes, else thinner ones alike."""

from dataclasses import replace

import pytest

from planner.parts import Fitting, FittingStyle, Job, LineEnd, LineKind, NewLine, SetBy
from planner.plan.way_out import WayOutKind
from planner.verdicts import Outcome
from tests.builders import make_coupler, make_job, make_lane_frame, make_line, make_workshop
from tests.planner.plan.test_ways_out_of_parts import ENDS, brake, ways_of
from tests.work_orders.job_kinds import LEADER

LINES = {
    line.id: line
    for line in (
        make_line(id="gear", kind=LineKind.SHIFT_HOUSING),
        make_line(id="brake", kind=LineKind.BRAKE_HOUSING),
        make_line(id="thin", outer_diameter_mm=4.0),
        make_line(id="cable", kind=LineKind.INNER_CABLE, outer_diameter_mm=1.6, bore_diameter_mm=None),
    )
}


def job_for(*admits: LineKind, exit_admits: tuple[LineKind, ...] = (), **changes: object) -> Job:
    """An empty frame, whose holes are wide enough and take the kinds given only."""
    frame = make_lane_frame((9.0, 9.0))
    kinds = {"in-0": admits, "out-0": exit_admits}
    ports = {key: replace(port, admits=kinds[key]) for key, port in frame.ports.items()}
    return make_job(replace(frame, ports=ports), **{"old": None, **changes})


def named(job: Job) -> list[str]:
    found = ways_of(job, make_workshop(LEADER, lines=LINES))
    return [way.with_id for way in found.get(WayOutKind.OTHER_LINE, [])]


def test_of_a_hole_for_another_kind_the_lines_of_that_kind_are_named() -> None:
    assert named(job_for(LineKind.SHIFT_HOUSING)) == ["gear"]
    assert named(job_for(LineKind.SHIFT_HOUSING, LineKind.INNER_CABLE)) == ["gear", "cable"]


def test_of_two_such_holes_the_lines_that_both_take_are_named() -> None:
    both = (LineKind.SHIFT_HOUSING, LineKind.BRAKE_HOUSING)
    assert named(job_for(*both, exit_admits=(LineKind.BRAKE_HOUSING, LineKind.INNER_CABLE))) == ["brake"]


@pytest.mark.parametrize("kind", [LineKind.SHIFT_HOUSING, LineKind.BRAKE_HOUSING])
def test_of_a_brakes_own_hose_only_lines_that_pull_a_brake_are_named(kind: LineKind) -> None:
    hose = brake()
    new = NewLine(line=hose.line, brake=hose, **ENDS)
    assert named(job_for(kind, new=new)) == (["brake"] if kind is LineKind.BRAKE_HOUSING else [])


def test_a_line_that_its_own_ends_keep_out_is_not_named_as_the_way_out_of_itself() -> None:
    """Bare it passes, which is told of the ends; a thinner one, bare, is another line."""
    crimp = Fitting(
        id="crimp",
        name="Crimp",
        style=FittingStyle.CRIMPED,
        set_by=SetBy.FACTORY,
        outer_diameter_mm=12.0,
        length_mm=18.0,
    )
    end, line = LineEnd(fitting=crimp, is_fitted=True), make_line(id="new")
    job = make_job(make_lane_frame((8.0, 8.0)), new=NewLine(line=line, from_end=end, to_end=end))
    lines = {"new": line, "thin": make_line(id="thin", outer_diameter_mm=4.5)}
    ways = ways_of(job, make_workshop(make_coupler(collar_diameter_mm=4.0), lines=lines))
    assert WayOutKind.BARE_ENDS in ways
    assert [way.with_id for way in ways[WayOutKind.OTHER_LINE]] == ["thin"]
    assert {way.outcome for way in ways[WayOutKind.OTHER_LINE]} <= {Outcome.FITS, Outcome.TIGHT}
