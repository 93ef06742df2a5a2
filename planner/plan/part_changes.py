"""Changes that could make parts belong together: rotor, adapter, brake, fitting, length of the supplied line."""

from collections.abc import Iterable, Iterator
from dataclasses import replace
from itertools import islice

from planner.fit.brake_end import find_brake_end
from planner.fit.compatibility import check_compatibility
from planner.parts import (
    Adapter,
    AdapterKind,
    Brake,
    BrakeMount,
    Fitting,
    FrameEnd,
    Job,
    JobEnd,
    Line,
    LineEnd,
    MountKind,
    NewLine,
    SetBy,
    adapter_lift_mm,
    is_lever_at_from,
)
from planner.plan.change import Change, Stuck, faults_of, passes_so
from planner.plan.way_out import WayOut, WayOutKind
from planner.rules import BrakeRule, LengthRule, PartRule
from planner.verdicts import Outcome, worst_of

MOST_TRIED = 3
"""Of one sort that are planned with, of those that pass the cheaper questions."""

ADAPTER_KINDS = {
    MountKind.POST: AdapterKind.POST_STEP,
    MountKind.IS_TABS: AdapterKind.TABS,
    MountKind.FLAT: AdapterKind.FLAT_PLATE,
}
ROTOR_RULES = {BrakeRule.MOUNT, BrakeRule.ROTOR_SIZE, BrakeRule.CALIPER_ROTOR}
FITTING_RULES = {PartRule.HOSE_END_OUTER, PartRule.HOSE_END_BORE, PartRule.THREAD}
NO_ADAPTER_NOTES = {"no_adapter", "no_bracket", "no_plate"}


def part_changes(stuck: Stuck) -> Iterator[Change]:
    """What may make the parts of a job belong together, nearest at hand first; still to be tried by planning again."""
    faults = faults_of(stuck.no)
    if faults.keys() & ROTOR_RULES:
        yield from _other_rotors(stuck)
        yield from _needed_adapter(stuck)
    if BrakeRule.HUB in faults:
        yield from _other_rotor_seat(stuck)
    if LengthRule.SUPPLIED_LENGTH in faults:
        yield from _longer_line(stuck)
    if faults.keys() & FITTING_RULES:
        yield from _other_fittings(stuck)
    if PartRule.CONVERSION in faults or stuck.job.new.brake is not None:
        yield from _other_brakes(stuck)
    if BrakeRule.MOUNT in faults:
        yield from _other_mount(stuck)


def _mount_of(job: Job) -> tuple[FrameEnd, BrakeMount] | None:
    end = find_brake_end(job=job)
    mount = None if end is None else job.frame.brakes.get(end)
    return None if end is None or mount is None else (end, mount)


def _base_mm(stuck: Stuck, end: FrameEnd, mount: BrakeMount) -> float | None:
    """The rotor that the mount, or the lowest bracket on tabs, stands for."""
    limits = stuck.workshop.limits
    if mount.mount is not MountKind.IS_TABS:
        return mount.rotor_native_mm
    return limits.tab_base_front_mm if end is FrameEnd.FRONT else limits.tab_base_rear_mm


def _other_rotors(stuck: Stuck) -> Iterator[Change]:
    """Rotors that the mount takes straight or by an adapter of the catalog, the nearest in size first."""
    job, placed = stuck.job, _mount_of(stuck.job)
    base_mm = None if placed is None else _base_mm(stuck, *placed)
    if placed is None or base_mm is None or job.rotor_mm is None:
        return
    wanted_mm = job.rotor_mm
    steps = {adapter.step_mm for adapter in stuck.workshop.adapters if adapter.frame_mount is placed[1].mount}
    sizes = {base_mm, *(base_mm + step_mm for step_mm in steps if step_mm is not None)} - {wanted_mm}
    answers = {size_mm: _rotor_answer(stuck, replace(job, rotor_mm=size_mm)) for size_mm in sizes}
    serving = [size_mm for size_mm in sizes if answers[size_mm] < Outcome.NO_FIT]
    nearest = sorted(serving, key=lambda size_mm: (answers[size_mm], abs(size_mm - wanted_mm), size_mm))
    for size_mm in nearest[:MOST_TRIED]:
        way = WayOut(kind=WayOutKind.OTHER_ROTOR, size_mm=size_mm)
        yield Change(ways=(way,), job=replace(job, rotor_mm=size_mm), workshop=stuck.workshop)


def _rotor_answer(stuck: Stuck, job: Job) -> Outcome:
    """Whether mount, frame and caliper take a rotor; UNKNOWN for one to be asked about."""
    found = check_compatibility(job=job, adapters=stuck.workshop.adapters, limits=stuck.workshop.limits)
    return worst_of((check for check in found.checks if check.rule in ROTOR_RULES), of_nothing=Outcome.FITS)


def _needed_adapter(stuck: Stuck) -> Iterator[Change]:
    """The adapter that would join the two mounts for this rotor, where the catalog has none."""
    job, placed, brake = stuck.job, _mount_of(stuck.job), stuck.job.new.brake
    mount_fault = faults_of(stuck.no).get(BrakeRule.MOUNT)
    base_mm = None if placed is None else _base_mm(stuck, *placed)
    is_missing = mount_fault is not None and mount_fault.note in NO_ADAPTER_NOTES
    if not is_missing or placed is None or base_mm is None or brake is None or job.rotor_mm is None:
        return
    end, mount = placed
    step_mm = job.rotor_mm - base_mm
    if step_mm < 0 or brake.caliper_mount is None:
        return
    adapter = Adapter(
        id="adapter_needed",
        name="Adapter",
        kind=ADAPTER_KINDS[mount.mount],
        frame_mount=mount.mount,
        caliper_mount=brake.caliper_mount,
        end=None if mount.mount is MountKind.POST else end,
        step_mm=step_mm,
        lift_mm=adapter_lift_mm(step_mm=step_mm),
    )
    way = WayOut(kind=WayOutKind.ADAPTER, size_mm=step_mm, name=mount.mount.value)
    shop = replace(stuck.workshop, adapters=(*stuck.workshop.adapters, adapter))
    yield Change(ways=(way,), job=job, workshop=shop)


def _other_rotor_seat(stuck: Stuck) -> Iterator[Change]:
    placed = _mount_of(stuck.job)
    if placed is not None and placed[1].hub is not None:
        way = WayOut(kind=WayOutKind.OTHER_ROTOR_SEAT, name=placed[1].hub.value)
        yield Change(ways=(way,), job=replace(stuck.job, rotor_hub=placed[1].hub), workshop=stuck.workshop)


def _longer_line(stuck: Stuck) -> Iterator[Change]:
    lengths = stuck.no.lengths
    if lengths is None or lengths.cut_mm is None or lengths.spare_mm is None:
        return
    new = replace(stuck.job.new, supplied_length_mm=lengths.cut_mm)
    way = WayOut(kind=WayOutKind.LONGER_LINE, size_mm=lengths.cut_mm, missing_mm=-lengths.spare_mm)
    yield Change(ways=(way,), job=replace(stuck.job, new=new), workshop=stuck.workshop)


def _other_fittings(stuck: Stuck) -> Iterator[Change]:
    """A fitting of the catalog that suits line and thread, at each end where the one named does not."""
    job = stuck.job
    if job.new.brake is not None:
        return
    ways: list[WayOut] = []
    for end in JobEnd:
        now = stuck.job.new.end_at(end)
        if now.fitting is None or not _fitting_faults(stuck, _alone(stuck.job, end, now)):
            continue
        serving = (
            fitting
            for fitting in stuck.workshop.fittings.values()
            if fitting.style is now.fitting.style
            and not _fitting_faults(stuck, _alone(stuck.job, end, LineEnd(fitting=fitting)))
        )
        way, fitting = _named_or_made(next(serving, None), now.fitting, job.new.line, end)
        ways.append(way)
        job = _with_fitting(job, end, fitting)
    if ways:
        yield Change(ways=tuple(ways), job=job, workshop=stuck.workshop)


def _named_or_made(found: Fitting | None, now: Fitting, line: Line, end: JobEnd) -> tuple[WayOut, Fitting]:
    """The catalog's fitting; where it has none, one like that named but made for this line."""
    if found is not None:
        return WayOut(kind=WayOutKind.OTHER_FITTING, end=end, with_id=found.id, name=found.name), found
    made = replace(
        now,
        line_outer_diameter_mm=line.outer_diameter_mm,
        line_bore_diameter_mm=line.bore_diameter_mm,
        set_by=SetBy.WORKSHOP,
    )
    return WayOut(kind=WayOutKind.FITTING_MADE, end=end, size_mm=line.outer_diameter_mm), made


def _with_fitting(job: Job, end: JobEnd, fitting: Fitting) -> Job:
    """With this fitting at this end, to be set by the workshop."""
    at_end = LineEnd(fitting=fitting)
    new = replace(job.new, from_end=at_end) if end is JobEnd.FROM else replace(job.new, to_end=at_end)
    return replace(job, new=new)


def _alone(job: Job, end: JobEnd, at_end: LineEnd) -> Job:
    """With nothing at the other end."""
    bare = LineEnd()
    new = (
        replace(job.new, from_end=at_end, to_end=bare)
        if end is JobEnd.FROM
        else replace(job.new, from_end=bare, to_end=at_end)
    )
    return replace(job, new=new)


def _fitting_faults(stuck: Stuck, job: Job) -> bool:
    found = check_compatibility(job=job, adapters=stuck.workshop.adapters, limits=stuck.workshop.limits)
    return any(check.rule in FITTING_RULES and check.outcome is Outcome.NO_FIT for check in found.checks)


def _other_brakes(stuck: Stuck) -> Iterator[Change]:
    """Brakes of the catalog whose parts belong to this frame, those most like the one named first."""
    job = stuck.job
    brakes = _brakes_by_likeness(job, stuck.workshop.brakes.values())
    belonging = [other for other in (_with_brake(job, brake) for brake in brakes) if _belongs(stuck, other)]
    passing = list(islice((other for other in belonging if passes_so(stuck, other)), MOST_TRIED))
    for other in passing or belonging[:MOST_TRIED]:
        assert other.new.brake is not None
        way = WayOut(kind=WayOutKind.OTHER_BRAKE, with_id=other.new.brake.id, name=other.new.brake.name)
        yield Change(ways=(way,), job=other, workshop=stuck.workshop)


def _brakes_by_likeness(job: Job, brakes: Iterable[Brake]) -> list[Brake]:
    now = job.new.brake
    others = [brake for brake in brakes if now is None or brake.id != now.id]
    kind = job.new.line.kind

    def unlikeness(brake: Brake) -> tuple[bool, bool, bool]:
        is_other_end = now is not None and now.made_for is not None and brake.made_for is not now.made_for
        return (brake.line.kind is not kind, now is not None and brake.fluid is not now.fluid, is_other_end)

    return sorted(others, key=unlikeness)


def _belongs(stuck: Stuck, job: Job) -> bool:
    found = check_compatibility(job=job, adapters=stuck.workshop.adapters, limits=stuck.workshop.limits)
    return found.outcome is not Outcome.NO_FIT


def _with_brake(job: Job, brake: Brake) -> Job:
    """The same job with another brake as it is supplied."""
    ends = (brake.lever_end, brake.caliper_end)
    if not is_lever_at_from(frame=job.frame, from_anchor_id=job.from_anchor_id, to_anchor_id=job.to_anchor_id):
        ends = (brake.caliper_end, brake.lever_end)
    new = NewLine(
        line=brake.line,
        from_end=ends[0],
        to_end=ends[1],
        brake=brake,
        supplied_length_mm=brake.supplied_length_mm,
    )
    return replace(job, new=new)


def _other_mount(stuck: Stuck) -> Iterator[Change]:
    """A caliper for the frame's own mount, where the catalog has no such brake."""
    placed, brake = _mount_of(stuck.job), stuck.job.new.brake
    if placed is None or brake is None or brake.caliper_mount is placed[1].mount:
        return
    other = replace(brake, caliper_mount=placed[1].mount)
    way = WayOut(kind=WayOutKind.OTHER_MOUNT, name=placed[1].mount.value)
    job = replace(stuck.job, new=replace(stuck.job.new, brake=other))
    yield Change(ways=(way,), job=job, workshop=stuck.workshop)
