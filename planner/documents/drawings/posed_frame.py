"""The frame with its bar turned and its rear swung, and the line as it then lies."""

from dataclasses import dataclass, replace

from planner.documents.drawings.side_view import leg_points, places_in_order
from planner.geometry.curves.legs import find_mover
from planner.geometry.motion.frame_axes import Pose3
from planner.geometry.motion.rear_motion import LinkageLocked, RearPlacement, find_rear_placement, move_with_rear
from planner.geometry.motion.steering import turn_with_bar
from planner.parts import Frame, Line, MovesWith, Point, Run
from planner.plan.leg_lengths import find_legs, leg_as_travelled
from planner.plan.routing_plan import LegLength, RoutingPlan


def frame_in_posture(frame: Frame, *, bar_deg: float, swing_deg: float) -> Frame | LinkageLocked:
    """The same frame with everything that moves where it stands in one posture.

    A cavity moves with the rear where every port into it does; so do the points a line is led past in it.

    Returns the frame, or where the rear's links lock before they get there.

    bar_deg : turn of the bar, right-handed about its axis; 0 straight ahead
    swing_deg : swing of the rear; 0 at rest
    """
    placement = find_rear_placement(rear=frame.rear, swing_deg=swing_deg) if frame.rear else None
    if isinstance(placement, LinkageLocked):
        return placement

    def moved(place: str, position_mm: Point, heading: Point) -> Pose3:
        pose = Pose3(position_mm=position_mm, heading=heading)
        mover = find_mover(frame=frame, place=place)
        if mover is MovesWith.BAR and frame.bar:
            return turn_with_bar(pose, bar=frame.bar, angle_deg=bar_deg)
        if mover is MovesWith.REAR and placement:
            return move_with_rear(pose, placement=placement)
        return pose

    poses = {one.id: moved(one.id, one.position_mm, one.heading) for one in frame.ports.values()}
    poses |= {one.id: moved(one.id, one.position_mm, one.heading) for one in frame.anchors.values()}
    rear = placement if swing_deg else None
    zones = {
        zone.id: replace(zone, path_mm=_with_rear(zone.path_mm, rear)) if _rides(frame, zone.id) else zone
        for zone in frame.zones.values()
    }
    return replace(
        frame,
        ports={
            one.id: replace(one, position_mm=poses[one.id].position_mm, heading=poses[one.id].heading)
            for one in frame.ports.values()
        },
        anchors={
            one.id: replace(one, position_mm=poses[one.id].position_mm, heading=poses[one.id].heading)
            for one in frame.anchors.values()
        },
        zones=zones,
        runs={run.id: _run_with_rear(frame, run, rear) for run in frame.runs.values()},
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
    low_mm, high_mm = sum(leg.nominal_mm for leg in legs), sum(leg.high_mm for leg in legs)
    curves = {leg.run_id: leg.relaxed_curve or leg.curve for leg in legs}
    points = {run_id: curve.points_mm for run_id, curve in curves.items() if curve is not None}
    return PosedRoute(
        frame=posed, legs=points, words=f"{told}: {low_mm:.0f} to {high_mm:.0f} mm of line from end to end"
    )


def _legs_of_route(plan: RoutingPlan, posed: Frame, line: Line, places: tuple[str, ...]) -> list[LegLength]:
    """The legs as the route takes them, while bar and rear stand still where they are."""
    still = replace(posed, bar=None, rear=None, runs={run_id: posed.runs[run_id] for run_id in plan.runs})
    legs = find_legs(frame=still, line=line)
    return [
        leg_as_travelled(leg=legs[run_id], from_place=place) for run_id, place in zip(plan.runs, places, strict=False)
    ]


def _rides(frame: Frame, zone_id: str) -> bool:
    ports = [port.id for port in frame.ports.values() if zone_id in port.joins]
    return bool(ports) and all(find_mover(frame=frame, place=port_id) is MovesWith.REAR for port_id in ports)


def _with_rear(points_mm: tuple[Point, ...], placement: RearPlacement | None) -> tuple[Point, ...]:
    if placement is None:
        return points_mm
    poses = (Pose3(position_mm=point, heading=(1.0, 0.0, 0.0)) for point in points_mm)
    return tuple(move_with_rear(pose, placement=placement).position_mm for pose in poses)


def _run_with_rear(frame: Frame, run: Run, placement: RearPlacement | None) -> Run:
    if not all(find_mover(frame=frame, place=place) is MovesWith.REAR for place in run.between):
        return run
    via_mm, clips_mm = _with_rear(run.via_mm, placement), _with_rear(run.clips_mm, placement)
    return replace(run, via_mm=via_mm, clips_mm=clips_mm)
