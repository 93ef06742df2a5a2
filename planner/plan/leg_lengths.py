"""How much line each run takes."""

from dataclasses import replace

from planner.geometry.frame_axes import Curve
from planner.parts import Frame, Line, Run, ShopLimits
from planner.plan.routing_plan import LegLength
from planner.routing.leg_poses import find_leg_at_rest


def find_legs(*, frame: Frame, line: Line, limits: ShopLimits) -> dict[str, LegLength]:
    """Length of the line in every run of a frame while nothing moves.

    Parameters
    ----------
    frame : Frame
        The frame.
    line : Line
        The line that lies in it.
    limits : ShopLimits
        The shop's margins.

    Returns
    -------
    dict of str to LegLength
        By run id.

    References
    ----------
    See planner.routing.leg_poses.
    """
    return {run.id: _rest_leg(frame, run, line) for run in frame.runs.values()}


def _rest_leg(frame: Frame, run: Run, line: Line) -> LegLength:
    curve, basis, _ = find_leg_at_rest(frame=frame, run=run, line=line)
    return LegLength(
        run_id=run.id,
        from_place=run.between[0],
        to_place=run.between[1],
        nominal_mm=curve.length_mm,
        low_mm=curve.length_mm,
        high_mm=curve.length_mm,
        basis=basis,
        curve=curve,
        tightest_radius_mm=curve.tightest_radius_mm,
    )


def leg_as_travelled(*, leg: LegLength, from_place: str) -> LegLength:
    """The same leg told from the end the route comes from, its curves turned round where needed.

    Parameters
    ----------
    leg : LegLength
        A leg.
    from_place : str
        The end it is entered at.

    Returns
    -------
    LegLength
        Starting at that end.

    References
    ----------
    Plain bookkeeping; no outside source needed.
    """
    if leg.from_place == from_place:
        return leg
    return replace(
        leg,
        from_place=leg.to_place,
        to_place=leg.from_place,
        curve=_reversed(leg.curve),
        relaxed_curve=_reversed(leg.relaxed_curve),
    )


def _reversed(curve: Curve | None) -> Curve | None:
    return None if curve is None else replace(curve, points_mm=curve.points_mm[::-1])
