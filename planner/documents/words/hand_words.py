"""What the hands must know of a plan in a few words: how thick the joint is, how long the new line is cut."""

from planner.documents.words.sizes_in_words import millimetres, piece_millimetres, tape_millimetres
from planner.documents.words.wording import joint_at_least, may_part_inside
from planner.plan.cut_length import length_words, order_words
from planner.plan.routing_plan import RoutingPlan


def joint_size_words(plan: RoutingPlan) -> str:
    """How thick and how stiff the joint is, to stand after its name; "" where nothing can part inside the frame."""
    if plan.joint is None or not may_part_inside(plan):
        return ""
    stiff = (
        f"{piece_millimetres(plan.joint.thing.rigid_length_mm)} stiff" if plan.joint.thing.rigid_length_mm else "soft"
    )
    return f", {joint_at_least(plan)}{millimetres(plan.joint.thing.diameter_mm)} across, {stiff}"


def cut_words(plan: RoutingPlan) -> str:
    """How long the new line is cut, and whether the supplied one reaches."""
    lengths = plan.lengths
    if lengths is None:
        return "length not known"
    said = length_words(lengths)
    if not lengths.known:
        return said if lengths.supplied_mm is None else f"{said}; {lengths.supplied_mm:.0f} mm as supplied"
    if lengths.supplied_mm is None or lengths.spare_mm is None:
        order = order_words(lengths)
        return f"{said}; how long it is as supplied was not told{f' ({order})' if order else ''}"
    if lengths.spare_mm < 0:
        missing = tape_millimetres(-lengths.spare_mm)
        return f"{said}, but as supplied it is {missing} too short ({lengths.supplied_mm:.0f} mm)"
    return f"{said}; {lengths.supplied_mm:.0f} mm as supplied, {lengths.spare_mm:.0f} mm to spare"
