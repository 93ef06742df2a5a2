"""The mark of a hole, the same in a side view and in a strip."""

from planner.documents.drawings.drawing_marks import badge, outcome_mark
from planner.documents.drawings.route_scene import RouteScene, decides, mark_size_mm, stops_every_way
from planner.documents.drawings.svg import INK, NEW_LINE, PAPER, WARN, PaperPoint, circle
from planner.verdicts import Outcome


def port_mark(scene: RouteScene, port_id: str, at: PaperPoint) -> list[str]:
    """The mark of a port: its number on the way, whether it decides, stops every way or is picked.

    scene : what is drawn
    at : where on the paper
    """
    parts = [circle(at, diameter_mm=mark_size_mm(scene, port_id), fill="none", stroke="none")]
    if port_id == scene.picked_port:
        parts.append(circle(at, diameter_mm=8.6, stroke=NEW_LINE, width_mm=0.9))
    if stops_every_way(scene, port_id):
        return [*parts, outcome_mark(at, Outcome.NO_FIT, size_mm=4.4)]
    if decides(scene, port_id):
        parts.append(circle(at, diameter_mm=6.6, stroke=WARN, width_mm=0.8, fill=PAPER))
    if port_id in scene.plan.route:
        number = str(scene.plan.route.index(port_id) + 1)
        return [*parts, badge(at, number, diameter_mm=4.6, fill=WARN if decides(scene, port_id) else INK)]
    return [*parts, circle(at, diameter_mm=2.4, fill=PAPER, stroke=INK, width_mm=0.5)]
