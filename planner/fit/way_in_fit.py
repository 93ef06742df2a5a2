"""May the new line be led in without a joint to the old one: by a leader, over a cable, by a liner?

All of it common practice, no source: a bare cable in the frame is the best guide there is; what is empty is fished.
"""

from collections.abc import Iterator
from dataclasses import replace

from planner.parts import (
    AnchorServes,
    Frame,
    FrameFeature,
    Job,
    JobEnd,
    LeaderLine,
    Line,
    LineFamily,
    LineKind,
    LinerTube,
    MagnetTip,
    MethodKind,
    OldLine,
    OverCable,
    SetBy,
    ShopLimits,
    is_lever_at_from,
)
from planner.rules.joint_rules import EITHER_END, EMPTY_ONLY, NO_HOUSING, STEEL_TUBE, TOO_THICK, TOO_THIN, JointRule
from planner.verdicts import Check, Outcome, State

HOUSINGS = (LineKind.BRAKE_HOUSING, LineKind.SHIFT_HOUSING)
EMPTY_FRAME_KINDS = (MethodKind.SUCTION_CORD, MethodKind.MAGNET_TIP)


def check_leader(*, leader: LeaderLine, old: Line | None, new: Line, limits: ShopLimits) -> Iterator[Check]:
    """Whether this leader can draw the new line in: the frame empty or a bare cable in it, and its thread bites.

    Rules "leader_use", "stud_squeeze", "joint_bore".
    """
    note = ""
    suits = old is None or old.kind is LineKind.INNER_CABLE
    if old is not None and leader.kind in EMPTY_FRAME_KINDS:
        suits, note = False, EMPTY_ONLY
    with_ids = (leader.id,) if old is None else (leader.id, old.id)
    yield _check(JointRule.LEADER_USE, Outcome.FITS if suits else Outcome.NO_FIT, with_ids, note=note)
    if leader.stud_diameter_mm is not None:
        yield check_stud_in_bore(
            stud_diameter_mm=leader.stud_diameter_mm, line=new, limits=limits, with_ids=(leader.id, new.id)
        )


def check_stud_in_bore(*, stud_diameter_mm: float, line: Line, limits: ShopLimits, with_ids: tuple[str, ...]) -> Check:
    """Whether a thread bites in a line's bore: thicker than it by what the shop allows.

    Rules "stud_squeeze", or "joint_bore" where there is no bore or nobody measured it. The clearance is the distance
    to the nearer limit of the squeeze.
    """
    if line.bore_diameter_mm is None:
        has_none = line.kind in (LineKind.INNER_CABLE, LineKind.ELECTRIC_WIRE)
        return _check(JointRule.JOINT_BORE, Outcome.NO_FIT if has_none else Outcome.UNKNOWN, (line.id,))
    squeeze_mm = stud_diameter_mm - line.bore_diameter_mm
    room_mm = min(squeeze_mm - limits.stud_squeeze_min_mm, limits.stud_squeeze_max_mm - squeeze_mm)
    check = _measured(JointRule.STUD_SQUEEZE, with_ids, squeeze_mm, line.bore_diameter_mm, room_mm)
    if check.outcome is Outcome.FITS:
        return check
    return replace(check, note=TOO_THIN if squeeze_mm < limits.stud_squeeze_min_mm else TOO_THICK)


def check_magnet(*, leader: LeaderLine, frame: Frame) -> Iterator[Check]:
    """Whether the magnet reaches the tip through the walls of the frame, as far as these were measured at the ports.

    Rule "magnet_wall"; nothing for a leader that is led otherwise.
    """
    if not isinstance(leader, MagnetTip):
        return
    if FrameFeature.STEEL in frame.features:
        yield _check(JointRule.MAGNET_WALL, Outcome.NO_FIT, (leader.id,), note=STEEL_TUBE)
        return
    thickest_mm = max((port.wall_thickness_mm for port in frame.ports.values()), default=0.0)
    if leader.wall_max_mm is None:
        yield _check(JointRule.MAGNET_WALL, Outcome.UNKNOWN, (leader.id,))
    else:
        room_mm = leader.wall_max_mm - thickest_mm
        yield _measured(JointRule.MAGNET_WALL, (leader.id,), thickest_mm, leader.wall_max_mm, room_mm)


def check_over_cable(*, method: OverCable, old: Line | None, new: Line, running_clearance_mm: float) -> Iterator[Check]:
    """Whether new housing slides over the cable that is there, bare or left when the old housing is drawn off it.

    Rules "cable_use" and "cable_in_bore".

    running_clearance_mm : wanted in the worst case, diametral
    """
    with_ids = (method.id, new.id)
    if new.kind not in HOUSINGS:
        yield _check(JointRule.CABLE_USE, Outcome.NO_FIT, with_ids, note=NO_HOUSING)
        return
    cable_mm = cable_in_frame_mm(old)
    if cable_mm is None:
        may_be_there = old is not None and old.kind.family is LineFamily.MECHANICAL
        yield _check(JointRule.CABLE_USE, Outcome.UNKNOWN if may_be_there else Outcome.NO_FIT, with_ids)
        return
    yield _check(JointRule.CABLE_USE, Outcome.FITS, with_ids)
    if new.bore_diameter_mm is None:
        yield _check(JointRule.CABLE_IN_BORE, Outcome.UNKNOWN, with_ids)
    else:
        wanted_mm = running_clearance_mm + _cable_tolerance_mm(old)
        yield _sliding(JointRule.CABLE_IN_BORE, with_ids, cable_mm, new.bore_diameter_mm, wanted_mm)


def check_cable_can_stay(*, job: Job, old: OldLine, feed_from: JobEnd) -> Iterator[Check]:
    """Whether the old housing comes off its cable, and whether the new one goes on at this end.

    The head of a brake's or gear's cable sits in the lever or shifter; that of a dropper's at either end.

    Rules "housing_off", of a cable that lies in its housing only, and "cable_head".

    feed_from : the end at which the new housing is put on the cable
    """
    if old.line.kind in HOUSINGS:
        moulded = [
            end.fitting.id
            for end in (old.from_end, old.to_end)
            if end.fitting is not None and end.fitting.set_by is SetBy.FACTORY
        ]
        yield _check(JointRule.HOUSING_OFF, Outcome.NO_FIT if moulded else Outcome.FITS, tuple(moulded))
    ends = (job.frame.anchors[anchor_id] for anchor_id in (job.from_anchor_id, job.to_anchor_id))
    if any(end.serves is AnchorServes.DROPPER for end in ends):
        yield _check(JointRule.CABLE_HEAD, Outcome.FITS, (old.line.id,), note=EITHER_END)
        return
    is_at_from = is_lever_at_from(frame=job.frame, from_anchor_id=job.from_anchor_id, to_anchor_id=job.to_anchor_id)
    is_head_here = is_at_from is (feed_from is JobEnd.FROM)
    yield _check(JointRule.CABLE_HEAD, Outcome.NO_FIT if is_head_here else Outcome.FITS, (old.line.id,))


def _cable_tolerance_mm(old: Line | None) -> float:
    """Of a bare cable; of one in its housing only the size is told."""
    return old.outer_tolerance_mm if old is not None and old.kind is LineKind.INNER_CABLE else 0.0


def cable_in_frame_mm(old: Line | None) -> float | None:
    """Diameter of the inner cable that lies in the frame, bare or in its housing; None where none is known."""
    if old is None:
        return None
    return old.outer_diameter_mm if old.kind is LineKind.INNER_CABLE else old.cable_diameter_mm


def check_liner(*, liner: LinerTube, old: Line | None, new: Line, running_clearance_mm: float) -> Iterator[Check]:
    """Whether a liner goes over the bare cable, and the new line through the liner or over it.

    Rules "cable_use", "cable_in_bore" and "liner_room".

    running_clearance_mm : wanted in the worst case, diametral
    """
    with_ids = (liner.id, new.id)
    if old is None or old.kind is not LineKind.INNER_CABLE:
        yield _check(JointRule.CABLE_USE, Outcome.NO_FIT, with_ids)
        return
    cable_mm, bore_mm = old.outer_diameter_mm, liner.bore_diameter_mm
    wanted_mm = running_clearance_mm + _cable_tolerance_mm(old)
    yield _sliding(JointRule.CABLE_IN_BORE, (liner.id, old.id), cable_mm, bore_mm, wanted_mm)
    may_go_over = new.bore_diameter_mm is None and new.kind not in (LineKind.INNER_CABLE, LineKind.ELECTRIC_WIRE)
    if may_go_over and bore_mm <= new.outer_diameter_mm:
        yield _check(JointRule.JOINT_BORE, Outcome.UNKNOWN, (new.id,))
    elif new.bore_diameter_mm is not None and new.bore_diameter_mm >= liner.outer_diameter_mm:
        outer_mm = liner.outer_diameter_mm
        yield _sliding(JointRule.LINER_ROOM, with_ids, outer_mm, new.bore_diameter_mm, running_clearance_mm)
    else:
        wanted_mm = running_clearance_mm + new.outer_tolerance_mm
        yield _sliding(JointRule.LINER_ROOM, with_ids, new.outer_diameter_mm, bore_mm, wanted_mm)


def _sliding(
    rule: JointRule, with_ids: tuple[str, ...], size_mm: float, available_mm: float, wanted_mm: float
) -> Check:
    """A thing that is to slide in a bore: what only just fills it does not."""
    room_mm = round(available_mm - size_mm, 9)
    check = _measured(rule, with_ids, size_mm, available_mm, room_mm)
    if room_mm >= round(wanted_mm, 9):
        return check
    return replace(check, outcome=Outcome.TIGHT if room_mm > 0 else Outcome.NO_FIT)


def _measured(
    rule: JointRule, with_ids: tuple[str, ...], size_mm: float, available_mm: float | None, room_mm: float
) -> Check:
    room_mm = round(room_mm, 9)  # 2.3 - 2.1 is 0.1999..., and a limit that is met exactly is met
    return Check(
        rule=rule,
        outcome=Outcome.FITS if room_mm >= 0 else Outcome.NO_FIT,
        state=State.DRAWING,
        with_ids=with_ids,
        size_mm=size_mm,
        available_mm=available_mm,
        clearance_mm=room_mm,
    )


def _check(rule: JointRule, outcome: Outcome, with_ids: tuple[str, ...], *, note: str = "") -> Check:
    return Check(rule=rule, outcome=outcome, state=State.DRAWING, with_ids=with_ids, note=note)
