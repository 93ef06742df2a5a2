"""The frame with its bar turned and its rear swung, and the line as it then lies."""

from collections.abc import Iterable
from dataclasses import dataclass, replace
from typing import TypeVar

from planner.documents.drawings.side_view import leg_points, places_in_order
from planner.geometry.curves.legs import find_mover
from planner.geometry.motion.frame_axes import Pose3
from planner.geometry.motion.rear_motion import LinkageLocked, find_rear_placement, move_with_rear
from planner.geometry.motion.steering import turn_with_bar
from planner.parts import Anchor, Frame, Line, MovesWith, Point, Port, Run, Zone
from planner.plan.leg_lengths import find_legs, hang_legs
from planner.plan.leg_views import leg_as_travelled
from planner.plan.lengths import LegLength
from planner.plan.routing_plan import RoutingPlan

Placed = TypeVar("Placed", Port, Anchor)


def frame_in_posture(frame: Frame, *, bar_deg: float, swing_deg: float) -> Frame | LinkageLocked:
    """The same frame with everything that moves where it stands in one posture.

    A cavity moves with bar or rear where it says so, or where every port into it does; so do the points a line is led
    past between two places that do.

    Returns the frame, or where the rear's links lock before they get there.

    bar_deg : turn of the bar, right-handed about its axis; 0 straight ahead
    swing_deg : swing of the rear; 0 at rest
    """
    placement = find_rear_placement(rear=frame.rear, swing_deg=swing_deg) if frame.rear else None
    if isinstance(placement, LinkageLocked):
        return placement

    def carried(pose: Pose3, mover: MovesWith | None) -> Pose3:
        if mover is MovesWith.BAR and frame.bar:
            return turn_with_bar(pose, bar=frame.bar, angle_deg=bar_deg)
        if mover is MovesWith.REAR and placement:
            return move_with_rear(pose, placement=placement)
        return pose

    def points(points_mm: tuple[Point, ...], mover: MovesWith | None) -> tuple[Point, ...]:
        poses = (carried(Pose3(position_mm=point, heading=(1.0, 0.0, 0.0)), mover) for point in points_mm)
        return points_mm if mover is None else tuple(pose.position_mm for pose in poses)

    def placed(one: Placed) -> Placed:
        if one.position_mm is None or one.heading is None:
            return one
        mover = find_mover(frame=frame, place=one.id)
        pose = carried(Pose3(position_mm=one.position_mm, heading=one.heading), mover)
        return replace(one, position_mm=pose.position_mm, heading=pose.heading)

    def led(run: Run) -> Run:
        mover = _shared_mover(frame, run.between)
        return replace(run, via_mm=points(run.via_mm, mover), clips_mm=points(run.clips_mm, mover))

    return replace(
        frame,
        ports={one.id: placed(one) for one in frame.ports.values()},
        anchors={one.id: placed(one) for one in frame.anchors.values()},
        zones={
            zone.id: replace(zone, path_mm=points(zone.path_mm, _mover_of(frame, zone)))
            for zone in frame.zones.values()
        },
        runs={run.id: led(run) for run in frame.runs.values()},
    )


@dataclass(frozen=True, slots=True, kw_only=True)
class PosedRoute:
    """A route in one posture of bar and rear.

    frame : in that posture; with the rear at its lock where its links do not get there
    legs : points of each run of the route, from the job's `from`; straight where no line was named
    words : the posture and the length of the line in it, in one sentence
    """

    frame: Frame
    legs: dict[str, tuple[Point, ...]]
    words: str


def pose_route(plan: RoutingPlan, frame: Frame, line: Line | None, *, bar_deg: float, swing_deg: float) -> PosedRoute:
    """The way of a plan with the bar turned and the rear swung.

    plan : with or without a route
    line : the line that is drawn; None for straight lines between the places
    bar_deg : turn of the bar, right-handed about its axis
    """
    posed = frame_in_posture(frame, bar_deg=bar_deg, swing_deg=swing_deg)
    told = f"Bar turned {bar_deg:g}°, rear swung {swing_deg:g}°"
    if isinstance(posed, LinkageLocked):
        locks_at_deg = posed.locks_at_deg
        told = (
            f"Bar turned {bar_deg:g}°; the rear's links lock at {locks_at_deg:.1f}°, before {swing_deg:g}°: shown there"
        )
        posed = frame_in_posture(frame, bar_deg=bar_deg, swing_deg=locks_at_deg)
        assert isinstance(posed, Frame)
    places = places_in_order(plan, posed)
    if line is None or not places:
        return PosedRoute(frame=posed, legs=leg_points(replace(plan, lengths=None), posed), words=told)
    legs = _legs_of_route(plan, posed, line, places)
    curves = {leg.run_id: leg.relaxed_curve or leg.curve for leg in legs}
    points = {run_id: curve.points_mm for run_id, curve in curves.items() if curve is not None}
    sizes_mm = [(leg.nominal_mm, leg.high_mm) for leg in legs if leg.nominal_mm is not None and leg.high_mm is not None]
    if len(sizes_mm) < len(legs):
        return PosedRoute(frame=posed, legs=points, words=f"{told}: how much line that takes is not known")
    low_mm, high_mm = (sum(sizes) for sizes in zip(*sizes_mm, strict=True))
    return PosedRoute(
        frame=posed, legs=points, words=f"{told}: {low_mm:.0f} to {high_mm:.0f} mm of line from end to end"
    )


def _legs_of_route(plan: RoutingPlan, posed: Frame, line: Line, places: tuple[str, ...]) -> list[LegLength]:
    """The legs as the route takes them, while bar and rear stand still where they are."""
    still = replace(posed, bar=None, rear=None, runs={run_id: posed.runs[run_id] for run_id in plan.runs})
    legs = hang_legs(frame=still, line=line, legs=find_legs(frame=still, line=line), run_ids=plan.runs)
    return [
        leg_as_travelled(leg=legs[run_id], from_place=place) for run_id, place in zip(plan.runs, places, strict=False)
    ]


def _mover_of(frame: Frame, zone: Zone) -> MovesWith | None:
    into = [port.id for port in frame.ports.values() if zone.id in port.joins]
    return _shared_mover(frame, into) if zone.moves_with is None else zone.moves_with


def _shared_mover(frame: Frame, places: Iterable[str]) -> MovesWith | None:
    """What carries every one of some places; None where something else carries one of them, or there is none."""
    movers = {find_mover(frame=frame, place=place) for place in places}
    return movers.pop() if len(movers) == 1 else None
