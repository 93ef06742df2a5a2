"""Which hand works which brake: a question to settle with the owner, never an assertion."""

from planner.fit.brake_end import find_brake_end
from planner.parts import Anchor, Job, RiderSide, is_lever_at_from
from planner.rules import BrakeRule
from planner.verdicts import Check, Outcome


def ask_lever_side(*, job: Job) -> Check | None:
    """The question which hand is to work this brake.

    Custom and law differ by country and rider: right hand to the front brake in some, to the rear in others. The
    planner only says what the job as written would give.

    Returns rule "lever_side", always UNKNOWN, with note such as "right_hand_rear_brake", or "side_not_told" where
    nobody told the lever's side and it has no place, or sits in the middle of the bar. None for a line that is no
    brake's, and where the end is not known.

    Source: ISO 4210-2, 4.6.2.1: the lever's side follows the law or custom of the country of sale.
    """
    end = find_brake_end(job=job)
    if job.new.brake is None or end is None:
        return None
    is_at_from = is_lever_at_from(frame=job.frame, from_anchor_id=job.from_anchor_id, to_anchor_id=job.to_anchor_id)
    lever_id = job.from_anchor_id if is_at_from else job.to_anchor_id
    hand = _side_of(job.frame.anchors[lever_id])
    note = "side_not_told" if hand is None else f"{hand}_hand_{end}_brake"
    return Check(rule=BrakeRule.LEVER_SIDE, outcome=Outcome.UNKNOWN, note=note)


def _side_of(anchor: Anchor) -> RiderSide | None:
    """As told, else as it lies."""
    if anchor.side is not None or anchor.position_mm is None or anchor.position_mm[1] == 0:
        return anchor.side
    return RiderSide.LEFT if anchor.position_mm[1] > 0 else RiderSide.RIGHT
