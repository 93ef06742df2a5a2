"""What else is read off a leg: how far it turns, how it hangs free, and how it looks from its other end."""

from collections.abc import Mapping
from dataclasses import replace
from itertools import pairwise
from math import dist

from planner.geometry.motion.frame_axes import Curve
from planner.parts import Run
from planner.plan.lengths import LegLength
from planner.routing.leg_poses import turn_of_curve_deg

NOT_MEASURED = "not measured"
"""The basis of a leg that nobody told and that no place tells either."""


def ranking_lengths_mm(legs: Mapping[str, LegLength]) -> dict[str, float]:
    """A length for every run by which ways that are equally good are put in order, and nothing else.

    A leg without a length counts as the middle of those that have one; where none has, the fewest legs go first.

    legs : by run id
    """
    known_mm = [leg.way_mm for leg in legs.values() if leg.way_mm is not None]
    middle_mm = sum(known_mm) / len(known_mm) if known_mm else 1.0
    return {run_id: middle_mm if leg.way_mm is None else leg.way_mm for run_id, leg in legs.items()}


def longest_free_span_mm(*, leg: LegLength, run: Run) -> float | None:
    """The longest stretch of a leg that hangs free between its ends and clips.

    Returns the whole leg at rest where there is no clip; else the widest straight distance between supports; None where
    neither is known.
    """
    if not run.clips_mm or leg.curve is None:
        return leg.way_mm
    supports = (leg.curve.points_mm[0], *run.clips_mm, leg.curve.points_mm[-1])
    return max(dist(a, b) for a, b in pairwise(supports))


def turn_of_leg_deg(*, leg: LegLength, run: Run) -> float:
    """How far the line turns on a leg: as the guide's maker or caliper says, else along its curve at rest.

    Returns sum of all changes of direction.
    """
    if run.guide is not None:
        return run.guide.turn_deg
    return 0.0 if leg.curve is None else turn_of_curve_deg(leg.curve)


def leg_as_travelled(*, leg: LegLength, from_place: str) -> LegLength:
    """The same leg told from the end the route comes from, its curves turned round where needed.

    from_place : the end it is entered at
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


def told_by_eye(leg: LegLength) -> LegLength:
    """The leg without lengths where they come from places that were told by eye: such places give no figure.

    What it would ask of bends and loops is left out too; a length that somebody measured stays.
    """
    if leg.told_by is not None or leg.basis == "measured":
        return leg
    return replace(
        leg,
        nominal_mm=None,
        low_mm=None,
        high_mm=None,
        least_mm=None,
        slack_variation_mm=None,
        basis=NOT_MEASURED,
        bend_checks=(),
        length_checks=(),
    )


def with_slack(*, leg: LegLength, run: Run) -> LegLength:
    """The leg with the loop that is kept in its run on purpose, in every length that is known of it."""
    if not run.slack_mm:
        return leg
    sizes = (leg.nominal_mm, leg.low_mm, leg.high_mm, leg.least_mm)
    nominal, low, high, least = (None if size_mm is None else size_mm + run.slack_mm for size_mm in sizes)
    basis = f"{leg.basis}, with {run.slack_mm:.0f} mm of slack"
    return replace(leg, nominal_mm=nominal, low_mm=low, high_mm=high, least_mm=least, basis=basis)


def _reversed(curve: Curve | None) -> Curve | None:
    return None if curve is None else replace(curve, points_mm=curve.points_mm[::-1])
