"""A frame and a finished plan made by hand, so that pictures can be tested without planning anything."""

import xml.etree.ElementTree as ET
from math import dist

from planner.documents.drawings.label_places import Area
from planner.fit.port_fit import find_hole_seen
from planner.geometry.motion.frame_axes import Curve
from planner.parts import (
    OUTSIDE,
    Anchor,
    Bar,
    Frame,
    Guide,
    Insert,
    JobEnd,
    MovesWith,
    Point,
    Port,
    RoundOpening,
    Run,
    SinglePivot,
    SlotOpening,
    Zone,
)
from planner.plan.lengths import LegLength, Lengths
from planner.plan.routing_plan import Joint, NoRoute, Rejection, RoutingPlan
from planner.rules import PlaceRule
from planner.verdicts import Check, FitClass, NoWay, Outcome, Placement, Pose, State, Thing, ThingKind

SVG = "{http://www.w3.org/2000/svg}"
ROUTE = ("neck-left", "belly-left", "stay-front", "stay-rear")
JOINT = Thing(id="joint", kind=ThingKind.JOINT, diameter_mm=5.23, tolerance_mm=0.05, rigid_length_mm=21)
WORST_MM = (1.42, 1.21, 1.12, 1.12)


def make_frame() -> Frame:
    """The invented frame of the example files."""
    ports = (
        Port(
            id="neck-left",
            label="Down tube, upper left",
            joins=(OUTSIDE, "down_tube"),
            position_mm=(416, 24, 520),
            heading=(-0.48, -0.643, -0.60),
            opening=SlotOpening(length_mm=19, width_mm=7, tolerance_mm=0.1),
            tilt_deg=50,
            wall_thickness_mm=1.6,
            insert=Insert(opening=SlotOpening(length_mm=10.2, width_mm=5.4, tolerance_mm=0.1), is_removable=True),
        ),
        Port(
            id="belly-left",
            label="Down tube, lower left, in a moulded boss that faces down the tube",
            joins=("down_tube", OUTSIDE),
            position_mm=(58, 20, 96),
            heading=(-0.62, 0.10, -0.78),
            opening=RoundOpening(diameter_mm=7, tolerance_mm=0.1),
            tilt_deg=10,
            wall_thickness_mm=1.6,
        ),
        Port(
            id="stay-front",
            label="Chainstay, front left",
            joins=(OUTSIDE, "stay_left"),
            position_mm=(-26, 40, 27),
            heading=(-0.998, 0.064, -0.048),
            opening=RoundOpening(diameter_mm=6.5, tolerance_mm=0.1),
            wall_thickness_mm=1.2,
        ),
        Port(
            id="stay-rear",
            label="Chainstay, rear left",
            joins=("stay_left", OUTSIDE),
            position_mm=(-392, 64, 10),
            heading=(-0.998, 0.064, -0.048),
            opening=RoundOpening(diameter_mm=6.5, tolerance_mm=0.1),
            wall_thickness_mm=1.2,
        ),
    )
    zones = (
        Zone(id="down_tube", path_mm=((428, 0, 548), (38, 0, 62)), bore_diameter_mm=44),
        Zone(id="stay_left", path_mm=((-24, 40, 28), (-396, 64, 10)), bore_diameter_mm=19),
    )
    anchors = (
        Anchor(id="bar-right", position_mm=(470, -210, 690), heading=(0.5, 0.85, 0.1), moves_with=MovesWith.BAR),
        Anchor(id="bar-left", position_mm=(470, 210, 690), heading=(0.5, -0.85, 0.1), moves_with=MovesWith.BAR),
        Anchor(id="caliper-rear", position_mm=(-470, 78, 48), heading=(0.9, -0.1, -0.42), moves_with=MovesWith.REAR),
    )
    guide = Guide(bore_diameter_mm=6.2, bend_radius_mm=400, turn_deg=12, tolerance_mm=0.1)
    runs = (
        Run(id="cockpit", zone_id=OUTSIDE, between=("bar-right", "neck-left")),
        Run(id="down-run", zone_id="down_tube", between=("neck-left", "belly-left")),
        Run(id="bb-loop", zone_id=OUTSIDE, between=("belly-left", "stay-front")),
        Run(id="stay-run", zone_id="stay_left", between=("stay-front", "stay-rear"), guide=guide),
        Run(id="tail", zone_id=OUTSIDE, between=("stay-rear", "caliper-rear")),
    )
    return Frame(
        id="larkmoor-140",
        name="Larkmoor 140 trail frame (invented)",
        zones={zone.id: zone for zone in zones},
        ports={port.id: port for port in ports},
        anchors={anchor.id: anchor for anchor in anchors},
        runs={run.id: run for run in runs},
        bar=Bar(axis_point_mm=(405, 0, 612), axis=(-0.42, 0, 0.91), lock_deg=75),
        rear=SinglePivot(pivot_mm=(12, 58), swing_deg=15, moves=("stay-front", "stay-rear", "caliper-rear")),
    )


def make_plan(*, with_lengths: bool = True) -> RoutingPlan:
    """A plan that works, with numbers near the real ones."""
    return RoutingPlan(
        job_id="rear-brake-swap",
        job_title="Rear brake swap on the Larkmoor 140",
        frame_id="larkmoor-140",
        frame_name="Larkmoor 140 trail frame (invented)",
        new_line_name="Calder 4 (invented)",
        old_line_name="Orrin 2 (invented)",
        outcome=Outcome.FITS,
        route=ROUTE,
        runs=("cockpit", "down-run", "bb-loop", "stay-run", "tail"),
        method_id="stud-26",
        method_name="Threaded coupler 2.6",
        feed_from=JobEnd.FROM,
        cut_old_at=JobEnd.FROM,
        joint=Joint(thing=JOINT, holds_n=60, drag_n=6.1),
        checks=tuple(_port_check(port_id, worst_mm) for port_id, worst_mm in zip(ROUTE, WORST_MM, strict=True)),
        lengths=make_lengths() if with_lengths else None,
    )


def make_stopped_plan() -> RoutingPlan:
    """A plan that ends in "no way"."""
    miss = Rejection(
        method_id="sleeve-46",
        feed_from=JobEnd.FROM,
        check=Check(
            rule=PlaceRule.PORT_CLEARANCE,
            outcome=Outcome.NO_FIT,
            port_id="belly-left",
            size_mm=6.71,
            available_mm=6.62,
            clearance_mm=-0.09,
        ),
    )
    return RoutingPlan(
        job_id="stopped",
        job_title="Rear brake swap that cannot be done",
        frame_id="larkmoor-140",
        frame_name="Larkmoor 140 trail frame (invented)",
        new_line_name="Calder 4 (invented)",
        old_line_name="Orrin 2 (invented)",
        outcome=Outcome.NO_FIT,
        rejected=(miss,),
        no_route=NoRoute(reason=NoWay.STOPPED, ports=("belly-left",), runs=("stay-run",), closest_misses=(miss,)),
    )


def make_lengths() -> Lengths:
    """Leg by leg, with straight lines for curves."""
    frame = make_frame()
    legs = []
    for run in frame.runs.values():
        ends = tuple(_place(frame, place_id) for place_id in run.between)
        length_mm = dist(*ends)
        legs.append(
            LegLength(
                run_id=run.id,
                from_place=run.between[0],
                to_place=run.between[1],
                way_mm=length_mm,
                nominal_mm=length_mm,
                low_mm=length_mm,
                high_mm=length_mm * 1.06,
                least_mm=length_mm,
                basis="shortest curve",
                curve=Curve(points_mm=ends, length_mm=length_mm, tightest_radius_mm=None),
            )
        )
    return Lengths(
        legs=tuple(legs), need_mm=1842, cut_mm=1860, supplied_mm=2100, spare_mm=240, insertion_mm=22, trim_mm=10
    )


def make_motion() -> tuple[Pose, ...]:
    """A piece that dips through a wall and lies down, in small steps."""
    return tuple(Pose(x_mm=20 * k / 20, y_mm=-14 + 26 * k / 20, tilt_deg=60 - 60 * k / 20) for k in range(21))


def boxes_of_words(svg: str) -> list[tuple[str, Area]]:
    """Every row of words in a picture with about the paper it takes."""
    found = []
    for node in ET.fromstring(svg).iter(f"{SVG}text"):
        height, words = float(node.get("font-size", "0")), node.text or ""
        x, y = float(node.get("x", "0")), float(node.get("y", "0"))
        width = len(words) * height * 0.55
        left = x - {"start": 0.0, "middle": width / 2, "end": width}[node.get("text-anchor", "start")]
        found.append((words, Area(left_mm=left, top_mm=y - height * 0.8, right_mm=left + width, bottom_mm=y + 0.2)))
    return found


def _place(frame: Frame, place_id: str) -> Point:
    return (frame.ports[place_id] if place_id in frame.ports else frame.anchors[place_id]).position_mm


def _port_check(port_id: str, worst_mm: float) -> Check:
    port = make_frame().ports[port_id]
    return Check(
        rule=PlaceRule.PORT_CLEARANCE,
        state=State.DRAWING,
        port_id=port_id,
        thing=JOINT,
        room=find_hole_seen(port=port, is_insert_out=True),
        with_ids=("gear-40",) if port_id == "neck-left" else (),
        size_mm=5.23,
        available_mm=5.23 + worst_mm + 0.15,
        clearance_mm=worst_mm + 0.15,
        worst_clearance_mm=worst_mm,
        fit_class=FitClass.CLEARANCE,
        outcome=Outcome.FITS,
        placement=Placement(centres_mm=((-2.5, 0.0), (3.0, 0.0)), diameters_mm=(5.23, 4.0))
        if port_id == "neck-left"
        else Placement(centres_mm=((0.0, 0.0),), diameters_mm=(5.23,)),
    )
