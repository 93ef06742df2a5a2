"""Joints that a shop has not: just the sizes that would serve, at, below and above their limits."""

from dataclasses import replace
from math import sqrt

import pytest

from planner.fit.joint_size import check_method_suits_lines, find_joint_size
from planner.parts import (
    BoxOpening,
    Job,
    LeaderLine,
    Line,
    LineEnd,
    LineKind,
    NewLine,
    OldLine,
    RoundOpening,
    SleeveTube,
)
from planner.plan.probe_methods import missing_methods, soft_joint, thin_joints
from planner.plan.size_changes import _room_round_mm, grown_opening, largest_mm
from planner.plan.way_out import WayOutKind
from planner.verdicts import Outcome, worst_of
from tests.builders import make_coupler, make_job, make_lane_frame, make_limits, make_line, make_spoke, make_workshop
from tests.work_orders.job_kinds import CABLE, GEAR_HOUSING, OVER, WIRE

ENDS = {"from_end": LineEnd(), "to_end": LineEnd()}


def job_of(old: Line | None, new: Line) -> Job:
    old_line = None if old is None else OldLine(line=old, **ENDS)
    return make_job(make_lane_frame((8.0, 8.0)), old=old_line, new=NewLine(line=new, **ENDS))


def missing(job: Job, *methods: object) -> dict[WayOutKind, float | None]:
    return {kind: size_mm for kind, _, size_mm in missing_methods(job=job, workshop=make_workshop(*methods))}


BORES = [  # squeeze 0.2 to 0.8: a stud that bites in the wider bore may be 0.8 above the narrower
    ((2.1, 2.1), 2.3),
    ((2.1, 2.3), 2.5),
    ((2.1, 2.7), 2.9),
    ((2.1, 2.71), None),
]


@pytest.mark.parametrize(("bores_mm", "stud_mm"), BORES)
def test_the_thinnest_stud_that_bites_in_both_bores_is_told(
    bores_mm: tuple[float, float], stud_mm: float | None
) -> None:
    thin, wide = (make_line(id=f"bore {bore_mm}", bore_diameter_mm=bore_mm) for bore_mm in bores_mm)
    for old, new in ((thin, wide), (wide, thin)):
        job = job_of(old, new)
        shop = make_workshop(make_coupler(stud_diameter_mm=9.0))
        told = {kind: (method, size_mm) for kind, method, size_mm in missing_methods(job=job, workshop=shop)}
        assert told[WayOutKind.SPOKE_LINK][1] == min(bores_mm)
        assert (WayOutKind.COUPLER in told) is (stud_mm is not None)
        if stud_mm is not None:
            coupler, size_mm = told[WayOutKind.COUPLER]
            assert size_mm == pytest.approx(stud_mm)
            suits = check_method_suits_lines(method=coupler, old=old, new=new, limits=make_limits())
            assert {check.outcome for check in suits} == {Outcome.FITS}


def test_a_stud_as_thick_as_the_thinner_line_is_none() -> None:
    """Bores of 2.1 want 2.3."""
    for outer_mm, is_told in ((2.31, True), (2.3, False)):
        job = job_of(make_line(outer_diameter_mm=outer_mm), make_line())
        assert (WayOutKind.COUPLER in missing(job, make_coupler(stud_diameter_mm=9.0))) is is_told


def test_what_the_shop_has_is_not_missing_and_what_nobody_measured_is_not_told() -> None:
    job = job_of(make_line(), make_line())
    assert missing(job, make_spoke(), make_coupler()) == {}
    assert list(missing(job, make_spoke(rod_diameter_mm=2.2), make_coupler())) == [WayOutKind.SPOKE_LINK]
    for old, new in (
        (None, make_line()),
        (make_line(bore_diameter_mm=None), make_line()),
        (make_line(), make_line(bore_diameter_mm=None)),
        (make_line(), WIRE),
    ):
        assert missing(job_of(old, new), make_coupler(stud_diameter_mm=9.0)) == {}


def test_a_joint_that_suits_one_of_the_two_lines_only_is_missing_still() -> None:
    """A rod of 2.3 lies in a bore of 2.5 and not in one of 2.1; a stud of 2.4 bites in 2.1 and is too thin for 2.5."""
    narrow, wide = make_line(), make_line(bore_diameter_mm=2.5)
    shop = (make_spoke(rod_diameter_mm=2.3), make_coupler(stud_diameter_mm=2.4))
    for old, new in ((narrow, wide), (wide, narrow)):
        told = missing(job_of(old, new), *shop)
        assert told == {WayOutKind.SPOKE_LINK: 2.1, WayOutKind.COUPLER: pytest.approx(2.7)}


def test_going_over_the_old_cable_is_told_of_housings_over_a_cable_whose_size_is_known() -> None:
    over = {WayOutKind.OVER_CABLE: None}
    assert missing(job_of(CABLE, GEAR_HOUSING), make_coupler()) == over
    assert missing(job_of(CABLE, replace(GEAR_HOUSING, kind=LineKind.BRAKE_HOUSING)), make_coupler()) == over
    assert missing(job_of(CABLE, GEAR_HOUSING), OVER) == {}
    assert missing(job_of(CABLE, make_line()), make_coupler()) == {}
    assert missing(job_of(None, GEAR_HOUSING), make_coupler()) == {}
    untold = replace(GEAR_HOUSING, cable_diameter_mm=None, bore_diameter_mm=None)
    assert WayOutKind.OVER_CABLE not in missing(job_of(untold, GEAR_HOUSING), make_coupler())


@pytest.mark.parametrize("diameter_mm", [5.5, 6.0, 7.3])
@pytest.mark.parametrize(("old_mm", "new_mm"), [(5.0, 5.0), (4.6, 5.0), (5.0, 4.6)])
def test_a_soft_sleeve_is_just_as_thick_over_the_thicker_line(diameter_mm: float, old_mm: float, new_mm: float) -> None:
    old, new = make_line(outer_diameter_mm=old_mm), make_line(outer_diameter_mm=new_mm)
    sleeve = soft_joint(job=job_of(old, new), diameter_mm=diameter_mm)
    assert isinstance(sleeve, SleeveTube)
    assert find_joint_size(method=sleeve, old=old, new=new).diameter_mm == pytest.approx(diameter_mm)
    suits = check_method_suits_lines(method=sleeve, old=old, new=new, limits=make_limits())
    assert worst_of(suits, of_nothing=Outcome.NO_FIT) is Outcome.FITS
    assert sleeve.bore_diameter_mm == pytest.approx(min(old_mm, new_mm) - 0.01)


def test_no_sleeve_is_so_thin_that_it_has_no_wall_to_speak_of() -> None:
    """A bore of 4.99 and a wall of half a hundredth: sqrt(25 + 5.00^2 - 4.99^2) = 5.010 over the line."""
    job = job_of(make_line(), make_line())
    limit_mm = sqrt(25 + 5.0**2 - 4.99**2)
    assert soft_joint(job=job, diameter_mm=limit_mm - 1e-3) is None
    assert soft_joint(job=job, diameter_mm=limit_mm + 1e-3) is not None
    assert soft_joint(job=job, diameter_mm=4.0) is None


@pytest.mark.parametrize("old", [None, CABLE])
def test_in_an_empty_frame_and_behind_a_bare_cable_the_soft_joint_is_a_leaders(old: Line | None) -> None:
    job = job_of(old, make_line())
    leader = soft_joint(job=job, diameter_mm=5.7)
    assert isinstance(leader, LeaderLine)
    assert find_joint_size(method=leader, old=old, new=make_line()).diameter_mm == 5.7
    (thin,) = thin_joints(job=job)
    assert isinstance(thin, LeaderLine)
    assert find_joint_size(method=thin, old=old, new=make_line()).diameter_mm == 5.0


def test_a_joint_no_thicker_than_the_lines_lies_in_both_bores_or_is_none() -> None:
    old, new = make_line(bore_diameter_mm=2.3), make_line()
    (link,) = thin_joints(job=job_of(old, new))
    assert find_joint_size(method=link, old=old, new=new).diameter_mm == 5.0
    assert getattr(link, "rod_diameter_mm", None) == 2.1
    assert thin_joints(job=job_of(make_line(), WIRE)) == ()


@pytest.mark.parametrize(
    ("limit_mm", "found_mm"), [(5.0, 5.0), (5.02, 5.0), (5.05, 5.05), (6.9999, 6.95), (4.51, 4.5), (6.95, 6.95)]
)
def test_the_largest_size_is_found_to_a_step_of_a_twentieth(limit_mm: float, found_mm: float) -> None:
    tried: list[float] = []

    def holds(size_mm: float) -> bool:
        tried.append(size_mm)
        return size_mm <= limit_mm

    assert largest_mm(holds, above_mm=4.5, below_mm=7.0) == found_mm
    assert len(tried) <= 6
    assert all(4.5 < size_mm < 7.0 for size_mm in tried)


def test_where_no_step_lies_between_nothing_is_tried() -> None:
    assert largest_mm(lambda _: True, above_mm=5.0, below_mm=5.0) == 5.0
    assert largest_mm(lambda _: True, above_mm=5.0, below_mm=5.05) == 5.0
    assert largest_mm(lambda _: True, above_mm=5.0, below_mm=5.1) == 5.05


def test_a_hole_grows_by_all_its_edges_and_keeps_its_corners() -> None:
    box = BoxOpening(length_mm=10.0, width_mm=6.0, corner_radius_mm=1.0, tolerance_mm=0.1)
    assert grown_opening(box, 0.5) == replace(box, length_mm=10.5, width_mm=6.5)
    assert grown_opening(RoundOpening(diameter_mm=7.0, tolerance_mm=0.1), 0.5).diameter_mm == 7.5  # type: ignore[union-attr]


@pytest.mark.parametrize(
    ("inner", "outer", "room_mm"),
    [
        ((5.0, 4.0), (8.0, 6.0), 2.0),  # widths leave 2, lengths 3
        ((7.5, 4.0), (8.0, 6.0), 0.5),
        ((7.97, 4.0), (8.0, 6.0), 0.0),  # less than a step
        ((7.94, 4.0), (8.0, 6.0), 0.05),
        ((9.0, 4.0), (8.0, 6.0), 0.0),
        ((4.0, 5.0), (8.0, 6.0), 2.0),  # whichever of the two is called its length
    ],
)
def test_an_insert_grows_as_far_as_its_hole_leaves_room(
    inner: tuple[float, float], outer: tuple[float, float], room_mm: float
) -> None:
    first, second = (
        BoxOpening(length_mm=size[0], width_mm=size[1], corner_radius_mm=0.5, tolerance_mm=0.1)
        for size in (inner, outer)
    )
    assert _room_round_mm(first, second) == pytest.approx(room_mm)
