"""Levers and calipers told where none can sit, or with a line that points away from where it goes."""

from collections.abc import Iterator
from math import dist

from planner.geometry.motion.frame_axes import unit_vector
from planner.geometry.vectors import from_to
from planner.parts import Anchor, AnchorPart, AnchorServes, Frame, MovesWith, Point, SlipLimits
from planner.plan.slips.likely import likely_heading, likely_place
from planner.routing.leg_poses import told_length_mm
from planner.rules import SlipRule
from planner.verdicts import Check, Outcome

_FOR_THE_HAND = (AnchorPart.LEVER, AnchorPart.SHIFTER)


def anchor_slips(frame: Frame, limits: SlipLimits) -> Iterator[Check]:
    """What is unlikely of every anchor of a frame.

    Common practice, no source.
    """
    for anchor in frame.anchors.values():
        if anchor.position_mm is None or anchor.heading is None:
            continue
        yield from _drawn_caliper(anchor, frame, limits)
        yield from _backwards(anchor, anchor.position_mm, anchor.heading, frame, limits)
        if is_for_the_hand(anchor, frame):
            yield from _lever_place(anchor, anchor.position_mm, frame, limits)
        elif anchor.moves_with is not MovesWith.BAR and _is_at_the_wheel(anchor):
            yield from _caliper_place(anchor, anchor.position_mm, frame, limits)


def _drawn_caliper(anchor: Anchor, frame: Frame, limits: SlipLimits) -> Iterator[Check]:
    """A place that is a guess, unless every run from it has a length of its own."""
    lengths = [told_length_mm(run) for run in frame.runs.values() if anchor.id in run.between]
    if anchor.is_drawn and None in lengths:
        yield Check(
            rule=SlipRule.DRAWN_CALIPER,
            outcome=Outcome.UNKNOWN,
            port_id=anchor.id,
            available_mm=limits.drawn_caliper_mm,
            note="measure the last stretch along the line",
        )


def is_for_the_hand(anchor: Anchor, frame: Frame) -> bool:
    """Whether a lever or shifter sits at an anchor: told so, or riding on the bar and not ahead of and below it."""
    if anchor.part is not None or anchor.moves_with is not MovesWith.BAR or anchor.position_mm is None:
        return anchor.part in _FOR_THE_HAND
    if frame.bar is None:
        return False
    x, _, z = frame.bar.axis_point_mm
    return anchor.position_mm[0] <= x + z / 4 or anchor.position_mm[2] >= z / 2


def _is_at_the_wheel(anchor: Anchor) -> bool:
    """Whether a caliper or a derailleur sits there, or a part that nobody told: a post or a battery sits elsewhere."""
    if anchor.part is None:
        return anchor.serves in (None, AnchorServes.BRAKE, AnchorServes.GEARS)
    return anchor.part in (AnchorPart.CALIPER, AnchorPart.DERAILLEUR)


def _backwards(anchor: Anchor, place_mm: Point, heading: Point, frame: Frame, limits: SlipLimits) -> Iterator[Check]:
    for run in frame.runs.values():
        far_id = run.between[1] if run.between[0] == anchor.id else run.between[0]
        far = frame.ports.get(far_id) or frame.anchors.get(far_id)
        if anchor.id not in run.between or far is None or far.position_mm is None:
            continue
        led_past = (*run.via_mm, *run.clips_mm)
        ordered = led_past if run.between[0] == anchor.id else led_past[::-1]
        towards_mm = ordered[0] if ordered else far.position_mm
        if dist(towards_mm, place_mm) == 0:
            continue
        way = unit_vector(from_to(place_mm, towards_mm))
        likely = likely_heading(heading, way=way, least_ratio=-limits.anchor_backwards_ratio, also="")
        if likely:
            yield _asked(SlipRule.ANCHOR_BACKWARDS, anchor.id, likely, beside=far.label or far.id)


def _lever_place(anchor: Anchor, place_mm: Point, frame: Frame, limits: SlipLimits) -> Iterator[Check]:
    bar = frame.bar

    def unlikely(at_mm: Point) -> str:
        if not limits.lever_aside_least_mm < abs(at_mm[1]) < limits.lever_aside_most_mm:
            return f"{abs(at_mm[1]):.0f} mm from the middle"
        if bar is not None and dist(at_mm, bar.axis_point_mm) > limits.lever_from_axis_mm:
            return f"{dist(at_mm, bar.axis_point_mm):.0f} mm from the steering axis' point"
        if bar is not None and bar.axis_point_mm[2] - at_mm[2] > limits.lever_below_axis_mm:
            return f"{bar.axis_point_mm[2] - at_mm[2]:.0f} mm below the steering axis' point"
        return ""

    why = unlikely(place_mm)
    if why:
        note = likely_place(place_mm, lambda at_mm: not unlikely(at_mm))
        yield _asked(SlipRule.LEVER_PLACE, anchor.id, note, beside=why)


def _caliper_place(anchor: Anchor, place_mm: Point, frame: Frame, limits: SlipLimits) -> Iterator[Check]:
    ends_mm = _stay_ends_mm(frame)
    if not ends_mm:
        return

    def away_mm(at_mm: Point) -> float:
        return min(dist(at_mm, end_mm) for end_mm in ends_mm)

    limit_mm = limits.caliper_from_stay_mm
    if away_mm(place_mm) > limit_mm:
        yield Check(
            rule=SlipRule.CALIPER_PLACE,
            outcome=Outcome.UNKNOWN,
            port_id=anchor.id,
            size_mm=away_mm(place_mm),
            available_mm=limit_mm,
            note=likely_place(place_mm, lambda at_mm: away_mm(at_mm) <= limit_mm),
        )


def _stay_ends_mm(frame: Frame) -> list[Point]:
    """Rear ends of the tubes that reach behind the seat tube: more than half as far back as the furthest."""
    ends_mm = [
        end_mm for zone in frame.zones.values() if zone.path_mm for end_mm in (zone.path_mm[0], zone.path_mm[-1])
    ]
    furthest_mm = min((end_mm[0] for end_mm in ends_mm), default=0.0)
    forward_mm = max((end_mm[0] for end_mm in ends_mm), default=0.0)
    has_stays = -furthest_mm > forward_mm / 2
    return [end_mm for end_mm in ends_mm if has_stays and end_mm[0] < furthest_mm / 2]


def _asked(rule: SlipRule, anchor_id: str, note: str, *, beside: str) -> Check:
    return Check(rule=rule, outcome=Outcome.UNKNOWN, port_id=anchor_id, with_ids=(beside,), note=note)
