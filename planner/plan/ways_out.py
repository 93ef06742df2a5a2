"""What would change a "no": computed for this job, each told only where planning again says that it helps."""

from planner.plan.change import Stuck, confirmed
from planner.plan.part_changes import part_changes
from planner.plan.place_changes import place_changes
from planner.plan.way_out import WayOut, WayOutKind
from planner.verdicts import Outcome

OFFERED = (WayOutKind.OTHER_ROTOR, WayOutKind.OTHER_LINE, WayOutKind.OTHER_BRAKE)
MOST_NAMED = 2
"""Rotors, lines and brakes that are named as ways out, of each sort."""


def find_ways_out(stuck: Stuck) -> tuple[WayOut, ...]:
    """What would make a plan of it, nearest at hand first; empty where nothing that was tried helps.

    Where several things are against a job and no single change makes a plan of it, those that take one of them away
    are told with what they leave.

    stuck : with the plan that is none
    """
    changes = [*(place_changes(stuck) if stuck.no.no_route is not None else ()), *part_changes(stuck)]
    found = [way for change in changes for way in confirmed(stuck=stuck, change=change)]
    told = [way for way in found if way.outcome < Outcome.NO_FIT] or found
    return tuple(way for place, way in enumerate(told) if _is_told(way, told[:place]))


def _is_told(way: WayOut, before: list[WayOut]) -> bool:
    """Of what the catalog offers two of a sort are named; where it has a brake that serves, no mount is told."""
    if way.kind is WayOutKind.OTHER_MOUNT:
        return all(each.kind is not WayOutKind.OTHER_BRAKE for each in before)
    alike = [each for each in before if (each.kind, each.end) == (way.kind, way.end)]
    return way.kind not in OFFERED or len(alike) < MOST_NAMED
