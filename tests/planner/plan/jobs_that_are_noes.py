"""Jobs drawn at random of which most have something against them: holes, joints, ends, mounts, lengths, fluids."""

from dataclasses import replace
from random import Random

from planner.parts import (
    Adapter,
    AdapterKind,
    Brake,
    BrakeMount,
    Fitting,
    FittingStyle,
    Fluid,
    Frame,
    FrameEnd,
    HubKind,
    Insert,
    Job,
    Line,
    LineEnd,
    LineKind,
    Method,
    MountKind,
    NewLine,
    OldLine,
    RoundOpening,
    SetBy,
    Workshop,
)
from tests.builders import (
    make_coupler,
    make_job,
    make_lane_frame,
    make_limits,
    make_line,
    make_sleeve,
    make_spoke,
    make_workshop,
)
from tests.work_orders.job_kinds import LEADER, LINER, OVER

LINES = {
    line.id: line
    for line in (
        make_line(id="hose-5"),
        make_line(id="hose-55", outer_diameter_mm=5.5, bore_diameter_mm=2.5),
        make_line(id="housing-4", kind=LineKind.SHIFT_HOUSING, outer_diameter_mm=4.0, bore_diameter_mm=1.6),
        make_line(id="housing-5", kind=LineKind.SHIFT_HOUSING, cable_diameter_mm=1.2, bore_diameter_mm=1.6),
        make_line(id="cable", kind=LineKind.INNER_CABLE, outer_diameter_mm=1.2, bore_diameter_mm=None),
        make_line(id="wire", kind=LineKind.ELECTRIC_WIRE, outer_diameter_mm=2.5, bore_diameter_mm=None),
    )
}
FITTINGS = {
    key: Fitting(
        id=key,
        name=key.capitalize(),
        style=style,
        set_by=set_by,
        outer_diameter_mm=outer_mm,
        length_mm=15.0,
        line_outer_diameter_mm=line_mm,
    )
    for key, style, set_by, outer_mm, line_mm in (
        ("nut-5", FittingStyle.COMPRESSION, SetBy.WORKSHOP, 9.0, 5.0),
        ("nut-55", FittingStyle.COMPRESSION, SetBy.WORKSHOP, 9.0, 5.5),
        ("crimp-5", FittingStyle.CRIMPED, SetBy.FACTORY, 8.0, 5.0),
        ("plug", FittingStyle.PLUG, SetBy.FACTORY, 4.8, 2.5),
    )
}
ADAPTERS = tuple(
    Adapter(
        id=f"post-{step}",
        name=f"Post adapter +{step}",
        kind=AdapterKind.POST_STEP,
        frame_mount=MountKind.POST,
        caliper_mount=MountKind.POST,
        step_mm=step,
        lift_mm=step / 2,
    )
    for step in (20.0, 40.0)
)


def brake(draw: Random, brake_id: str) -> Brake:
    """A disc brake, its nut lying beside or sitting on the hose, its caliper crimped or to be set."""
    return Brake(
        id=brake_id,
        name=brake_id.capitalize(),
        fluid=draw.choice((Fluid.MINERAL_OIL, Fluid.GLYCOL_DOT4)),
        line=LINES[draw.choice(("hose-5", "hose-55"))],
        supplied_length_mm=draw.choice((1000.0, 1800.0, 2400.0, 2400.0)),
        lever_end=LineEnd(fitting=FITTINGS["nut-5"], is_fitted=draw.random() < 0.5),
        caliper_end=LineEnd(fitting=FITTINGS[draw.choice(("nut-5", "crimp-5"))], is_fitted=draw.random() < 0.5),
        lever_clamp_mm=22.2,
        made_for=draw.choice((None, None, FrameEnd.REAR, FrameEnd.FRONT)),
        caliper_mount=draw.choice((*MountKind, MountKind.POST, MountKind.POST)),
    )


def frame(draw: Random) -> Frame:
    """One or two ways through tubes of their own, each with two holes, some with inserts or for one kind of line."""
    lanes = [
        (round(draw.uniform(4.6, 9.0), 2), round(draw.uniform(4.6, 9.0), 2)) for _ in range(draw.choice((1, 1, 2)))
    ]
    drawn = make_lane_frame(*lanes)
    ports = dict(drawn.ports)
    for port_id, port in drawn.ports.items():
        if draw.random() < 0.2:
            opening = RoundOpening(diameter_mm=round(draw.uniform(4.5, 6.0), 2), tolerance_mm=0.05)
            ports[port_id] = replace(port, insert=Insert(opening=opening, is_removable=True))
        elif draw.random() < 0.07:
            ports[port_id] = replace(port, admits=(draw.choice((LineKind.INNER_CABLE, LineKind.SHIFT_HOUSING)),))
    mount = BrakeMount(
        mount=draw.choice((MountKind.POST, MountKind.POST, MountKind.FLAT, MountKind.IS_TABS)),
        rotor_native_mm=draw.choice((140.0, 160.0)),
        rotor_max_mm=draw.choice((180.0, 203.0)),
        hub=draw.choice((None, None, *HubKind)),
    )
    return replace(drawn, ports=ports, brakes={"rear": mount})


def job(draw: Random) -> Job:
    """Something for something, through such a frame."""
    what = draw.choice(("brake", "brake", "hose", "housing", "wire"))
    new = _new(draw, what)
    return make_job(
        frame(draw),
        old=_old(draw, what),
        new=new,
        may_remove_inserts=draw.random() < 0.5,
        keeps_old_brake=draw.random() < 0.3,
        rotor_mm=draw.choice((140.0, 160.0, 180.0, 183.0, 203.0)) if new.brake is not None else None,
        rotor_hub=draw.choice((None, None, *HubKind)) if new.brake is not None else None,
    )


def _new(draw: Random, what: str) -> NewLine:
    if what == "brake":
        named = brake(draw, "named")
        return NewLine(
            line=named.line,
            from_end=named.lever_end,
            to_end=named.caliper_end,
            brake=named,
            supplied_length_mm=named.supplied_length_mm,
        )
    line = LINES[{"hose": "hose-5", "housing": draw.choice(("housing-4", "housing-5")), "wire": "wire"}[what]]
    fitting = FITTINGS["plug" if what == "wire" else draw.choice(("nut-5", "nut-5", "nut-55"))]
    end = LineEnd(fitting=fitting, is_fitted=what == "wire") if draw.random() < 0.5 else LineEnd()
    return NewLine(line=line, from_end=end, to_end=end, supplied_length_mm=draw.choice((None, 1000.0, 2000.0, 2000.0)))


def _old(draw: Random, what: str) -> OldLine | None:
    if draw.random() < 0.2:
        return None
    kinds = {"wire": ("wire",), "housing": ("housing-5", "cable")}.get(what, ("hose-5", "hose-55", "cable"))
    line: Line = LINES[draw.choice(kinds)]
    is_wet = line.kind is LineKind.HYDRAULIC_HOSE
    end = LineEnd(fitting=FITTINGS["crimp-5"], is_fitted=True) if is_wet and draw.random() < 0.5 else LineEnd()
    old_brake = brake(draw, "old") if is_wet and what == "brake" else None
    return OldLine(line=line, from_end=LineEnd(), to_end=end, brake=old_brake)


def workshop(draw: Random) -> Workshop:
    """Some of the methods, a few brakes, and two adapters or none."""
    methods: tuple[Method, ...] = (make_coupler(), make_sleeve(), make_spoke(), LEADER, OVER, LINER)
    has = tuple(method for method in methods if draw.random() < 0.6) or (make_sleeve(),)
    brakes = [brake(draw, f"other-{n}") for n in range(3)]
    limits = replace(make_limits(), tab_base_front_mm=160.0, tab_base_rear_mm=140.0)
    return make_workshop(
        *has,
        limits=limits,
        lines=LINES,
        fittings=FITTINGS,
        adapters=ADAPTERS if draw.random() < 0.5 else (),
        brakes={each.id: each for each in brakes},
    )
