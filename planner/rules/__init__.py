"""Every rule of the planner, one row each, by topic."""

from collections.abc import Iterator

from planner.rules.brake_rules import BrakeRule
from planner.rules.joint_rules import JointRule
from planner.rules.length_rules import LengthRule
from planner.rules.old_line_rules import OldLineRule
from planner.rules.part_rules import PartRule
from planner.rules.place_rules import (
    CAVITY_NOT_MEASURED,
    GAUGED,
    HOLE_NOT_MEASURED,
    IN_LINE,
    LOOKS_NOT_TOLD,
    PLAN_WORK_RAN_OUT,
    SIDE_BY_SIDE,
    SPREAD,
    WORK_RAN_OUT,
    PlaceRule,
)
from planner.rules.row import AT_BOTH_MOMENTS, About, Measure, Suits
from planner.rules.slip_rules import SlipRule

Rule = PlaceRule | JointRule | LengthRule | OldLineRule | BrakeRule | PartRule | SlipRule

__all__ = [
    "AT_BOTH_MOMENTS",
    "CAVITY_NOT_MEASURED",
    "GAUGED",
    "HOLE_NOT_MEASURED",
    "IN_LINE",
    "LOOKS_NOT_TOLD",
    "PLAN_WORK_RAN_OUT",
    "SIDE_BY_SIDE",
    "SPREAD",
    "WORK_RAN_OUT",
    "About",
    "BrakeRule",
    "JointRule",
    "LengthRule",
    "Measure",
    "OldLineRule",
    "PartRule",
    "PlaceRule",
    "Rule",
    "SlipRule",
    "Suits",
    "every_rule",
]


def every_rule() -> Iterator[Rule]:
    """All rules, topic by topic."""
    yield from PlaceRule
    yield from JointRule
    yield from LengthRule
    yield from OldLineRule
    yield from BrakeRule
    yield from PartRule
    yield from SlipRule
