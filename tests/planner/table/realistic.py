"""Frames and brakes as a trade has them: few layouts, few sizes, holes that differ by a tenth, few sorts of hose.

Everything is invented. Seeded: the same number gives the same frame and the same brake on every machine.
"""

from collections.abc import Iterator
from random import Random
from typing import Any

from planner.parts import (
    OUTSIDE,
    Anchor,
    AnchorPart,
    AnchorServes,
    Bar,
    Brake,
    BrakeMount,
    Case,
    Fitting,
    FittingStyle,
    Fluid,
    Frame,
    FrameEnd,
    Guide,
    Insert,
    Line,
    LineEnd,
    LineKind,
    MountKind,
    MovesWith,
    OldLine,
    Opening,
    OvalOpening,
    Port,
    RoundOpening,
    Run,
    SetBy,
    SinglePivot,
    SlotOpening,
    StayingLine,
    Zone,
    ends_of_brake,
)

LAYOUTS, SIZES = 40, 5
HOSES = tuple(
    Line(
        id=f"hose-{outer}-{bore}",
        name=f"Hose {outer} x {bore}",
        kind=LineKind.HYDRAULIC_HOSE,
        outer_diameter_mm=outer,
        outer_tolerance_mm=0.05,
        bore_diameter_mm=bore,
        minimum_bend_radius_mm=bend,
        friction_ratio=friction,
        mass_g_per_m=32.0,
    )
    for outer, bore, bend, friction in (
        (5.0, 2.1, 35.0, 0.3),
        (5.0, 2.3, 35.0, 0.3),
        (5.3, 2.0, 40.0, 0.35),
        (5.5, 2.5, 40.0, 0.3),
        (4.8, 2.0, 30.0, None),
        (6.0, 2.5, 45.0, 0.4),
    )
)
FLUIDS = ((Fluid.MINERAL_OIL,), (Fluid.GLYCOL_DOT4, Fluid.GLYCOL_DOT5_1))
GEARS = Line(
    id="gear-40",
    name="Gear housing",
    kind=LineKind.SHIFT_HOUSING,
    outer_diameter_mm=4.0,
    outer_tolerance_mm=0.05,
    bore_diameter_mm=1.3,
    minimum_bend_radius_mm=30.0,
)


def brakes_of(several: int, *, seed: int = 1) -> tuple[Brake, ...]:
    """So many brakes, in some 25 sorts of hose and ends."""
    draw = Random(f"brakes {seed}")
    return tuple(_brake(draw, number) for number in range(several))


def _brake(draw: Random, number: int) -> Brake:
    line = draw.choice(HOSES)
    lever = _fitting(line, FittingStyle.COMPRESSION, SetBy.WORKSHOP, outer_mm=8.0, length_mm=12.0)
    crimped = _fitting(line, FittingStyle.CRIMPED, SetBy.FACTORY, outer_mm=7.2, length_mm=24.0)
    banjo = _fitting(line, FittingStyle.BANJO, SetBy.WORKSHOP, outer_mm=14.0, length_mm=18.0)
    caliper, is_fitted = draw.choice(((crimped, True), (banjo, False), (banjo, True)))
    return Brake(
        id=f"brake-{number:04}",
        name=f"Invented brake {number}",
        fluid=draw.choice(FLUIDS[HOSES.index(line) % 2]),
        line=line,
        supplied_length_mm=draw.choice((None, 950.0, 1450.0, 1600.0, 1700.0, 1800.0, 2000.0)),
        lever_end=LineEnd(fitting=lever, is_fitted=caliper is crimped or draw.random() < 0.6),
        caliper_end=LineEnd(fitting=caliper, is_fitted=is_fitted),
        lever_clamp_mm=draw.choice((22.2, 22.2, 23.8)),
        made_for=FrameEnd.REAR,
        caliper_mount=draw.choice((MountKind.POST, MountKind.POST, MountKind.FLAT)),
        caliper_rotor_min_mm=140.0,
        caliper_rotor_max_mm=draw.choice((180.0, 203.0)),
    )


def _fitting(line: Line, style: FittingStyle, set_by: SetBy, *, outer_mm: float, length_mm: float) -> Fitting:
    return Fitting(
        id=f"{style.value}-{line.id}",
        name=f"{style.value} for {line.name}",
        style=style,
        set_by=set_by,
        outer_diameter_mm=outer_mm,
        length_mm=length_mm,
        line_outer_diameter_mm=line.outer_diameter_mm,
        line_bore_diameter_mm=line.bore_diameter_mm,
        insertion_depth_mm=11.0,
    )


def cases_of(several: int, *, seed: int = 1, shake: bool = False) -> Iterator[Case]:
    """So many cases.

    shake : whether every point is measured anew on each frame, so that no two share a length
    """
    brakes = brakes_of(12, seed=99)
    for number in range(several):
        yield case_of(number, seed=seed, shake=shake, old_brakes=brakes)


def case_of(number: int, *, seed: int, shake: bool, old_brakes: tuple[Brake, ...]) -> Case:
    """One case: a layout in a size, its holes measured anew."""
    layout, size = number % LAYOUTS, (number // LAYOUTS) % SIZES
    draw = Random(f"case {seed} {number}")
    frame = _frame(f"frame-{number:05}", Random(f"layout {layout}"), draw, size=size, shake=shake)
    lies_in = Random(f"lies in {layout}")
    brake = lies_in.choice((None, *old_brakes[:4]))
    old = None if brake is None else _old(brake, lies_in, frame)
    shares = [port for port in frame.ports if port.startswith(("in-0", "out-1"))]
    staying = (StayingLine(line=GEARS, through=tuple(shares)),) if lies_in.random() < 0.4 else ()
    return Case(
        id=f"case-{number:05}",
        frame=frame,
        from_anchor_id="lever",
        to_anchor_id="caliper",
        old=old,
        staying=staying,
        rotor_mm=lies_in.choice((None, 160.0, 180.0)),
        may_remove_inserts=lies_in.random() < 0.8,
        keeps_old_brake=lies_in.random() < 0.3,
    )


def _old(brake: Brake, draw: Random, frame: Frame) -> OldLine:
    from_end, to_end = ends_of_brake(brake, is_lever_at_from=True)
    set_on = [LineEnd(fitting=end.fitting, is_fitted=end.fitting is not None) for end in (from_end, to_end)]
    told = draw.random()
    through = ("in-0", "out-0", "stay-in", "stay-out") if told < 0.3 else ()
    measured_mm = float(draw.randint(1300, 1700)) if told > 0.7 else None
    return OldLine(
        line=brake.line,
        from_end=set_on[0],
        to_end=set_on[1],
        brake=brake,
        through=tuple(port for port in through if port in frame.ports),
        measured_length_mm=measured_mm,
    )


def _frame(frame_id: str, plan: Random, draw: Random, *, size: int, shake: bool) -> Frame:
    """Lever, one or two holes into the tube, one or two out, a stay with a guide or open, caliper."""
    more = 12.0 * size
    lanes = 2 if plan.random() < 0.4 else 1
    has_guide, is_led, swings = plan.random() < 0.5, plan.random() < 0.15, plan.random() < 0.5

    def at(x: float, y: float, z: float) -> tuple[float, float, float]:
        off = [round(draw.uniform(-2, 2), 1) if shake else 0.0 for _ in range(3)]
        return x + off[0], y + off[1], z + off[2]

    ports: list[Port] = []
    runs: list[Run] = []
    for lane in range(lanes):
        side = 18.0 if lane == 0 else -18.0
        ports.append(_port(f"in-{lane}", (OUTSIDE, "tube"), at(420 + more, side, 560 + more), plan, draw))
        ports.append(_port(f"out-{lane}", ("tube", OUTSIDE), at(40, side, 60), plan, draw))
        runs += [
            _run(f"to-in-{lane}", OUTSIDE, "lever", f"in-{lane}"),
            _run(f"down-{lane}", "tube", f"in-{lane}", f"out-{lane}"),
        ]
        runs.append(_run(f"to-stay-{lane}", OUTSIDE, f"out-{lane}", "stay-in"))
    if lanes == 2:
        runs.append(_run("across", "tube", "in-0", "out-1"))
    ports.append(_port("stay-in", (OUTSIDE, "stay"), at(-30, 30, 30), plan, draw))
    ports.append(_port("stay-out", ("stay", OUTSIDE), at(-380 - more, 60, 80), plan, draw))
    guide = Guide(
        bore_diameter_mm=round(draw.uniform(6.6, 8.0), 1),
        bend_radius_mm=90.0,
        turn_deg=20.0,
        length_mm=402.0 + more,
        tolerance_mm=0.1,
    )
    runs.append(_run("stay-run", "stay", "stay-in", "stay-out", guide=guide if has_guide else None))
    clips = (at(-410 - more, 62, 120),) if is_led else ()
    runs.append(_run("to-caliper", OUTSIDE, "stay-out", "caliper", clips_mm=clips))
    moved = ("stay-in", "stay-out", "caliper")
    return Frame(
        id=frame_id,
        name=f"Invented frame {frame_id}",
        zones={zone.id: zone for zone in _zones(plan, draw, more)},
        ports={port.id: port for port in ports},
        anchors={anchor.id: anchor for anchor in _anchors(at, more)},
        runs={run.id: run for run in runs},
        bar=Bar(axis_point_mm=(430.0 + more, 0.0, 600.0), axis=(-0.42, 0.0, 0.91), lock_deg=70.0),
        rear=SinglePivot(pivot_mm=(10.0, 60.0), swing_deg=16.0, moves=moved) if swings else None,
        brakes={
            "rear": BrakeMount(
                mount=plan.choice((MountKind.POST, MountKind.FLAT)), rotor_native_mm=160.0, rotor_max_mm=203.0
            )
        },
        bar_clamp_mm=plan.choice((None, 22.2)),
    )


def _zones(plan: Random, draw: Random, more: float) -> Iterator[Zone]:
    bore_mm = plan.choice((28.0, 34.0, 38.0))
    yield Zone(id="tube", path_mm=((430.0 + more, 0.0, 590.0 + more), (20.0, 0.0, 30.0)), bore_diameter_mm=bore_mm)
    clear_mm = None if draw.random() < 0.02 else plan.choice((12.0, 14.0))
    yield Zone(id="stay", path_mm=((-20.0, 30.0, 20.0), (-400.0 - more, 60.0, 80.0)), bore_diameter_mm=clear_mm)


def _anchors(at: Any, more: float) -> Iterator[Anchor]:
    told: dict[str, Any] = {"serves": AnchorServes.BRAKE}
    yield Anchor(
        id="lever",
        position_mm=at(430 + more, 240, 660 + more),
        heading=(0.3, -0.95, 0.0),
        moves_with=MovesWith.BAR,
        part=AnchorPart.LEVER,
        **told,
    )
    yield Anchor(
        id="caliper",
        position_mm=at(-430 - more, 60, 150),
        heading=(0.5, 0.1, -0.86),
        part=AnchorPart.CALIPER,
        end=FrameEnd.REAR,
        **told,
    )


def _run(run_id: str, zone_id: str, first: str, second: str, **more: Any) -> Run:
    return Run(id=run_id, zone_id=zone_id, between=(first, second), **more)


def _port(port_id: str, joins: tuple[str, str], at_mm: tuple[float, float, float], plan: Random, draw: Random) -> Port:
    heading = {
        "in": (-0.8, -0.1, -0.6),
        "out": (-0.9, 0.1, -0.2),
        "stay-in": (-0.95, 0.1, 0.1),
        "stay-out": (-0.9, 0.1, 0.3),
    }
    shape, tilt_deg = plan.choice(("round", "round", "slot", "oval")), float(plan.choice((0, 10, 20, 40)))
    nominal_mm = plan.choice((6.4, 7.2, 7.8, 8.4, 9.0, 9.5))
    has_insert, is_unknown = plan.random() < 0.25, draw.random() < 0.03
    opening = _opening(shape, round(nominal_mm + draw.choice((-0.2, -0.1, 0.0, 0.1, 0.2)), 1))
    narrow = RoundOpening(diameter_mm=round(nominal_mm * 0.85, 1), tolerance_mm=0.1)
    return Port(
        id=port_id,
        label=port_id,
        joins=joins,
        position_mm=at_mm,
        heading=heading[port_id if port_id.startswith("stay") else port_id[:-2]],
        opening=None if is_unknown else opening,
        tilt_deg=tilt_deg,
        wall_thickness_mm=plan.choice((1.0, 1.6, 2.2)),
        insert=Insert(opening=narrow, is_removable=True, is_split=True) if has_insert else None,
        entry_drag_n=plan.choice((None, 1.5)),
    )


def _opening(shape: str, width_mm: float) -> Opening:
    if shape == "round":
        return RoundOpening(diameter_mm=width_mm, tolerance_mm=0.1)
    kind = SlotOpening if shape == "slot" else OvalOpening
    return kind(length_mm=round(width_mm * 2.2, 1), width_mm=width_mm, tolerance_mm=0.1)
