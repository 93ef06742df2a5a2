"""Do the parts of a job belong together, wherever the line runs?"""

from collections.abc import Iterable, Sequence

from planner.fit.brake_end import ask_brake_end, check_brake_end, find_brake_end
from planner.fit.clamp_fit import check_lever_clamp
from planner.fit.conversion_fit import Conversion, check_conversion, find_conversion, find_open_ports
from planner.fit.fluid_fit import check_fluid_of_job
from planner.fit.hose_end_fit import check_line_end
from planner.fit.hub_fit import check_hub
from planner.fit.lever_side import ask_lever_side
from planner.fit.line_kind_fit import check_line_kind
from planner.fit.mount_fit import MountFit, check_mount
from planner.fit.rotor_fit import check_rotor_in_caliper, check_rotor_in_frame
from planner.fit.thread_fit import check_threads
from planner.parts import FLUID_FACTS, Adapter, Brake, BrakeMount, FrameEnd, Job, LineEnd, LineKind, ShopLimits
from planner.quick_dataclass import dataclass
from planner.verdicts import Check, Outcome, worst_of


@dataclass(frozen=True, slots=True, kw_only=True)
class CompatibilityResult:
    """Whether the parts of a job belong together.

    checks : every question asked of the parts, passed ones too
    way_checks : ports of the old line's way, by the kind of line they take; the route search has the last word there
    questions : what only the owner can settle; always UNKNOWN, and no part of the outcome
    adapter : the adapter to use; None where none is needed or none was found
    part_ids : ids of the parts the adapter brings with it, itself first
    needs : keys of what the job needs beside the parts named: fluid and bleed kit by class, plugs
    conversion : what changes with the family of the line; None where nothing does
    """

    checks: tuple[Check, ...]
    way_checks: tuple[Check, ...]
    questions: tuple[Check, ...]
    adapter: Adapter | None
    part_ids: tuple[str, ...]
    needs: tuple[str, ...]
    conversion: Conversion | None

    @property
    def outcome(self) -> Outcome:
        """The worst of the checks of the parts; FITS where there was nothing to ask, as of a bare wire."""
        return worst_of(self.checks, of_nothing=Outcome.FITS)


def check_compatibility(
    *,
    job: Job,
    limits: ShopLimits,
    adapters: Sequence[Adapter] = (),
    route: tuple[str, ...] | None = None,
) -> CompatibilityResult:
    """Whether the parts of a job belong together: brake to frame, wheel and bar, fluid to hose, line to its ends.

    A line without a brake, such as gear housing or the line of a dropper post, is asked about its ends and its way
    only.

    Returns whatever was not measured is UNKNOWN.

    route : ids of the ports of the new line's way; None before it is known
    limits : how far sizes may differ; where the shop has not said, sizes that differ are UNKNOWN
    """
    adapter: Adapter | None = None
    checks: list[Check] = []
    if job.new.brake is not None:
        mount = _check_mount(job, job.new.brake, adapters, limits)
        on_frame = _check_brake(job, job.new.brake, limits)
        checks += [*mount.checks, *on_frame]
        adapter = None if any(check.outcome is Outcome.NO_FIT for check in on_frame) else mount.adapter
    checks += _check_ends(job, limits)
    conversion = find_conversion(job=job, route=route)
    asked_once = (check_fluid_of_job(old=job.old, new=job.new), check_conversion(job=job, conversion=conversion))
    checks += [check for check in asked_once if check is not None]
    questions = (ask_brake_end(job=job), ask_lever_side(job=job))
    return CompatibilityResult(
        checks=tuple(checks),
        way_checks=_check_old_way(job),
        questions=tuple(question for question in questions if question is not None),
        adapter=adapter,
        part_ids=() if adapter is None else (adapter.id, *adapter.uses),
        needs=_needs(job, route),
        conversion=conversion,
    )


def _check_mount(job: Job, brake: Brake, adapters: Iterable[Adapter], limits: ShopLimits) -> MountFit:
    end = find_brake_end(job=job)
    return check_mount(
        frame_mount=_mount_at(job, end),
        end=end,
        brake=brake,
        rotor_mm=job.rotor_mm,
        adapters=adapters,
        limits=limits,
    )


def _mount_at(job: Job, end: FrameEnd | None) -> BrakeMount | None:
    return None if end is None else job.frame.brakes.get(end)


def _check_brake(job: Job, brake: Brake, limits: ShopLimits) -> list[Check]:
    end = find_brake_end(job=job)
    frame_mount = _mount_at(job, end)
    is_known = end is not None  # what is not known of an end nobody named is asked once, of its mount
    checks = (
        check_brake_end(job=job),
        check_rotor_in_frame(rotor_mm=job.rotor_mm, frame_mount=frame_mount) if is_known else None,
        check_rotor_in_caliper(rotor_mm=job.rotor_mm, brake=brake),
        check_hub(hub=None if frame_mount is None else frame_mount.hub, rotor=job.rotor_hub) if is_known else None,
        check_lever_clamp(
            clamp_mm=brake.lever_clamp_mm, bar_mm=job.frame.bar_clamp_mm, clamp_tolerance_mm=limits.match_clamp_mm
        ),
    )
    return [check for check in checks if check is not None]


def _check_ends(job: Job, limits: ShopLimits) -> list[Check]:
    ends: list[tuple[LineEnd, LineEnd | None]] = [(job.new.from_end, None), (job.new.to_end, None)]
    if job.new.brake is None and job.old is not None and job.old.brake is not None:  # the brake stays, with its threads
        ends = [(job.new.from_end, job.old.from_end), (job.new.to_end, job.old.to_end)]
    checks: list[Check] = []
    for end, before in ends:
        checks += check_line_end(line=job.new.line, end=end, bore_tolerance_mm=limits.match_bore_mm)
        checks += _check_thread(end, before)
    return checks


def _check_thread(end: LineEnd, before: LineEnd | None) -> list[Check]:
    if before is None or before.fitting is None or end.fitting is None:
        return []
    if not end.fitting.thread and not before.fitting.thread:
        return []
    return [check_threads(nut=end.fitting.thread, body=before.fitting.thread)]


def _check_old_way(job: Job) -> tuple[Check, ...]:
    if job.old is None:
        return ()
    ports = [job.frame.ports[place] for place in job.old.through if place in job.frame.ports]
    return check_line_kind(line=job.new.line, ports=ports)


def _needs(job: Job, route: tuple[str, ...] | None) -> tuple[str, ...]:
    needs: list[str] = []
    brake = job.new.brake
    if brake is None and job.old is not None:
        brake = job.old.brake
    if job.new.line.kind is LineKind.HYDRAULIC_HOSE and brake is not None and brake.fluid is not None:
        needs += [f"fluid:{brake.fluid}", f"bleed_kit:{FLUID_FACTS[brake.fluid].fluid_class}"]
    needs += [f"plug:{port_id}" for port_id in find_open_ports(job=job, route=route) or ()]
    return tuple(needs)
