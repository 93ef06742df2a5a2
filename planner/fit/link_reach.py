"""How far a piece of spoke may reach into both bores and still get round every bend and through every wall."""

from collections.abc import Sequence
from math import inf

from planner.fit.guide_fit import longest_in_guide_mm
from planner.fit.wall_fit import find_longest_through_port
from planner.parts import Guide, Port
from planner.quick_dataclass import dataclass
from planner.verdicts import Thing


@dataclass(frozen=True, slots=True, kw_only=True)
class GuideOnWay:
    """A guide that the link is drawn through.

    run_id : the run it belongs to
    """

    run_id: str
    guide: Guide


@dataclass(frozen=True, slots=True, kw_only=True)
class WallOnWay:
    """A port between the link and an open cavity.

    run_id : the run in the cavity
    corridor_mm : clear width of the cavity; None when not measured [mm]
    """

    port: Port
    run_id: str
    corridor_mm: float | None


@dataclass(frozen=True, slots=True, kw_only=True)
class LinkReach:
    """The longest reach of a spoke link on one way.

    reach_mm : length in each bore that passes every measured place, worst case; infinite where none limits it [mm]
    run_id, port_id : the place that decides; no port for a guide, neither where nothing limits it
    not_measured : ids of the runs whose places could not be asked: what is told holds without them only
    """

    reach_mm: float
    run_id: str | None
    port_id: str | None
    not_measured: tuple[str, ...]


def find_longest_reach(*, line: Thing, guides: Sequence[GuideOnWay], walls: Sequence[WallOnWay]) -> LinkReach:
    """The longest reach of a spoke link that still passes every guide's bend and every wall on its way.

    The rod keeps both lines straight over its whole length, so that the link counts as a rigid piece of twice its reach
    and as thick as the line. The give of the rod is left out, which asks too much of it rather than too little: a steel
    rod of 2 mm springs back from bends of some 190 mm and wider only (E * d / (2 * sigma) at 193 GPa and 1000 MPa).

    Returns the reach, proven to pass at the worse limit of every size, and the place that decides; the first of
    equals.

    line : the thicker of the two lines
    guides : the guides on the way, in any order
    walls : the ports into and out of open cavities on the way, in any order

    Common practice, no source: twice the reach is rigid. The rod's give: elementary beam theory. The limits:
    see planner.fit.guide_fit and planner.fit.wall_fit.
    """
    limits: list[tuple[float | None, str, str | None]]
    limits = [(_in_guide_mm(line, way), way.run_id, None) for way in guides]
    limits += [(_through_wall_mm(line, way), way.run_id, way.port.id) for way in walls]
    known = [(length_mm, run_id, port_id) for length_mm, run_id, port_id in limits if length_mm is not None]
    length_mm, run_id, port_id = min(known, key=lambda limit: limit[0], default=(inf, None, None))
    is_limited = length_mm < inf
    return LinkReach(
        reach_mm=length_mm / 2,
        run_id=run_id if is_limited else None,
        port_id=port_id if is_limited else None,
        not_measured=tuple(dict.fromkeys(run_id for found_mm, run_id, _ in limits if found_mm is None)),
    )


def _in_guide_mm(line: Thing, way: GuideOnWay) -> float | None:
    return longest_in_guide_mm(guide=way.guide, item=line, is_worst_case=True)


def _through_wall_mm(line: Thing, way: WallOnWay) -> float | None:
    found = find_longest_through_port(port=way.port, corridor_mm=way.corridor_mm, item=line, is_worst_case=True)
    return None if found is None else found.length_mm
