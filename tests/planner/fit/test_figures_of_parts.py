"""The figures beside an answer about parts: what was asked, the limit it met, and the room to it, negative where it
lacks. A mechanic reads them, so each is worked by hand."""

from dataclasses import replace

import pytest

from planner.fit.clamp_fit import check_lever_clamp
from planner.fit.hose_end_fit import check_line_end
from planner.fit.joint_size import check_method_suits_lines
from planner.fit.mount_fit import check_adapter_lift, check_mount, find_adapter
from planner.fit.rotor_fit import check_rotor_in_caliper, check_rotor_in_frame
from planner.fit.thread_fit import check_threads
from planner.fit.way_in_fit import check_magnet, check_stud_in_bore
from planner.parts import (
    Adapter,
    AdapterKind,
    AskFirst,
    BrakeMount,
    FrameEnd,
    LaidOutside,
    Line,
    LineEnd,
    LineKind,
    Method,
    MountKind,
)
from planner.rules.joint_rules import TOO_THICK, TOO_THIN
from planner.verdicts import Check, Outcome, State
from tests.builders import make_coupler, make_lane_frame, make_limits, make_sleeve, make_spoke
from tests.builders import make_frame as make_holed_frame
from tests.planner.fit.compatibility_samples import ADAPTERS, make_adapter, make_brake, make_fitting, make_line
from tests.work_orders.job_kinds import CABLE, GEAR_HOUSING, HOSE, LEADER, LINER, MAGNET, OVER, WIRE

LIMITS = make_limits(match_lift_mm=0.5, tab_base_front_mm=160, tab_base_rear_mm=140)
Figures = tuple[float | None, float | None, float | None]


def figures(check: Check | None) -> Figures:
    """What was asked, the limit, the room; rounded, as sums of decimals are not exact."""
    assert check is not None
    told = (check.size_mm, check.available_mm, check.clearance_mm)
    size, limit, room = (None if value is None else round(value, 6) for value in told)
    return size, limit, room


@pytest.mark.parametrize(
    ("limits_mm", "rotor_mm", "outcome", "expected"),
    [
        ((160, 203), 159.9, Outcome.NO_FIT, (159.9, 160, -0.1)),
        ((160, 203), 160, Outcome.FITS, (160, 203, 43)),
        ((160, 203), 203, Outcome.FITS, (203, 203, 0)),
        ((160, 203), 203.1, Outcome.NO_FIT, (203.1, 203, -0.1)),
        ((None, 203), 140, Outcome.FITS, (140, 203, 63)),
        ((160, None), 140, Outcome.NO_FIT, (140, 160, -20)),
        ((160, None), 160, Outcome.UNKNOWN, (160, None, None)),
    ],
)
def test_a_rotor_is_told_with_the_limit_of_the_frame_that_it_meets(
    limits_mm: tuple[float | None, float | None], rotor_mm: float, outcome: Outcome, expected: Figures
) -> None:
    mount = BrakeMount(mount=MountKind.POST, rotor_min_mm=limits_mm[0], rotor_max_mm=limits_mm[1])
    check = check_rotor_in_frame(rotor_mm=rotor_mm, frame_mount=mount)
    assert (check.outcome, figures(check)) == (outcome, expected)


def test_the_native_rotor_has_nothing_to_spare_and_a_frame_nobody_described_no_limit() -> None:
    native = BrakeMount(mount=MountKind.POST, rotor_native_mm=160)
    assert figures(check_rotor_in_frame(rotor_mm=160, frame_mount=native)) == (160, 160, 0)
    unknown = check_rotor_in_frame(rotor_mm=160, frame_mount=None)
    assert (unknown.outcome, figures(unknown)) == (Outcome.UNKNOWN, (160, None, None))


@pytest.mark.parametrize(
    ("limits_mm", "rotor_mm", "outcome", "expected"),
    [
        ((160, 203), 159, Outcome.NO_FIT, (159, 160, -1)),
        ((160, 203), 160, Outcome.FITS, (160, None, None)),
        ((160, 203), 203, Outcome.FITS, (203, None, None)),
        ((160, 203), 204, Outcome.NO_FIT, (204, 203, -1)),
        ((None, 180), 203, Outcome.NO_FIT, (203, 180, -23)),
        ((180, None), 160, Outcome.NO_FIT, (160, 180, -20)),
        ((180, None), 220, Outcome.FITS, (220, None, None)),
    ],
)
def test_a_rotor_is_told_with_the_limit_of_the_caliper_that_it_breaks(
    limits_mm: tuple[float | None, float | None], rotor_mm: float, outcome: Outcome, expected: Figures
) -> None:
    check = check_rotor_in_caliper(rotor_mm=rotor_mm, brake=make_brake(rotors_mm=limits_mm))
    assert check is not None
    assert (check.outcome, figures(check)) == (outcome, expected)


def mount_check(rotor_mm: float, *, mount: MountKind = MountKind.POST, end: FrameEnd = FrameEnd.REAR) -> Check:
    return check_mount(
        frame_mount=BrakeMount(mount=mount, rotor_native_mm=160),
        end=end,
        brake=make_brake(),
        rotor_mm=rotor_mm,
        adapters=ADAPTERS,
        limits=LIMITS,
    ).checks[0]


def test_a_mount_is_told_with_the_rotor_it_stands_for_and_the_step_from_it() -> None:
    assert figures(mount_check(160)) == (160, 160, 0)
    assert figures(mount_check(203)) == (203, 160, 43)
    assert figures(mount_check(140)) == (140, 160, -20)
    assert figures(mount_check(160, mount=MountKind.IS_TABS)) == (160, 140, 20)
    assert figures(mount_check(140, mount=MountKind.IS_TABS, end=FrameEnd.FRONT)) == (140, 160, -20)


def test_an_adapter_that_may_be_counted_on_goes_before_one_to_ask_about_wherever_it_lies() -> None:
    sure = make_adapter(AdapterKind.POST_STEP, 20, lift_mm=10.0)
    asked = replace(sure, id="asked", ask=AskFirst.SELDOM_SOLD)
    elsewhere = replace(sure, id="elsewhere", native_mm=180)
    for_front = replace(sure, id="front", end=FrameEnd.FRONT)

    def found(*adapters: Adapter) -> Adapter | None:
        return find_adapter(adapters=adapters, end=FrameEnd.REAR, step_mm=20, base_mm=160)

    for other in (asked, elsewhere):
        assert found(other, sure) is sure
        assert found(sure, other) is sure
        assert found(other) is other
    assert found(for_front) is None
    assert found(replace(sure, step_mm=20.1)) is None


@pytest.mark.parametrize(
    ("lift_mm", "expected"), [(10.5, (10, 10.5, 0)), (9.4, (10, 9.4, -0.1)), (None, (10, None, None))]
)
def test_a_lift_is_told_with_what_its_step_asks_for(lift_mm: float | None, expected: Figures) -> None:
    adapter = make_adapter(AdapterKind.POST_STEP, 20, lift_mm=lift_mm)
    assert figures(check_adapter_lift(adapter=adapter, lift_tolerance_mm=0.5)) == expected


@pytest.mark.parametrize("kind", [AdapterKind.TABS, AdapterKind.SPECIAL])
def test_on_tabs_and_of_special_adapters_the_lift_is_not_asked(kind: AdapterKind) -> None:
    assert check_adapter_lift(adapter=make_adapter(kind, 20, lift_mm=3.0), lift_tolerance_mm=0.5) is None
    stepless = replace(make_adapter(AdapterKind.POST_STEP, 20, lift_mm=3.0), step_mm=None)
    assert check_adapter_lift(adapter=stepless, lift_tolerance_mm=0.5) is None


def test_clamp_and_bar_are_told_with_what_the_tolerance_leaves() -> None:
    def asked(clamp_mm: float | None, bar_mm: float | None) -> Figures:
        return figures(check_lever_clamp(clamp_mm=clamp_mm, bar_mm=bar_mm, clamp_tolerance_mm=0.3))

    assert asked(22.2, 22.4) == (22.4, 22.2, 0.1)
    assert asked(22.2, 23.8) == (23.8, 22.2, -1.3)
    assert asked(None, 23.8) == (23.8, None, None)
    assert asked(22.2, None) == (None, 22.2, None)


def test_a_fitting_is_told_with_the_line_it_is_made_for() -> None:
    end = LineEnd(fitting=make_fitting(line_outer_mm=5.02, line_bore_mm=2.3))
    outer, bore = check_line_end(line=make_line(), end=end, bore_tolerance_mm=0.1)
    assert figures(outer) == (5.0, 5.02, 0.03)
    assert figures(bore) == (2.1, 2.3, -0.1)
    unmeasured = check_line_end(line=make_line(bore_mm=None), end=end, bore_tolerance_mm=0.1)[1]
    assert figures(unmeasured) == (None, 2.3, None)


def test_threads_are_told_by_their_pitch_diameters() -> None:
    """M8x0.75: 8 - 0.6495 x 0.75 = 7.513; M8x1: 7.350; M10x1: 9.350 (ISO 724)."""
    size, room, lacks = figures(check_threads(nut="M8x0.75", body="M8x1"))
    assert (size, room, lacks) == pytest.approx((7.350, 7.513, -0.162), abs=1e-3)
    assert figures(check_threads(nut="M10x1", body="M8x1"))[2] == pytest.approx(-2.0)
    assert figures(check_threads(nut="M8x1", body="M10x1"))[2] == pytest.approx(-2.0)
    assert figures(check_threads(nut="M8x1", body="M8x1"))[2] == 0
    assert figures(check_threads(nut="M1x0.25", body="M1x0.25"))[:2] == pytest.approx((0.838, 0.838), abs=1e-3)


@pytest.mark.parametrize(
    ("stud_mm", "expected", "note"),
    [  # squeeze 0.2 to 0.8 in a bore of 2.1
        (2.2, (0.1, 2.1, -0.1), TOO_THIN),
        (2.3, (0.2, 2.1, 0.0), ""),
        (2.5, (0.4, 2.1, 0.2), ""),
        (2.8, (0.7, 2.1, 0.1), ""),
        (3.0, (0.9, 2.1, -0.1), TOO_THICK),
    ],
)
def test_a_stud_is_told_with_its_squeeze_and_the_way_to_the_nearer_limit(
    stud_mm: float, expected: Figures, note: str
) -> None:
    check = check_stud_in_bore(stud_diameter_mm=stud_mm, line=HOSE, limits=LIMITS, with_ids=("stud", "hose"))
    assert (figures(check), check.note) == (expected, note)


@pytest.mark.parametrize("kind", [LineKind.INNER_CABLE, LineKind.ELECTRIC_WIRE])
def test_a_cable_and_a_wire_have_no_bore_for_a_stud_or_a_spoke(kind: LineKind) -> None:
    solid = replace(HOSE, kind=kind, bore_diameter_mm=None)
    stud = check_stud_in_bore(stud_diameter_mm=2.6, line=solid, limits=LIMITS, with_ids=())
    (_, spoke) = check_method_suits_lines(method=make_spoke(), old=HOSE, new=solid, limits=LIMITS)
    assert (stud.outcome, spoke.outcome) == (Outcome.NO_FIT, Outcome.NO_FIT)
    unmeasured = replace(HOSE, bore_diameter_mm=None)
    stud = check_stud_in_bore(stud_diameter_mm=2.6, line=unmeasured, limits=LIMITS, with_ids=())
    assert stud.outcome is Outcome.UNKNOWN


def test_a_magnet_is_told_with_the_thickest_wall_it_has_to_work_through() -> None:
    frame = make_lane_frame((8.0, 8.0))
    thick = replace(frame.ports["out-0"], wall_thickness_mm=2.5)
    frame = replace(frame, ports={**frame.ports, "out-0": thick})
    (check,) = check_magnet(leader=replace(MAGNET, wall_max_mm=4.0), frame=frame)
    assert figures(check) == (2.5, 4.0, 1.5)
    (bare,) = check_magnet(leader=replace(MAGNET, wall_max_mm=0.5), frame=make_holed_frame(runs=()))
    assert figures(bare) == (0.0, 0.5, 0.5)
    assert list(check_magnet(leader=LEADER, frame=frame)) == []


def test_a_spoke_and_a_sleeve_are_told_with_the_line_they_meet() -> None:
    (spoke, _) = check_method_suits_lines(method=make_spoke(rod_diameter_mm=2.0), old=HOSE, new=HOSE, limits=LIMITS)
    assert figures(spoke) == (2.0, 2.1, 0.1)
    (sleeve, _) = check_method_suits_lines(method=make_sleeve(), old=HOSE, new=HOSE, limits=LIMITS)
    assert figures(sleeve) == (4.0, 5.0, 1.0)
    stretchy = make_limits(sleeve_stretch_max_ratio=1.2)
    (torn, _) = check_method_suits_lines(method=make_sleeve(), old=HOSE, new=HOSE, limits=stretchy)
    assert figures(torn) == (4.0, 5.0, -0.2)  # 1.2 x 4.0 is 4.8


def test_what_slides_is_told_with_the_bore_it_slides_in() -> None:
    """The cable is 1.6, the housing's bore 2.1; the liner is 1.8 inside and 2.05 outside."""
    use, slides = check_method_suits_lines(method=OVER, old=CABLE, new=GEAR_HOUSING, limits=LIMITS)
    assert (use.outcome, figures(slides)) == (Outcome.FITS, (1.6, 2.1, 0.5))
    cable, over = check_method_suits_lines(method=LINER, old=CABLE, new=HOSE, limits=LIMITS)
    assert (figures(cable), figures(over)) == ((1.6, 1.8, 0.2), (2.05, 2.1, 0.05))
    (_, filled) = check_method_suits_lines(
        method=LINER, old=CABLE, new=replace(HOSE, bore_diameter_mm=2.05), limits=LIMITS
    )
    assert (filled.outcome, figures(filled)) == (Outcome.NO_FIT, (2.05, 2.05, 0))
    (_, through) = check_method_suits_lines(
        method=LINER, old=CABLE, new=replace(WIRE, outer_diameter_mm=1.5), limits=LIMITS
    )
    assert figures(through) == (1.5, 1.8, 0.3)


@pytest.mark.parametrize(
    ("method", "old", "new"),
    [
        (make_coupler(), HOSE, HOSE),
        (make_spoke(), HOSE, HOSE),
        (make_sleeve(), HOSE, HOSE),
        (make_spoke(), HOSE, WIRE),
        (make_spoke(), None, HOSE),
        (OVER, CABLE, GEAR_HOUSING),
        (OVER, CABLE, HOSE),
        (LINER, CABLE, HOSE),
        (LEADER, None, HOSE),
        (replace(LEADER, stud_diameter_mm=2.6), None, HOSE),
    ],
)
def test_a_joint_is_asked_about_while_drawing_and_a_line_laid_outside_while_riding(
    method: Method, old: Line | None, new: Line
) -> None:
    checks = check_method_suits_lines(method=method, old=old, new=new, limits=LIMITS)
    assert checks
    assert {check.state for check in checks} == {State.DRAWING}
    (outside,) = check_method_suits_lines(method=LaidOutside(), old=old, new=new, limits=LIMITS)
    assert (outside.state, outside.outcome, outside.with_ids) == (State.RIDING, Outcome.FITS, (new.id,))
