"""What a side view shows: a plan on its frame, and where everything lies on the paper."""

from collections.abc import Iterable
from dataclasses import dataclass
from typing import TypeVar

from planner.documents.drawings.side_view import middle_of, places_in_order
from planner.documents.drawings.svg import PaperPoint, PaperView
from planner.documents.words.sizes_in_words import NOT_MEASURED, millimetres
from planner.parts import Anchor, Frame, JobEnd, Point, Port
from planner.plan.routing_plan import RoutingPlan
from planner.verdicts import Check

Placed = TypeVar("Placed", Port, Anchor)

ROOMY_MM = 120.0
"""On narrower paper numbers and a list must do: only what decides is named at the port itself."""

MOST_NAMED = 3
"""So many ports have their names beside them on narrow paper, where no way numbers them."""


@dataclass(frozen=True, slots=True, kw_only=True)
class RouteScene:
    """What is drawn and how it lies on the paper.

    plan, frame : what is shown, the frame in the posture shown
    legs : points of each run of the route, from the job's `from`
    view : scale and place
    width_mm : of the paper [mm]
    picked_port : the port that is ringed; "" for none
    decider : the check that decides the verdict
    """

    plan: RoutingPlan
    frame: Frame
    legs: dict[str, tuple[Point, ...]]
    view: PaperView
    width_mm: float
    picked_port: str
    decider: Check | None

    def seen(self, point: Point) -> PaperPoint:
        """Where a point in space lies on the paper."""
        return self.view.at(point[0], point[2])


def seen_places(scene: RouteScene, places: Iterable[Placed]) -> list[tuple[Placed, PaperPoint]]:
    """Ports or anchors with where they lie on the paper; those without a place are not drawn.

    scene : what is drawn
    """
    return [(place, scene.seen(place.position_mm)) for place in places if place.position_mm is not None]


def numbered_ports(scene: RouteScene) -> tuple[str, ...]:
    """Ids of the ports that stand by number and are named in a list below, where their names would crowd the paper.

    scene : what is drawn; the ports of a way have the numbers of the way
    """
    placed = tuple(port.id for port, _ in seen_places(scene, scene.frame.ports.values()))
    is_crowded = scene.width_mm < ROOMY_MM and len(placed) > MOST_NAMED
    return placed if is_crowded and not scene.plan.route else ()


def ends_of(scene: RouteScene) -> tuple[str, ...]:
    """Ids of the two anchors of the job; none for a bare frame.

    scene : what is drawn
    """
    places = places_in_order(scene.plan, scene.frame)
    if places:
        return (places[0], places[-1])
    return tuple(one for one in (scene.plan.from_anchor_id, scene.plan.to_anchor_id) if one)


def decides(scene: RouteScene, port_id: str) -> bool:
    """Whether this port decides the verdict.

    scene : what is drawn
    """
    return scene.decider is not None and scene.decider.port_id == port_id


def deciding_words(scene: RouteScene) -> str:
    """How much room the place that decides has at worst.

    scene : what is drawn
    """
    worst_mm = scene.decider.worst_clearance_mm if scene.decider else None
    return NOT_MEASURED if worst_mm is None else f"{millimetres(worst_mm)} at worst"


def deciding_run_place(scene: RouteScene) -> PaperPoint | None:
    """Middle of the run that decides the verdict, where no port does.

    scene : what is drawn
    """
    decider = scene.decider
    if decider is None or decider.port_id or decider.run_id not in scene.legs:
        return None
    return middle_of([scene.seen(point) for point in scene.legs[decider.run_id]], share=0.4)


def stops_every_way(scene: RouteScene, port_id: str) -> bool:
    """Whether this port stands in every way.

    scene : what is drawn
    """
    return scene.plan.no_route is not None and port_id in scene.plan.no_route.ports


def mark_size_mm(scene: RouteScene, port_id: str) -> float:
    """How wide the mark of a port is on the paper.

    scene : what is drawn
    """
    if port_id == scene.picked_port:
        return 9.8
    return 8.0 if decides(scene, port_id) else 5.6


def cut_leg(scene: RouteScene) -> list[PaperPoint]:
    """The leg along which the old line is cut, starting at that end; empty where nothing is cut or no plan says so.

    scene : what is drawn
    """
    if scene.plan.cut_old_at is None or not scene.legs or not scene.plan.outcome.lets_work_begin:
        return []
    is_first = scene.plan.cut_old_at is JobEnd.FROM
    points = scene.legs.get(scene.plan.runs[0 if is_first else -1], ())
    return [scene.seen(point) for point in (points if is_first else reversed(points))]
