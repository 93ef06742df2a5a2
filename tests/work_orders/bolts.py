"""What is undone and tightened for good, step by step as the hands do it; common practice, no source."""

from collections.abc import Sequence

from planner import HandOver
from planner.parts import LineFamily
from planner.plan.routing_plan import Step

UNDOES = {
    "wheel-out": ["axle"],
    "pads-out": ["pads' pin"],
    "motor-cover": ["motor's cover"],
    "bar-open": ["grip"],
    "post-out": ["seat clamp"],
    "cockpit-down": ["stem"],
    "cable-slack": ["cable's clamp"],
    "drain-old": ["leading end", "trailing end"],
    "old-unbolt": ["caliper", "lever"],
    "caliper-on": ["caliper"],
    "flush": ["bleed ports"],
    **{f"bleed-{fluid}": ["bleed ports"] for fluid in ("glycol", "mineral", "silicone", "named")},
}
"""Bolts that a step undoes, or puts in without tightening them."""

TIGHTENS = {
    "preload": "stem",
    "rotor-on": "rotor",
    "adapter-on": "adapter",
    "rim-caliper-on": "caliper",
    "lever-on": "lever",
    "set-leading": "leading end",
    "join-leading": "leading end",
    "set-trailing": "trailing end",
    "join-trailing": "trailing end",
    "post-in": "seat clamp",
    "motor-close": "motor's cover",
    "leaks": "bleed ports",
    "pads-in": "pads' pin",
    "wheel-in": "axle",
    "cable-for-post": "cable's clamp",
    "cable-at-lever": "cable's clamp",
    "inner-cable": "cable's clamp",
    "clamp-cable": "cable's clamp",
    "align": "caliper",
    "bar-close": "grip",
}
"""The bolts that a step leaves tight for good."""

NAMES = {"leading end": ("nut", "joint"), "trailing end": ("nut", "joint")}
GO_WITH = {LineFamily.HYDRAULIC: ("leading end", "trailing end"), LineFamily.MECHANICAL: ("cable's clamp",)}
"""Bolts that are there only where a line of that family goes in."""


def left_loose(ids: Sequence[str], families: Sequence[LineFamily]) -> set[str]:
    """Bolts that no later step tightens again, of those that stay on the bicycle."""
    loose: set[str] = set()
    for id in ids:
        loose |= set(UNDOES.get(id, ()))
        loose.discard(TIGHTENS.get(id, ""))
    return loose - {bolt for family, bolts in GO_WITH.items() if family not in families for bolt in bolts}


def hold_rows(name: str, steps: Sequence[Step], record: HandOver, families: Sequence[LineFamily]) -> None:
    """A row for each step that tightens something for good, which names it, and no other."""
    assert left_loose([step.id for step in steps], families) == set(), name
    tightening = [step for step in steps if step.id in TIGHTENS]
    assert [row.bolts.partition(":")[0] for row in record.torques] == [f"Step {step.n}" for step in tightening], name
    for step, row in zip(tightening, record.torques, strict=True):
        bolt = TIGHTENS[step.id]
        assert any(word in row.bolts for word in NAMES.get(bolt, (bolt,))), (name, row.bolts)
