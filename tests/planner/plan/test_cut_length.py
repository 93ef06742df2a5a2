"""The cut length, term by term, against a sum on paper."""

import re
from dataclasses import replace

import pytest

from planner.parts import Fitting, FittingStyle, LineEnd, NewLine, SetBy
from planner.plan.cut_length import added_words, find_lengths
from planner.plan.leg_lengths import find_legs
from tests.builders import make_job, make_lane_frame, make_limits, make_line

NUT = Fitting(
    id="nut",
    name="Nut",
    style=FittingStyle.COMPRESSION,
    set_by=SetBy.WORKSHOP,
    outer_diameter_mm=8.0,
    length_mm=15.0,
)
LEVER, CALIPER = replace(NUT, insertion_depth_mm=11.0), replace(NUT, insertion_depth_mm=17.0)


def cut_mm(*, lever: Fitting | None, caliper: Fitting | None, **more: float) -> float:
    frame = make_lane_frame((12.0, 12.0))
    new = NewLine(line=make_line(), from_end=LineEnd(fitting=lever), to_end=LineEnd(fitting=caliper))
    legs = find_legs(frame=frame, line=new.line)
    limits = make_limits(trim_allowance_mm=10.0, length_step_mm=1.0)
    way = [legs[run_id] for run_id in ("to-0", "through-0", "from-0")]
    return find_lengths(job=make_job(frame, new=new), legs=way, limits=limits, **more).cut_mm


@pytest.mark.parametrize(
    ("lever", "caliper", "expected_mm"),
    [(None, None, 1210), (LEVER, None, 1221), (None, CALIPER, 1227), (LEVER, CALIPER, 1238)],
    ids=["bare", "lever end only", "caliper end only", "both ends"],
)
def test_the_depth_of_each_fitting_is_added_once(
    lever: Fitting | None, caliper: Fitting | None, expected_mm: float
) -> None:
    """300 + 500 + 400 in one line, 10 to trim, 11 into the lever, 17 into the caliper."""
    assert cut_mm(lever=lever, caliper=caliper) == pytest.approx(expected_mm)


def test_what_is_cut_away_later_is_added_too() -> None:
    assert cut_mm(lever=LEVER, caliper=CALIPER, bitten_mm=10, undone_mm=20) == pytest.approx(1268)


def test_the_cut_is_rounded_up_and_never_down() -> None:
    frame = make_lane_frame((12.0, 12.0))
    job = make_job(frame)
    legs = tuple(find_legs(frame=frame, line=job.new.line)[run_id] for run_id in ("to-0", "through-0", "from-0"))
    for trim_mm, expected_mm in ((9.9, 1210), (10.0, 1210), (10.1, 1215)):
        limits = make_limits(trim_allowance_mm=trim_mm, length_step_mm=5.0)
        assert find_lengths(job=job, legs=legs, limits=limits).cut_mm == expected_mm


def test_the_sum_that_is_printed_adds_up_to_the_cut() -> None:
    """1200 + 28 + 19 + 20 + 10, in steps of 1."""
    frame = make_lane_frame((12.0, 12.0))
    new = NewLine(line=make_line(), from_end=LineEnd(fitting=LEVER), to_end=LineEnd(fitting=CALIPER))
    legs = tuple(find_legs(frame=frame, line=new.line)[run_id] for run_id in ("to-0", "through-0", "from-0"))
    limits = make_limits(trim_allowance_mm=10.0, length_step_mm=1.0)
    lengths = find_lengths(job=make_job(frame, new=new), legs=legs, limits=limits, bitten_mm=19, undone_mm=20)
    told = added_words(lengths)
    assert lengths.need_mm + sum(map(int, re.findall(r"(\d+) mm", told))) == pytest.approx(lengths.cut_mm)
    assert "19 mm to cut away where the joint was" in told
    assert "20 mm lost where a fitting is taken off" in told


@pytest.mark.parametrize(("trim_mm", "told"), [(0.0, ""), (0.6, " + 1 mm to trim"), (1.0, " + 1 mm to trim")])
def test_a_millimetre_is_told_and_nothing_is_not(trim_mm: float, told: str) -> None:
    frame = make_lane_frame((12.0, 12.0))
    job = make_job(frame)
    legs = tuple(find_legs(frame=frame, line=job.new.line)[run_id] for run_id in ("to-0", "through-0", "from-0"))
    limits = make_limits(trim_allowance_mm=trim_mm, length_step_mm=1.0)
    assert added_words(find_lengths(job=job, legs=legs, limits=limits)) == told
