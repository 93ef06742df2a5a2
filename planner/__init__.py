"""Computes: whether a line passes, which way it takes, how it is joined, how long it must be.

The names below are the front door. Each is loaded when it is first asked for, so that reading a catalog does not wait
for the libraries of the search.
"""

from importlib import import_module
from typing import TYPE_CHECKING, Any

if TYPE_CHECKING:
    from planner.documents.compatibility_wording import need_words
    from planner.documents.hole_drawing import draw_hole
    from planner.documents.length_bar import draw_length_bar
    from planner.documents.motion_drawing import draw_motion
    from planner.documents.plan_record import plan_as_record
    from planner.documents.route_drawing import draw_route
    from planner.documents.sizes_in_words import millimetres
    from planner.documents.wording import (
        deciding_check,
        end_name,
        pull_sentence,
        sentence_for,
        verdict_sentence,
    )
    from planner.fit.hole_fit import HoleFit, RoundItem, check_items_in_opening
    from planner.fit.wall_fit import check_rigid_through_wall, find_longest_through_port
    from planner.plan.plan_builder import plan_job
    from planner.plan.routing_plan import RoutingPlan

_HOMES = {
    "HoleFit": "planner.fit.hole_fit",
    "RoundItem": "planner.fit.hole_fit",
    "RoutingPlan": "planner.plan.routing_plan",
    "check_items_in_opening": "planner.fit.hole_fit",
    "check_rigid_through_wall": "planner.fit.wall_fit",
    "deciding_check": "planner.documents.wording",
    "draw_hole": "planner.documents.hole_drawing",
    "draw_length_bar": "planner.documents.length_bar",
    "draw_motion": "planner.documents.motion_drawing",
    "draw_route": "planner.documents.route_drawing",
    "end_name": "planner.documents.wording",
    "find_longest_through_port": "planner.fit.wall_fit",
    "millimetres": "planner.documents.sizes_in_words",
    "need_words": "planner.documents.compatibility_wording",
    "plan_as_record": "planner.documents.plan_record",
    "plan_job": "planner.plan.plan_builder",
    "pull_sentence": "planner.documents.wording",
    "sentence_for": "planner.documents.wording",
    "verdict_sentence": "planner.documents.wording",
}

__all__ = [
    "HoleFit",
    "RoundItem",
    "RoutingPlan",
    "check_items_in_opening",
    "check_rigid_through_wall",
    "deciding_check",
    "draw_hole",
    "draw_length_bar",
    "draw_motion",
    "draw_route",
    "end_name",
    "find_longest_through_port",
    "millimetres",
    "need_words",
    "plan_as_record",
    "plan_job",
    "pull_sentence",
    "sentence_for",
    "verdict_sentence",
]


def __getattr__(name: str) -> Any:
    """Load a name of the front door from the module it lives in."""
    if name not in _HOMES:
        raise AttributeError(f"planner has no {name}; its front door has {', '.join(__all__)}")
    return getattr(import_module(_HOMES[name]), name)
