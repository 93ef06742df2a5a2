"""One job of every kind, on one invented frame whose features are switched on and off."""

from collections.abc import Iterator
from dataclasses import replace
from itertools import product
from typing import Any

from planner.parts import (
    OUTSIDE,
    AnchorServes,
    Brake,
    BrakeMount,
    Fitting,
    FittingStyle,
    Fluid,
    Frame,
    FrameFeature,
    Insert,
    Job,
    LeaderLine,
    Line,
    LineEnd,
    LineKind,
    LinerTube,
    MagnetTip,
    Method,
    MountKind,
    MovesWith,
    NewLine,
    OldLine,
    OverCable,
    PortPlace,
    RoundOpening,
    SetBy,
    StayingLine,
    SuctionCord,
)
from tests.builders import (
    make_coupler,
    make_frame,
    make_job,
    make_lane_frame,
    make_line,
    make_run,
    make_sleeve,
    make_spoke,
)

FLUIDS = (Fluid.GLYCOL_DOT4, Fluid.SILICONE_DOT5, Fluid.MINERAL_OIL)
LEADER = LeaderLine(
    id="cord",
    name="Cord",
    outer_diameter_mm=1.5,
    joint_diameter_mm=5.4,
    joint_length_mm=0.0,
    holds_n=40.0,
    setup_min=5.0,
)
SUCTION = SuctionCord(
    id="suction",
    name="Thread",
    outer_diameter_mm=1.0,
    joint_diameter_mm=5.4,
    joint_length_mm=0,
    holds_n=25,
    setup_min=9,
)
MAGNET = MagnetTip(
    id="magnet",
    name="Tip",
    outer_diameter_mm=3.0,
    joint_diameter_mm=5.4,
    joint_length_mm=0,
    holds_n=25,
    setup_min=9,
    wall_max_mm=4.0,
)
OVER = OverCable(id="over", name="Over the cable", setup_min=2.0)
LINER = LinerTube(id="liner", name="Liner", bore_diameter_mm=1.8, outer_diameter_mm=2.05, holds_n=5, setup_min=6)
METHODS: tuple[Method, ...] = (make_coupler(), make_sleeve(), make_spoke(), LEADER, SUCTION, MAGNET, OVER, LINER)

HOSE = make_line(id="hose")
BRAKE_HOUSING = make_line(id="brake-housing", kind=LineKind.BRAKE_HOUSING)
GEAR_HOUSING = make_line(id="gear-housing", kind=LineKind.SHIFT_HOUSING, cable_diameter_mm=1.2)
CABLE = make_line(id="cable", kind=LineKind.INNER_CABLE, outer_diameter_mm=1.6, bore_diameter_mm=None)
WIRE = make_line(id="wire", kind=LineKind.ELECTRIC_WIRE, outer_diameter_mm=4.8, bore_diameter_mm=None)


def bare_end(line: Line) -> LineEnd:
    """An end whose fitting the workshop sets; a wire's end has none to set."""
    if line.kind is LineKind.ELECTRIC_WIRE:
        return LineEnd()
    nut = Fitting(
        id="nut",
        name="Nut",
        style=FittingStyle.COMPRESSION,
        set_by=SetBy.WORKSHOP,
        outer_diameter_mm=8.0,
        length_mm=15.0,
    )
    return LineEnd(fitting=nut)


def brake_of(line: Line, fluid: Fluid | None) -> Brake:
    """A disc brake on such a line."""
    return Brake(
        id="brake",
        name="Brake",
        fluid=fluid,
        line=line,
        supplied_length_mm=None,
        lever_end=bare_end(line),
        caliper_end=bare_end(line),
        caliper_mount=MountKind.POST,
    )


def frame_with(*, places: tuple[PortPlace | None, PortPlace | None] = (None, None), **changes: Any) -> Frame:
    """Two wide holes with inserts, at the places told."""
    frame = make_lane_frame((10.0, 10.0))
    insert = Insert(opening=RoundOpening(diameter_mm=8.0, tolerance_mm=0.1), is_removable=True)
    ports = {
        port.id: replace(port, lies_at=place, insert=insert)
        for port, place in zip(frame.ports.values(), places, strict=True)
    }
    mount = BrakeMount(mount=MountKind.POST, rotor_native_mm=160.0, rotor_max_mm=203.0)
    return replace(frame, ports=ports, brakes={"rear": mount, "front": mount}, **changes)


def front_frame(*places: PortPlace) -> Frame:
    """Both ends ride with the bar: the caliper sits on the fork."""
    frame = frame_with(places=(places[0], places[-1]))
    anchors = {key: replace(anchor, moves_with=MovesWith.BAR) for key, anchor in frame.anchors.items()}
    return replace(frame, anchors=anchors)


def job_of(old: Line | None, new: Line, frame: Frame, *, old_fluid: Fluid | None, new_fluid: Fluid | None) -> Job:
    """A new brake, or a fresh line where no fluid is told; keeps and stays are added by the kinds below."""
    is_brake = new.kind in (LineKind.HYDRAULIC_HOSE, LineKind.BRAKE_HOUSING)
    return make_job(
        frame,
        old=None
        if old is None
        else OldLine(
            line=old,
            from_end=LineEnd(),
            to_end=LineEnd(),
            brake=brake_of(old, old_fluid) if old.kind is LineKind.HYDRAULIC_HOSE else None,
        ),
        new=NewLine(
            line=new, from_end=bare_end(new), to_end=bare_end(new), brake=brake_of(new, new_fluid) if is_brake else None
        ),
        staying=(StayingLine(line=make_line(id="stays", outer_diameter_mm=1.5), through=("in-0",)),),
        rotor_mm=160.0,
    )


def _dropper_frame() -> Frame:
    frame = frame_with()
    end = replace(frame.anchors["end"], serves=AnchorServes.DROPPER)
    return replace(frame, anchors={**frame.anchors, "end": end})


def _with_inserts(kinds_of_insert: tuple[bool, bool]) -> Frame:
    """The plain frame with inserts that are known to be split, or not to be."""
    frame = frame_with()
    ports = {
        port.id: replace(port, insert=replace(port.insert, is_split=is_split))
        for port, is_split in zip(frame.ports.values(), kinds_of_insert, strict=True)
        if port.insert is not None
    }
    return replace(frame, ports=ports)


def _fitted_end(outer_diameter_mm: float, set_by: SetBy) -> LineEnd:
    """An end that came with its fitting on; the frame's holes are 10 mm wide."""
    fitting = bare_end(HOSE).fitting
    assert fitting is not None
    return LineEnd(
        fitting=replace(
            fitting, outer_diameter_mm=outer_diameter_mm, set_by=set_by, joint_diameter_mm=8.0, joint_holds_n=40.0
        ),
        is_fitted=True,
    )


FRAMES = {
    "plain": frame_with(),
    "headset": frame_with(places=(PortPlace.HEADSET, PortPlace.BOTTOM_BRACKET)),
    "bar": frame_with(places=(PortPlace.BAR, None)),
    "carbon": frame_with(features=frozenset({FrameFeature.CARBON, FrameFeature.SUSPENSION, FrameFeature.STEEL})),
    "e-bike": frame_with(
        places=(None, PortPlace.BOTTOM_BRACKET), features=frozenset({FrameFeature.EBIKE, FrameFeature.MOTOR_IN_WAY})
    ),
    "fork leg": front_frame(PortPlace.FORK_LEG, PortPlace.FORK_LEG),
    "front cockpit": front_frame(PortPlace.HEADSET, PortPlace.FORK_LEG),
}


def kinds() -> Iterator[tuple[str, Job]]:
    """Every kind of job by name; wet ones with every pair of fluids."""
    dry_lines = (("cable", CABLE), ("brake housing", BRAKE_HOUSING))
    for where, frame in FRAMES.items():
        for old_fluid, new_fluid in product(FLUIDS, FLUIDS):
            both = job_of(HOSE, HOSE, frame, old_fluid=old_fluid, new_fluid=new_fluid)
            yield f"{where}: hose with {old_fluid} to hose with {new_fluid}", both
            yield f"{where}: the same, old brake kept, {old_fluid} {new_fluid}", replace(both, keeps_old_brake=True)
        for fluid in FLUIDS:
            wet = job_of(HOSE, HOSE, frame, old_fluid=fluid, new_fluid=fluid)
            yield f"{where}: fresh hose, {fluid}", replace(wet, new=replace(wet.new, brake=None))
            yield (
                f"{where}: hose with {fluid} to cable",
                job_of(HOSE, BRAKE_HOUSING, frame, old_fluid=fluid, new_fluid=None),
            )
            for name, dry in dry_lines:
                yield f"{where}: {name} to hose with {fluid}", job_of(dry, HOSE, frame, old_fluid=None, new_fluid=fluid)
            yield f"{where}: empty frame, {fluid}", job_of(None, HOSE, frame, old_fluid=None, new_fluid=fluid)
        yield (
            f"{where}: cable brake to cable brake",
            job_of(BRAKE_HOUSING, BRAKE_HOUSING, frame, old_fluid=None, new_fluid=None),
        )
        yield f"{where}: gears", job_of(GEAR_HOUSING, GEAR_HOUSING, frame, old_fluid=None, new_fluid=None)
        yield f"{where}: gears, bare cable", job_of(CABLE, GEAR_HOUSING, frame, old_fluid=None, new_fluid=None)
        yield f"{where}: wire", job_of(WIRE, WIRE, frame, old_fluid=None, new_fluid=None)
        yield f"{where}: wire, empty frame", job_of(None, WIRE, frame, old_fluid=None, new_fluid=None)
    open_run = make_run("along", "start", "end", zone_id=OUTSIDE)
    bare = make_frame(runs=(open_run,))
    for fluid in FLUIDS:
        yield (
            f"outside: hose with {fluid}",
            replace(job_of(HOSE, HOSE, bare, old_fluid=fluid, new_fluid=fluid), staying=()),
        )
    yield "dropper", job_of(GEAR_HOUSING, GEAR_HOUSING, _dropper_frame(), old_fluid=None, new_fluid=None)
    yield "dropper, bare cable", job_of(CABLE, GEAR_HOUSING, _dropper_frame(), old_fluid=None, new_fluid=None)
    for name, kinds_of_insert in {"split": (True, True), "whole": (False, False), "mixed": (True, False)}.items():
        frame = _with_inserts(kinds_of_insert)
        yield f"{name} inserts: gears", job_of(GEAR_HOUSING, GEAR_HOUSING, frame, old_fluid=None, new_fluid=None)
        yield f"{name} inserts: wire", job_of(WIRE, WIRE, frame, old_fluid=None, new_fluid=None)
    wet = job_of(HOSE, HOSE, frame_with(), old_fluid=Fluid.MINERAL_OIL, new_fluid=Fluid.MINERAL_OIL)
    for name, end in {
        "ends that came closed": _fitted_end(7.0, SetBy.FACTORY),
        "a nut taken off": _fitted_end(12.0, SetBy.WORKSHOP),
    }.items():
        yield f"hose with {name}", replace(wet, new=replace(wet.new, from_end=end, to_end=end))


KINDS = dict(kinds())
