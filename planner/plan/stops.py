"""Where a job without a way is stopped: of every place the miss that comes nearest."""

from collections.abc import Iterable, Mapping

from planner.fit.hole_fit import check_things_in_room
from planner.fit.things import thing_of_line
from planner.parts import Line, Opening, Port
from planner.plan.deciding import miss_rank_mm
from planner.plan.routing_plan import NoRoute, Rejection, RoutingPlan
from planner.plan.way_out import WayOutKind
from planner.quick_dataclass import dataclass
from planner.rules import JointRule
from planner.verdicts import Check, NoWay, Outcome

ABOUT_METHODS = (NoWay.STOPPED, NoWay.NO_METHOD)
"""The reasons for a no that some method comes nearest to."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Stop:
    """A place that stops the way, with what comes nearest to passing it.

    place_id : of the port or run
    needed : the smallest opening there that this thing would pass; None where that is not known
    """

    place_id: str
    check: Check
    needed: Opening | None = None


def nearest_miss(no_route: NoRoute) -> Rejection | None:
    """Of the nearest place of every method the one that lacks least; None where the no is not about methods."""
    misses = no_route.closest_misses if no_route.reason in ABOUT_METHODS else ()
    return min(misses, key=lambda miss: miss_rank_mm(miss.check), default=None)


def find_stops(plan: RoutingPlan) -> tuple[Stop, ...]:
    """The places that stop a no, the one its verdict tells first; empty for a plan, and for a no by parts alone."""
    if plan.no_route is None:
        return ()
    nearest = nearest_miss(plan.no_route)
    found: dict[str, Check] = {}
    for rejection in (nearest, *plan.rejected) if nearest is not None else plan.rejected:
        check = rejection.check
        place_id = _place_of(check)
        is_first = nearest is not None and check is nearest.check
        if (
            place_id
            and (is_first or _stands_at(plan.no_route, place_id, check))
            and _is_nearer(check, found.get(place_id), nearest)
        ):
            found[place_id] = check
    needed = _needed(plan.no_route)
    return tuple(
        Stop(place_id=place_id, check=check, needed=needed.get((place_id, _missing_mm(check))))
        for place_id, check in found.items()
    )


def _place_of(check: Check) -> str:
    return check.port_id or check.run_id or ""


def _stands_at(no_route: NoRoute, place_id: str, check: Check) -> bool:
    """Whether it is a no at one of the places that stop every way."""
    is_no = check.outcome is Outcome.NO_FIT and check.rule is not JointRule.LEADING_JOINT
    return is_no and place_id in (*no_route.ports, *no_route.runs)


def _is_nearer(check: Check, before: Check | None, nearest: Rejection | None) -> bool:
    """Whether it lacks less than what was found there; what the verdict tells stays."""
    if before is None:
        return True
    if nearest is not None and before is nearest.check:
        return False
    return miss_rank_mm(check) < miss_rank_mm(before)


def _missing_mm(check: Check) -> float | None:
    return None if check.clearance_mm is None else round(-check.clearance_mm, 2)


def _needed(no_route: NoRoute) -> Mapping[tuple[str, float | None], Opening]:
    """Smallest openings that would do, by place and by what is missing there: for another thing another would."""
    return {
        (way.port_id or "", None if way.size_mm is None else round(way.size_mm, 2)): way.opening
        for way in no_route.ways_out
        if way.kind is WayOutKind.LARGER_HOLE and way.opening is not None
    }


def find_lines_that_pass(
    check: Check, port: Port | None, *, lines: Iterable[Line], running_clearance_mm: float
) -> dict[str, float] | None:
    """Which of these lines pass the hole that a check is about, alone, with what each has to spare. [mm]

    None where the hole was not measured, or other things share it.

    port : the hole, for the kinds of line it takes; None for a bore
    running_clearance_mm : wanted in the worst case, diametral
    """
    if check.room is None or check.room.opening is None or check.with_ids or not check.rule.is_about_hole:
        return None
    found: dict[str, float] = {}
    for line in lines:
        if port is not None and not port.takes(line.kind):
            continue
        answer = check_things_in_room(
            rule=check.rule,
            room=check.room,
            things=[thing_of_line(line)],
            running_clearance_mm=running_clearance_mm,
            proves_no=False,
        )
        if answer.outcome.lets_work_begin and answer.clearance_mm is not None:
            found[line.id] = answer.clearance_mm
    return found
