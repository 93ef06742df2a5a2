"""What a job needs beside the parts named, in words."""

from planner.plan.names import Names
from planner.plan.routing_plan import RoutingPlan
from planner.verdicts import Outcome

PART_WORDS = {
    "hose": "hose",
    "lever": "lever",
    "caliper": "caliper",
    "inner_cable": "inner cable",
    "housing": "housing",
    "far_end": "the part at the far end, such as caliper, derailleur or seatpost",
    "wire": "wire",
    "switch": "switch",
    "battery": "battery",
    "end_caps": "end caps",
    "fluid": "fluid",
    "bleed_kit": "bleed kit",
    "plug": "plug for the open hole {place}",
}
"""Names of the parts a conversion takes off or brings, and of what a job needs beside them."""


def need_words(need: str, *, names: Names | None = None) -> str:
    """What a job needs beside the parts named, such as "plug:side-port", in words.

    need : one of CompatibilityResult.needs: a key, a colon, and what it is about
    names : what people call places; ids stand where a name is missing
    """
    key, _, about = need.partition(":")
    if key == "plug":
        return PART_WORDS[key].format(place=about if names is None else names.place(about))
    return f"{PART_WORDS[key]}: {FLUID_WORDS[about]}"


def bench_rows(plan: RoutingPlan) -> list[tuple[str, str]]:
    """Name and words of what must lie ready before a plan is begun; nothing for a no."""
    if plan.outcome is Outcome.NO_FIT:
        return []
    parts = " · ".join(f"{part.quantity} × {part.name}" for part in plan.parts if plan.outcome.lets_work_begin)
    needs = " · ".join(need_words(need, names=plan.names) for need in plan.needs)
    told = (("Have ready", parts), ("Also needed", needs), ("At hand", " · ".join(plan.at_hand)))
    return [(name, words) for name, words in told if words]


FLUID_WORDS = {
    "glycol_dot3": "DOT 3",
    "glycol_dot4": "DOT 4",
    "glycol_dot5_1": "DOT 5.1",
    "silicone_dot5": "DOT 5 (silicone)",
    "mineral_oil": "mineral oil as the brake's maker names it",
    "glycol": "for glycol fluids (DOT 3, 4, 5.1) only",
    "silicone": "for silicone fluid only",
    "mineral": "for mineral oil only",
}
"""Fluids, and bleed kits by the class they are kept to."""
