"""Invented parts for the tests of what belongs together."""

from planner.parts import (
    Adapter,
    AdapterKind,
    Anchor,
    Brake,
    BrakeMount,
    Fitting,
    FittingStyle,
    Fluid,
    Frame,
    FrameEnd,
    HubKind,
    Job,
    Line,
    LineEnd,
    LineKind,
    MountKind,
    MovesWith,
    NewLine,
    OldLine,
    Port,
    RoundOpening,
    SetBy,
)
from tests.builders import make_limits

HOSE_FLUIDS = {fluid.value: fluid for fluid in Fluid}


def make_line(kind: LineKind = LineKind.HYDRAULIC_HOSE, *, bore_mm: float | None = 2.1, outer_mm: float = 5.0) -> Line:
    """A line of a kind."""
    return Line(
        id=kind.value,
        name=f"{kind.value} (invented)",
        kind=kind,
        outer_diameter_mm=outer_mm,
        outer_tolerance_mm=0.05,
        bore_diameter_mm=bore_mm,
        minimum_bend_radius_mm=35,
    )


def make_fitting(
    *, line_outer_mm: float | None = 5.0, line_bore_mm: float | None = 2.1, thread: str = "M8x0.75"
) -> Fitting:
    """A compression nut."""
    return Fitting(
        id="nut",
        name="Nut (invented)",
        style=FittingStyle.COMPRESSION,
        set_by=SetBy.WORKSHOP,
        outer_diameter_mm=9.5,
        length_mm=18,
        line_outer_diameter_mm=line_outer_mm,
        line_bore_diameter_mm=line_bore_mm,
        thread=thread,
    )


def make_brake(
    *,
    fluid: Fluid | None = Fluid.GLYCOL_DOT5_1,
    kind: LineKind = LineKind.HYDRAULIC_HOSE,
    mount: MountKind | None = MountKind.POST,
    clamp_mm: float | None = 22.2,
    id: str = "brake",
    made_for: FrameEnd | None = None,
    rotors_mm: tuple[float | None, float | None] = (None, None),
) -> Brake:
    """A brake with bare line ends."""
    return Brake(
        id=id,
        name="Brake (invented)",
        fluid=fluid,
        line=make_line(kind),
        supplied_length_mm=2000,
        lever_end=LineEnd(),
        caliper_end=LineEnd(),
        lever_clamp_mm=clamp_mm,
        caliper_mount=mount,
        made_for=made_for,
        caliper_rotor_min_mm=rotors_mm[0],
        caliper_rotor_max_mm=rotors_mm[1],
    )


def make_adapter(kind: AdapterKind, step_mm: float, *, lift_mm: float | None, end: FrameEnd | None = None) -> Adapter:
    """An adapter that takes two longer bolts."""
    mounts = {
        AdapterKind.TABS: (MountKind.IS_TABS, MountKind.POST),
        AdapterKind.FLAT_PLATE: (MountKind.FLAT, MountKind.FLAT),
    }
    frame_mount, caliper_mount = mounts.get(kind, (MountKind.POST, MountKind.POST))
    return Adapter(
        id=f"{kind.value}-{step_mm:g}",
        name="Adapter (invented)",
        kind=kind,
        frame_mount=frame_mount,
        caliper_mount=caliper_mount,
        end=end,
        step_mm=step_mm,
        lift_mm=lift_mm,
        uses=("long-bolts",),
    )


UNTOLD = make_limits(match_clamp_mm=None, match_bore_mm=None, match_lift_mm=None)
"""Margins of a shop that has not said how far sizes may differ."""

ADAPTERS = (
    make_adapter(AdapterKind.POST_STEP, 20, lift_mm=10.0),
    make_adapter(AdapterKind.POST_STEP, 43, lift_mm=21.5),
    make_adapter(AdapterKind.POST_STEP, 23, lift_mm=11.5),
    make_adapter(AdapterKind.TABS, 20, lift_mm=None, end=FrameEnd.REAR),
    make_adapter(AdapterKind.TABS, 40, lift_mm=None, end=FrameEnd.REAR),
    make_adapter(AdapterKind.FLAT_PLATE, 20, lift_mm=10.0, end=FrameEnd.REAR),
)


def make_port(id: str, *, admits: tuple[LineKind, ...] = ()) -> Port:
    """A round hole from outside into the tube."""
    return Port(
        id=id,
        label=id,
        joins=("outside", "tube"),
        position_mm=(0, 0, 0),
        heading=(1, 0, 0),
        opening=RoundOpening(diameter_mm=7, tolerance_mm=0.1),
        wall_thickness_mm=1.5,
        admits=admits,
    )


def make_frame(
    *,
    ports: tuple[Port, ...] = (make_port("front"), make_port("back")),
    lever_y_mm: float = -210,
    caliper_moves_with: MovesWith | None = MovesWith.REAR,
    brakes: dict[str, BrakeMount] | None = None,
    bar_clamp_mm: float | None = 22.2,
) -> Frame:
    """A frame with a lever and a caliper anchor."""
    rear = BrakeMount(mount=MountKind.POST, rotor_native_mm=160, rotor_max_mm=203, hub=HubKind.SIX_BOLT)
    return Frame(
        id="frame",
        name="Frame (invented)",
        zones={},
        ports={port.id: port for port in ports},
        anchors={
            "lever": Anchor(
                id="lever", position_mm=(470, lever_y_mm, 690), heading=(0, 1, 0), moves_with=MovesWith.BAR
            ),
            "caliper": Anchor(
                id="caliper", position_mm=(-420, 78, 48), heading=(1, 0, 0), moves_with=caliper_moves_with
            ),
        },
        runs={},
        brakes={"rear": rear} if brakes is None else brakes,
        bar_clamp_mm=bar_clamp_mm,
    )


def make_old(
    *, kind: LineKind = LineKind.HYDRAULIC_HOSE, brake: Brake | None = None, through: tuple[str, ...] = ()
) -> OldLine:
    """A line in the frame."""
    return OldLine(line=make_line(kind), from_end=LineEnd(), to_end=LineEnd(), brake=brake, through=through)


def make_new(
    *, kind: LineKind = LineKind.HYDRAULIC_HOSE, brake: Brake | None = None, end: LineEnd | None = None
) -> NewLine:
    """A line that goes in."""
    return NewLine(line=make_line(kind), from_end=LineEnd(), to_end=end or LineEnd(), brake=brake)


def make_job(
    *,
    new: NewLine,
    old: OldLine | None = None,
    frame: Frame | None = None,
    rotor_mm: float | None = 160,
    rotor_hub: HubKind | None = HubKind.SIX_BOLT,
) -> Job:
    """A job from lever to caliper."""
    return Job(
        id="job",
        title="Job (invented)",
        frame=frame or make_frame(),
        from_anchor_id="lever",
        to_anchor_id="caliper",
        old=old,
        new=new,
        rotor_mm=rotor_mm,
        rotor_hub=rotor_hub,
    )
