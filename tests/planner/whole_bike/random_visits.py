"""Bicycles made at random: one main tube, two stays, up to eight ports, three or four lines that share them."""

from dataclasses import replace
from random import Random

from planner.parts import (
    OUTSIDE,
    Anchor,
    Fitting,
    FittingStyle,
    Frame,
    Guide,
    Insert,
    LeaderLine,
    Line,
    LineEnd,
    LineKind,
    LineTie,
    Minutes,
    NewLine,
    OldLine,
    Opening,
    Port,
    RoundOpening,
    Run,
    SetBy,
    SlotOpening,
    StayingLine,
    Visit,
    VisitLine,
    Workshop,
    WorkStep,
    Zone,
)
from tests.builders import make_coupler, make_sleeve, make_spoke, make_workshop

SIZES_MM = (2.5, 4.0, 5.0, 5.5)
FRONT = (("bar-left", (430.0, 190.0, 640.0)), ("bar-right", (430.0, -190.0, 640.0)))
REAR = (("rear-left", (-480.0, 70.0, 40.0)), ("rear-right", (-480.0, -70.0, 40.0)))
NECKS = (("neck", (350.0, 20.0, 470.0)), ("neck-low", (300.0, -22.0, 410.0)))
WINDOWS = (("window-left", "stay-left", (10.0, 14.0, 20.0)), ("window-right", "stay-right", (10.0, -14.0, 20.0)))
EXITS = (
    ("exit-left", "stay-left", (-340.0, 55.0, 12.0)),
    ("exit-right", "stay-right", (-340.0, -55.0, 12.0)),
    ("exit-left-front", "stay-left", (-240.0, 45.0, 15.0)),
    ("exit-right-front", "stay-right", (-240.0, -45.0, 15.0)),
)


def random_workshop(random: Random) -> Workshop:
    """Joints and leaders of several thicknesses, and one step that stands once in a visit."""
    once = WorkStep(id="mind", text="Mind.", why="So.", minutes=Minutes(least=1, likely=2, most=3), is_once=True)
    redone = WorkStep(id="feed", text="Feed.", why="So.", minutes=Minutes(least=2, likely=4, most=9), is_redone=True)
    methods = [
        make_coupler(fail_chance=0.05),
        make_sleeve(bore_diameter_mm=3.0, outer_diameter_mm=5.0, fail_chance=0.15),
        make_spoke(fail_chance=0.25),
        _leader("cord", 5.4),
    ]
    return make_workshop(*random.sample(methods, random.randint(2, 4)), _leader("thin", 4.0), steps=(once, redone))


def _leader(name: str, joint_mm: float) -> LeaderLine:
    return LeaderLine(
        id=name,
        name=name,
        outer_diameter_mm=1.0,
        joint_diameter_mm=joint_mm,
        joint_length_mm=0.0,
        holds_n=25.0,
        setup_min=20.0,
    )


def random_visit(random: Random, *, lines_n: int) -> Visit:
    """A frame and so many lines on it, some only in, some only out."""
    frame = _frame(random)
    lines = tuple(_line(random, n) for n in range(lines_n))
    staying = ()
    if random.random() < 0.25:
        staying = (StayingLine(line=_bought(random, "stays"), through=_through("left")),)
    return Visit(
        id="visit",
        title="Visit",
        frame=frame,
        lines=lines,
        staying=staying,
        may_remove_inserts=random.random() < 0.8,
        may_take_out_first=True,
    )


def with_a_pair(random: Random, visit: Visit) -> Visit:
    """The same visit with two of its new lines drawn in together, of which the second has no old line.

    A visit with one new line stays as it is.
    """
    new = [line for line in visit.lines if line.new is not None]
    if len(new) < 2:
        return visit
    first, second = new[:2]
    second = replace(second, old=None, to_anchor_id=first.to_anchor_id)
    if random.random() < 0.3:
        second = replace(second, from_anchor_id=second.to_anchor_id, to_anchor_id=second.from_anchor_id)
    lines = tuple(second if line.id == second.id else line for line in visit.lines)
    return replace(visit, lines=lines, together=((first.id, second.id),))


def with_ties(random: Random, workshop: Workshop) -> Workshop:
    """The same workshop, most joints with a tie behind them; what is told of a tie is redone when its joint fails."""
    tie = LineTie(most_n=random.choice((1, 2)), adds_mm=random.choice((0.4, 1.0)), holds_n=8.0, setup_min=3.0)
    methods = (replace(each, tie=tie if random.random() < 0.8 else None) for each in workshop.methods)
    return replace(workshop, methods=tuple(methods))


def _opening(random: Random, *, is_slot: bool) -> Opening | None:
    if random.random() < 0.04:
        return None
    if is_slot:
        return SlotOpening(
            length_mm=random.choice((14.0, 17.0, 20.0)),
            width_mm=random.choice((6.2, 7.0)),
            tolerance_mm=0.1,
        )
    return RoundOpening(diameter_mm=random.choice((8.5, 10.0, 11.5, 13.0)), tolerance_mm=0.1)


def _port(random: Random, port_id: str, joins: tuple[str, str], at: tuple[float, float, float]) -> Port:
    is_neck = joins[0] == OUTSIDE
    opening = _opening(random, is_slot=is_neck)
    insert = None
    if is_neck and isinstance(opening, SlotOpening) and random.random() < 0.3:
        smaller = SlotOpening(length_mm=opening.length_mm - 2, width_mm=opening.width_mm - 0.5, tolerance_mm=0.1)
        insert = Insert(opening=smaller, is_removable=random.random() < 0.8)
    return Port(
        id=port_id,
        label=port_id,
        joins=joins,
        position_mm=at,
        heading=(-0.8, 0.0, -0.6) if is_neck else (-1.0, 0.0, 0.0),
        opening=opening,
        tilt_deg=10.0,
        wall_thickness_mm=1.5,
        insert=insert,
    )


def _frame(random: Random) -> Frame:
    ports_n = random.randint(5, 8)
    necks = NECKS[: 1 if ports_n < 6 else 2]
    exits = EXITS[: max(2, ports_n - len(necks) - 2)]
    ports = [_port(random, name, (OUTSIDE, "down"), at) for name, at in necks]
    ports += [_port(random, name, ("down", stay), at) for name, stay, at in WINDOWS]
    ports += [_port(random, name, (stay, OUTSIDE), at) for name, stay, at in EXITS if name in dict(_names(exits))]
    runs = [_run(f"{bar}-{neck}", OUTSIDE, bar, neck) for bar, _ in FRONT for neck, _ in necks]
    runs += [_run(f"{neck}-{window}", "down", neck, window) for neck, _ in necks for window, _, _ in WINDOWS]
    for name, stay, _ in exits:
        window = f"window-{stay.removeprefix('stay-')}"
        guide = Guide(
            bore_diameter_mm=random.choice((8.5, 9.5, 11.0)), bend_radius_mm=250, turn_deg=8, tolerance_mm=0.1
        )
        runs.append(_run(f"{window}-{name}", stay, window, name, guide if random.random() < 0.5 else None))
        runs.append(_run(f"{name}-rear", OUTSIDE, name, f"rear-{stay.removeprefix('stay-')}"))
    if random.random() < 0.2:
        runs.append(_run("over-all", OUTSIDE, "bar-left", "rear-left"))
    zones = (
        Zone(id="down", path_mm=((380.0, 0.0, 520.0), (20.0, 0.0, 30.0)), bore_diameter_mm=random.choice((18.0, 42.0))),
        Zone(id="stay-left", path_mm=((-5.0, 20.0, 14.0), (-400.0, 60.0, 10.0)), bore_diameter_mm=14.0),
        Zone(id="stay-right", path_mm=((-5.0, -20.0, 14.0), (-400.0, -60.0, 10.0)), bore_diameter_mm=14.0),
    )
    anchors = [Anchor(id=name, position_mm=at, heading=(-0.5, 0.0, -0.8)) for name, at in FRONT]
    anchors += [Anchor(id=name, position_mm=at, heading=(1.0, 0.0, 0.2)) for name, at in REAR]
    return Frame(
        id="frame",
        name="Frame",
        zones={zone.id: zone for zone in zones},
        ports={port.id: port for port in ports},
        anchors={anchor.id: anchor for anchor in anchors},
        runs={run.id: run for run in runs},
    )


def _names(exits: tuple[tuple[str, str, tuple[float, float, float]], ...]) -> list[tuple[str, str]]:
    return [(name, stay) for name, stay, _ in exits]


def _run(run_id: str, zone_id: str, first: str, second: str, guide: Guide | None = None) -> Run:
    return Run(id=run_id, zone_id=zone_id, between=(first, second), guide=guide)


def _through(side: str) -> tuple[str, ...]:
    """A way that every frame has."""
    return ("neck", f"window-{side}", f"exit-{side}")


def _bought(random: Random, name: str, *, is_hose: bool = False) -> Line:
    diameter_mm = random.choice(SIZES_MM[1:] if is_hose else SIZES_MM)
    is_wire = diameter_mm == SIZES_MM[0]
    return Line(
        id=name,
        name=name,
        kind=LineKind.ELECTRIC_WIRE if is_wire else LineKind.HYDRAULIC_HOSE,
        outer_diameter_mm=diameter_mm,
        outer_tolerance_mm=random.choice((0.05, 0.15)),
        bore_diameter_mm=None if is_wire else random.choice((2.1, 2.3)),
        minimum_bend_radius_mm=20.0,
    )


def _end(random: Random) -> LineEnd:
    if random.random() < 0.85:
        return LineEnd()
    fitting = Fitting(
        id="nut",
        name="Nut",
        style=FittingStyle.COMPRESSION,
        set_by=random.choice((SetBy.WORKSHOP, SetBy.WORKSHOP, SetBy.FACTORY)),
        outer_diameter_mm=random.choice((5.8, 7.6)),
        length_mm=14.0,
    )
    return LineEnd(fitting=fitting, is_fitted=True)


def _line(random: Random, n: int) -> VisitLine:
    side = random.choice(("left", "right"))
    sort = random.choices(("swap", "in", "out"), weights=(6, 3, 1))[0]
    old = OldLine(
        line=_bought(random, f"old-{n}", is_hose=sort == "swap"),
        from_end=LineEnd(),
        to_end=LineEnd(),
        through=_through(side),
    )
    new = NewLine(line=_bought(random, f"new-{n}", is_hose=sort == "swap"), from_end=_end(random), to_end=LineEnd())
    return VisitLine(
        id=f"line-{n}",
        from_anchor_id=random.choice(FRONT)[0],
        to_anchor_id=f"rear-{side}",
        old=None if sort == "in" else old,
        new=None if sort == "out" else new,
    )
