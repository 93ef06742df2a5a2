"""How a line may be drawn in: every method from either end, made up once for all frames that have the same in them."""

from collections.abc import Hashable
from dataclasses import dataclass

from planner.parts import (
    AnchorServes,
    Case,
    FrameFeature,
    Job,
    JobEnd,
    LineKind,
    Method,
    Workshop,
    is_lever_at_from,
)
from planner.plan.cut_length import bitten_mm
from planner.plan.joint_drag import find_hold_n
from planner.plan.options import looseness_mm
from planner.routing.closest_miss import failing_checks
from planner.routing.made import Made, make_all
from planner.routing.passage import Mover
from planner.table.looks import end_look, line_look
from planner.table.pieces import Piece, piece_of
from planner.verdicts import Check, Outcome, worst_of


@dataclass(frozen=True, slots=True, kw_only=True)
class Manner:
    """One method from one end, with what it needs no frame for.

    number : its place among all of them
    undoes_leading : whether a fitting is taken off the leading end first
    general_checks : whether the joint can be made and the ends led so
    outcome : of these
    refusing : the worst of these that is a no or not proven; None where there is none
    mover : what moves; None where the joint cannot be made
    joint, fitting : that by its sizes; None where there is none
    looseness_mm : how badly a rod suits its bores
    holds_n : pull that the joint holds; None when nobody knows
    bitten_mm : cut off the new line afterwards
    """

    number: int
    method: Method
    feed_from: JobEnd
    undoes_leading: bool
    general_checks: tuple[Check, ...]
    outcome: Outcome
    refusing: Check | None
    mover: Mover | None
    joint: Piece | None
    fitting: Piece | None
    looseness_mm: float
    holds_n: float | None
    bitten_mm: float


def find_manners(job: Job, workshop: Workshop) -> tuple[Manner, ...]:
    """Every method from either end, in catalog order."""
    return tuple(
        _manner(number, made.led.job, made, workshop)
        for number, made in enumerate(make_all(job=job, methods=workshop.methods, limits=workshop.limits))
    )


def _manner(number: int, job: Job, made: Made, workshop: Workshop) -> Manner:
    failing = failing_checks(made.general_checks)
    mover = made.mover
    limits, method, feed_from = workshop.limits, made.method, made.feed_from
    leading = None if mover is None else mover.leading_fitting
    return Manner(
        number=number,
        method=method,
        feed_from=feed_from,
        undoes_leading=made.led.undoes_leading,
        general_checks=made.general_checks,
        outcome=worst_of(made.general_checks, of_nothing=Outcome.FITS),
        refusing=max(failing, key=lambda check: check.outcome, default=None),
        mover=mover,
        joint=None if mover is None else piece_of(mover.joint),
        fitting=None if leading is None else piece_of(leading),
        looseness_mm=looseness_mm(made.general_checks),
        holds_n=None if mover is None else find_hold_n(job=job, method=method, feed_from=feed_from, limits=limits),
        bitten_mm=bitten_mm(job=job, method=method, feed_from=feed_from, limits=limits),
    )


def what_lies_in(case: Case) -> Hashable:
    """All of a case that methods hang on, whatever the frame: by it manners are remembered."""
    frame, old = case.frame, case.old
    ends = [frame.anchors[anchor_id] for anchor_id in (case.from_anchor_id, case.to_anchor_id)]
    is_thin = old is None or old.line.kind is LineKind.INNER_CABLE
    walls_mm = (port.wall_thickness_mm for port in frame.ports.values())
    return (
        None if old is None else (line_look(old.line), end_look(old.from_end), end_look(old.to_end)),
        None if old is None else (old.brake is None, None if old.brake is None else old.brake.fluid),
        case.keeps_old_brake,
        any(end.serves is AnchorServes.DROPPER for end in ends),
        is_lever_at_from(frame=frame, from_anchor_id=case.from_anchor_id, to_anchor_id=case.to_anchor_id),
        FrameFeature.STEEL in frame.features,
        max(walls_mm, default=0.0) if is_thin else None,  # what a magnet has to reach through
    )
