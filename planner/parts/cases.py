"""A case: a frame with what lies in it, before anybody has said which brake goes on."""

from planner.parts.brakes import Brake, HubKind
from planner.parts.frames import Frame
from planner.parts.jobs import Job, NewLine, OldLine, StayingLine, ends_of_brake, is_lever_at_from
from planner.quick_dataclass import dataclass


@dataclass(frozen=True, slots=True, kw_only=True)
class Case:
    """Everything that a job says but the brake that goes on.

    id : what its rows are called in a table
    from_anchor_id, to_anchor_id : where the line starts and ends
    old : the line that comes out; None for an empty frame
    staying : lines that stay
    rotor_mm : rotor diameter wanted; None when not stated [mm]
    rotor_hub : how that rotor sits on its hub; None when not stated
    may_remove_inserts, keeps_old_brake : what is allowed
    """

    id: str
    frame: Frame
    from_anchor_id: str
    to_anchor_id: str
    old: OldLine | None
    staying: tuple[StayingLine, ...] = ()
    rotor_mm: float | None = None
    rotor_hub: HubKind | None = None
    may_remove_inserts: bool = True
    keeps_old_brake: bool = False


def job_of_pair(*, case: Case, brake: Brake) -> Job:
    """The job of putting a brake on, as a job file with both would tell it."""
    is_lever_first = is_lever_at_from(
        frame=case.frame, from_anchor_id=case.from_anchor_id, to_anchor_id=case.to_anchor_id
    )
    from_end, to_end = ends_of_brake(brake, is_lever_at_from=is_lever_first)
    return Job(
        id=case.id,
        title=case.id,
        frame=case.frame,
        from_anchor_id=case.from_anchor_id,
        to_anchor_id=case.to_anchor_id,
        old=case.old,
        new=NewLine(
            line=brake.line,
            from_end=from_end,
            to_end=to_end,
            brake=brake,
            supplied_length_mm=brake.supplied_length_mm,
        ),
        staying=case.staying,
        rotor_mm=case.rotor_mm,
        rotor_hub=case.rotor_hub,
        may_remove_inserts=case.may_remove_inserts,
        keeps_old_brake=case.keeps_old_brake,
    )


def case_of_job(job: Job) -> Case:
    """Everything that a job says but what goes on."""
    return Case(
        id=job.id,
        frame=job.frame,
        from_anchor_id=job.from_anchor_id,
        to_anchor_id=job.to_anchor_id,
        old=job.old,
        staying=job.staying,
        rotor_mm=job.rotor_mm,
        rotor_hub=job.rotor_hub,
        may_remove_inserts=job.may_remove_inserts,
        keeps_old_brake=job.keeps_old_brake,
    )
