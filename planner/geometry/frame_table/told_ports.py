"""Holes told on their tubes, all of a frame at once: which way a line goes on inside hangs on the holes beside."""

from collections.abc import Iterator, Mapping, Sequence

from planner.errors import ImpossibleDimensionError
from planner.geometry.frame_table.port_on_tube import pose_in_end, pose_in_side, pose_in_window, radius_at_mm
from planner.geometry.frame_table.tube_path import (
    Station,
    nearest_station,
    nearest_stations,
    path_length_mm,
    station_at,
)
from planner.geometry.motion.frame_axes import Pose3
from planner.parts import ToldPort, Tube, TubeEnd, TubePlace
from planner.quick_dataclass import dataclass

RunInZone = tuple[str, tuple[str, str]]
"""A run: its zone, and the two ports it links."""


@dataclass(frozen=True, slots=True, kw_only=True)
class NotPlaced:
    """Why a hole cannot be placed from what is told of it.

    field : of the hole's place, that the reason is about
    given, allowed : what is the matter, and what would do
    """

    field: str
    given: str
    allowed: str


def find_port_poses(
    *, tubes: Mapping[str, Tube], ports: Sequence[ToldPort], runs: Sequence[RunInZone]
) -> dict[str, Pose3 | NotPlaced]:
    """Where the holes that are told on their tubes sit, and the way a line points in each.

    tubes : by the ids of their zones; only those whose path is known
    ports : of the whole frame, also those told by numbers

    Returns for each hole told on a tube its pose, or why there is none.

    >>> tubes = {"tube": Tube(path_mm=((0, 0, 0), (-400, 0, 0)), bore_mm=16, outer_mm=None)}
    >>> on = TubePlace(zone_id="tube", end=TubeEnd.START)
    >>> port = ToldPort(id="p", joins=("outside", "tube"), at_mm=None, on=on, is_window=False, wall_mm=1)
    >>> find_port_poses(tubes=tubes, ports=[port], runs=[])["p"].heading
    (-1.0, 0.0, 0.0)
    """
    by_id = {port.id: port for port in ports}
    ways = _Ways(tubes=tubes, ports=by_id, runs=tuple(runs))
    found: dict[str, Pose3 | NotPlaced] = {}
    for port in ports:
        if port.on is not None or port.is_window:
            try:
                found[port.id] = _window(port, ways) if port.is_window else _on_tube(port, ways)
            except ImpossibleDimensionError as wrong:
                given = f"{wrong.value:.3g}{f' {wrong.unit}' if wrong.unit else ''}: it {wrong.rule}"
                found[port.id] = NotPlaced(field=wrong.name, given=given, allowed="`at` and `heading` by numbers")
    return found


@dataclass(frozen=True, slots=True, kw_only=True)
class _Ways:
    tubes: Mapping[str, Tube]
    ports: Mapping[str, ToldPort]
    runs: tuple[RunInZone, ...]

    def goes_on(self, port: ToldPort, zone_id: str, distance_mm: float) -> bool:
        """Whether the runs of a hole lie towards the last point of a path; where it has none, the longer way."""
        far_mm = list(self._far_ends_mm(port, zone_id))
        towards_mm = sum(far_mm) / len(far_mm) if far_mm else path_length_mm(self.tubes[zone_id].path_mm) / 2
        return towards_mm > distance_mm

    def _far_ends_mm(self, port: ToldPort, zone_id: str) -> Iterator[float]:
        for zone, between in self.runs:
            if zone == zone_id and port.id in between:
                far = self.ports.get(between[1] if between[0] == port.id else between[0])
                station = None if far is None else self._station(far, zone_id)
                if station is not None:
                    yield station.distance_mm

    def _station(self, port: ToldPort, zone_id: str) -> Station | None:
        path_mm = self.tubes[zone_id].path_mm
        if port.at_mm is not None:
            return nearest_station(path_mm, port.at_mm)
        if port.on is not None:
            tube = self.tubes.get(port.on.zone_id)
            if port.on.zone_id == zone_id or tube is None:
                return _told_station(port.on, self.tubes[zone_id]) if tube is not None else None
            return nearest_station(path_mm, _told_station(port.on, tube).position_mm)
        both = [self.tubes.get(zone) for zone in port.joins]
        if not port.is_window or None in both:
            return None
        first, second = nearest_stations(*(tube.path_mm for tube in both if tube is not None))
        return first if port.joins[0] == zone_id else second


def _told_station(on: TubePlace, tube: Tube) -> Station:
    length_mm = path_length_mm(tube.path_mm)
    if on.from_start_mm is not None:
        return station_at(tube.path_mm, distance_mm=on.from_start_mm)
    if on.from_end_mm is not None:
        return station_at(tube.path_mm, distance_mm=length_mm - on.from_end_mm)
    return station_at(tube.path_mm, distance_mm=0.0 if on.end is TubeEnd.START else length_mm)


def _on_tube(port: ToldPort, ways: _Ways) -> Pose3 | NotPlaced:
    on = port.on
    assert on is not None
    tube = ways.tubes.get(on.zone_id)
    if tube is None:
        return NotPlaced(field="zone", given=f"zone {on.zone_id} has no path", allowed="a path, or `geometry`")
    station, goes_in = _told_station(on, tube), on.zone_id == port.joins[1]
    if on.end is not None:
        return pose_in_end(
            station=station, is_last=on.end is TubeEnd.END, goes_in=goes_in, off_mm=on.off_mm or 0.0, side=on.side
        )
    radius_mm = _radius_mm(port, on, tube)
    if on.side is None or radius_mm is None:
        missing = "side" if on.side is None else "off"
        return NotPlaced(field=missing, given="nothing was given", allowed=_WANTED[missing])
    return pose_in_side(
        station=station,
        side=on.side,
        lean_deg=on.lean_deg,
        radius_mm=radius_mm,
        goes_in=goes_in,
        goes_on=ways.goes_on(port, on.zone_id, station.distance_mm),
    )


_WANTED = {
    "side": "left, right, top, bottom, front, back or an hour of the clock",
    "off": "`outer` or `bore` of the zone, or how far the hole is from the middle line",
}


def _radius_mm(port: ToldPort, on: TubePlace, tube: Tube) -> float | None:
    if on.off_mm is not None:
        return on.off_mm
    if tube.outer_mm is not None and on.side is not None:
        across_mm, up_mm = tube.outer_mm
        return radius_at_mm(across_mm=across_mm, up_mm=up_mm, side=on.side)
    return None if tube.bore_mm is None else tube.bore_mm / 2 + port.wall_mm


def _window(port: ToldPort, ways: _Ways) -> Pose3 | NotPlaced:
    if not all(zone in ways.tubes for zone in port.joins):
        missing = " and ".join(zone for zone in port.joins if zone not in ways.tubes)
        return NotPlaced(
            field="", given=f"a window was given, and {missing} has no path", allowed="two tubes with paths"
        )
    first, second = nearest_stations(*(ways.tubes[zone].path_mm for zone in port.joins))
    comes_from_start = not ways.goes_on(port, port.joins[0], first.distance_mm)
    goes_on = ways.goes_on(port, port.joins[1], second.distance_mm)
    return pose_in_window(first=first, second=second, goes_on=(comes_from_start, goes_on))
