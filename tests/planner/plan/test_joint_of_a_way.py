"""The joint of one way: what it holds against what the holes ask of it, worked by hand for weightless lines."""

from dataclasses import replace
from typing import Any

import pytest

from planner.geometry.motion.frame_axes import Curve
from planner.parts import Fitting, FittingStyle, Job, JobEnd, LineEnd, LineTie, Method, PullWord, SetBy
from planner.plan.joint_drag import find_hold_n, find_joint
from planner.plan.lengths import LegLength
from planner.plan.routing_plan import Joint
from planner.routing.attempts import Attempt
from planner.routing.route_search import Route
from planner.routing.run_graph import RunState
from planner.verdicts import Outcome, Thing, ThingKind
from tests.builders import make_coupler, make_job, make_lane_frame, make_limits, make_line, make_sleeve
from tests.work_orders.job_kinds import LINER, OVER

THING = Thing(id="joint", kind=ThingKind.JOINT, diameter_mm=5.2, tolerance_mm=0.0)
LIGHT = {"mass_g_per_m": 0.0, "friction_ratio": 0.3}
LIMITS = make_limits(pull_margin_ratio=2.0, ease_margin_ratio=1.25)
ROUTE = Route(
    states=(
        RunState(place="start", run_id="to-0"),
        RunState(place="in-0", run_id="through-0"),
        RunState(place="out-0", run_id="from-0"),
    ),
    outcome=Outcome.FITS,
    length_mm=1200.0,
)


def legs(**changes: Any) -> dict[str, LegLength]:
    """Straight ones between the ends and the two holes."""
    sizes = dict.fromkeys(("way_mm", "nominal_mm", "low_mm", "high_mm", "least_mm"), 500.0)
    straight = Curve(points_mm=((0.0, 0.0, 0.0), (-500.0, 0.0, 0.0)), length_mm=500.0, tightest_radius_mm=None)
    fields = {"from_place": "a", "to_place": "b", "basis": "told", "curve": straight, **sizes, **changes}
    return {run_id: LegLength(run_id=run_id, **fields) for run_id in ("to-0", "through-0", "from-0")}


def a_job(first_n: float = 4.0, second_n: float = 6.0) -> Job:
    """Two holes on one level that each take such a pull, so 10 N together."""
    frame = make_lane_frame((9.0, 9.0))
    ports = {
        "in-0": replace(frame.ports["in-0"], entry_drag_n=first_n),
        "out-0": replace(frame.ports["out-0"], entry_drag_n=second_n),
    }
    job = make_job(replace(frame, ports=ports))
    return replace(job, new=replace(job.new, line=make_line(id="new", **LIGHT)))


def joint(
    method: Method, *, job: Job | None = None, found: dict[str, LegLength] | None = None, **attempt: Any
) -> Joint | None:
    told = job or a_job()
    fields: dict[str, Any] = {"joint": THING, "route": ROUTE, "feed_from": JobEnd.FROM}
    one = Attempt(
        job=told,
        undoes_leading=False,
        leaves_old_way=False,
        method=method,
        general_checks=(),
        step_checks={},
        **{**fields, **attempt},
    )
    return find_joint(job=told, attempt=one, legs=found or legs(), limits=LIMITS)


@pytest.mark.parametrize(
    ("holds_n", "advice", "ease_n"),
    [
        (20.0, PullWord.MAY_PULL, 10.0),
        (19.9, PullWord.EASE_GENTLY, 15.92),
        (12.5, PullWord.EASE_GENTLY, 10.0),
        (12.4, PullWord.PUSH_ONLY, None),
        (None, PullWord.PUSH_ONLY, None),
    ],
)
def test_what_the_hands_may_do_goes_by_what_the_joint_holds_against_ten_newtons(
    holds_n: float | None, advice: PullWord, ease_n: float | None
) -> None:
    found = joint(make_coupler(holds_n=holds_n))
    assert found is not None
    assert (found.thing, found.holds_n, found.advice) == (THING, holds_n, advice)
    assert found.drag_n == pytest.approx(10.0)
    assert found.ease_up_to_n == (None if ease_n is None else pytest.approx(ease_n))


def test_without_a_joint_or_a_way_there_is_nothing_to_tell() -> None:
    assert joint(make_coupler(), joint=None) is None
    assert joint(make_coupler(), route=None) is None


def test_only_the_way_from_the_first_hole_to_the_last_drags() -> None:
    """A right angle on it multiplies what the first hole takes by exp(0.3 * pi / 2) = 1.602: 4 x 1.602 + 6 = 12.41; fed
    from the other end 6 x 1.602 + 4 = 13.61. On the legs outside it adds nothing."""
    corner = Curve(
        points_mm=((0.0, 0.0, 0.0), (0.0, 250.0, 0.0), (-250.0, 250.0, 0.0)), length_mm=500.0, tightest_radius_mm=None
    )
    plain, bent = legs(), legs(curve=corner)
    for feed_from, drag_n in ((JobEnd.FROM, 12.407), (JobEnd.TO, 13.611)):
        found = joint(make_coupler(), found={**plain, "through-0": bent["through-0"]}, feed_from=feed_from)
        assert found is not None
        assert found.drag_n == pytest.approx(drag_n, abs=1e-3)
        outside = joint(make_coupler(), found={**bent, "through-0": plain["through-0"]}, feed_from=feed_from)
        assert outside is not None
        assert outside.drag_n == pytest.approx(10.0)


def test_a_way_whose_turns_nobody_told_may_drag_more() -> None:
    plain, unseen = legs(), legs(curve=None)
    through, outside = (
        joint(make_coupler(), found={**plain, run_id: unseen[run_id]}) for run_id in ("through-0", "to-0")
    )
    assert through is not None
    assert outside is not None
    assert (through.is_drag_least, outside.is_drag_least) == (True, False)


@pytest.mark.parametrize(
    ("holds_n", "tie_n", "advice", "ease_n"),
    [
        (60.0, 25.0, PullWord.MAY_PULL, 12.5),  # the joint bears 20, the tie its own line's 10
        (60.0, 15.0, PullWord.EASE_GENTLY, 12.0),
        (60.0, 12.0, PullWord.PUSH_ONLY, None),
        (39.0, 25.0, PullWord.EASE_GENTLY, 12.5),
        (24.0, 25.0, PullWord.PUSH_ONLY, None),
    ],
)
def test_of_several_lines_the_joint_bears_all_each_tie_its_own_and_the_weakest_counts(
    holds_n: float, tie_n: float, advice: PullWord, ease_n: float | None
) -> None:
    tied = replace(a_job(), tied_on=(make_line(id="second", **LIGHT),))
    tie = LineTie(most_n=1, adds_mm=1.0, holds_n=tie_n, setup_min=3.0)
    found = joint(make_coupler(holds_n=holds_n, tie=tie), job=tied)
    assert found is not None
    assert (found.drag_n, found.holds_n, found.advice) == (pytest.approx(20.0), holds_n, advice)
    assert found.ease_up_to_n == (None if ease_n is None else pytest.approx(ease_n))
    alone = joint(make_coupler(holds_n=holds_n), job=tied)  # without a tie nobody knows what holds the second
    assert alone is not None
    assert (alone.advice, alone.ease_up_to_n) == (PullWord.PUSH_ONLY, None)


def test_over_fittings_a_joint_holds_as_measured_there() -> None:
    plug = Fitting(
        id="plug",
        name="Plug",
        style=FittingStyle.PLUG,
        set_by=SetBy.FACTORY,
        outer_diameter_mm=4.8,
        length_mm=14.0,
        joint_holds_n=9.0,
    )

    def holds(method: Method, fitting: Fitting | None) -> float | None:
        job = a_job()
        end = LineEnd(fitting=fitting, is_fitted=fitting is not None)
        job = replace(job, new=replace(job.new, to_end=end))
        return find_hold_n(job=job, method=method, feed_from=JobEnd.FROM, limits=LIMITS)

    assert holds(make_sleeve(holds_n=8.0), plug) == 9.0
    assert holds(make_sleeve(holds_n=8.0), replace(plug, joint_holds_n=None)) is None
    assert holds(make_coupler(holds_n=60.0), None) == 60.0
    assert holds(OVER, plug) == OVER.holds_n  # nothing can part there
    assert holds(LINER, None) == LINER.holds_n
