"""Whether the zones, ports, anchors and runs of one frame belong together."""

from collections.abc import Iterator
from difflib import get_close_matches
from typing import Any

from pydantic import BaseModel

from catalog.entry_checks import guide_complaints, opening_complaints, run_complaints
from catalog.frame_tables import CockpitEntry, GeometryEntry
from catalog.frames import AnchorEntry, BarEntry, PortEntry, RearEntry, RunEntry, ZoneEntry
from catalog.job_checks import KnownFrame
from catalog.mechanic_errors import Complaint, did_you_mean
from catalog.port_places import on_complaints
from catalog.read_files import Placed, accepted, accepted_as
from catalog.told_motion import motion_complaints
from catalog.told_places import ToldFrame, drawn_zone_ids, find_places, zone_complaints
from catalog.yaml_text import Path
from planner.parts import OUTSIDE, MovesWith

_KINDS: dict[str, type[BaseModel]] = {"zones": ZoneEntry, "ports": PortEntry, "anchors": AnchorEntry, "runs": RunEntry}


class _FrameParts:
    """The parts of a frame that were accepted, even where the frame as a whole was not."""

    def __init__(self, frame: Placed) -> None:
        raw = frame.raw if isinstance(frame.raw, dict) else {}
        self.raw = {name: raw[name] if isinstance(raw.get(name), list) else [] for name in _KINDS}
        self.raw_frame = raw
        self.raw_rear: Any = raw.get("rear")
        self.geometry: GeometryEntry | None = accepted(GeometryEntry, raw.get("geometry"))
        drawn = () if raw.get("geometry") is None else drawn_zone_ids(self.geometry)
        self.zone_ids = list(dict.fromkeys((*self._ids("zones"), *drawn)))
        self.port_ids = self._ids("ports")
        self.anchor_ids = self._ids("anchors")
        self.run_ids = self._ids("runs")
        self._frame = frame

    def _ids(self, name: str) -> list[str]:
        return [item["id"] for item in self.raw[name] if isinstance(item, dict) and isinstance(item.get("id"), str)]

    def has_zones(self, zones: tuple[str, ...]) -> bool:
        """Whether all of these zones exist."""
        return all(zone == OUTSIDE or zone in self.zone_ids for zone in zones)

    def told(self) -> ToldFrame:
        """What says where something lies, as far as it is accepted; without holes told wrongly on their tubes."""
        ports = [(place, port) for place, port in self.items("ports") if _is_told_well(port)]
        raw = self.raw_frame
        return ToldFrame(
            zones=tuple(zone for _, zone in self.items("zones")),
            ports=tuple(ports),
            anchors=tuple(anchor for _, anchor in self.items("anchors")),
            runs=tuple(run for _, run in self.items("runs")),
            geometry=self.geometry,
            cockpit=accepted(CockpitEntry, raw.get("cockpit")),
            bar=accepted(BarEntry, raw.get("bar")),
            rear=accepted_as(RearEntry, raw.get("rear")),
        )

    def items(self, name: str) -> Iterator[tuple[int, Any]]:
        """Every accepted item of a list, with its place."""
        if self._frame.entry is not None:
            yield from enumerate(getattr(self._frame.entry, name))
            return
        for place, raw in enumerate(self.raw[name]):
            item = accepted(_KINDS[name], raw)
            if item is not None:
                yield place, item


def _is_told_well(port: PortEntry) -> bool:
    return port.on is None or not any(on_complaints(port.on, port.joins, ()))


def known_frame(frame: Placed) -> KnownFrame:
    """What a job may name on a frame, also where the frame is not accepted as a whole."""
    found = _FrameParts(frame)
    return KnownFrame(
        anchors=frozenset(found.anchor_ids), ports=frozenset(found.port_ids), runs=frozenset(found.run_ids)
    )


def frame_complaints(frame: Placed) -> Iterator[Complaint]:
    """Everything in a frame that does not belong together."""
    found = _FrameParts(frame)
    for place, zone in enumerate(found.raw["zones"]):
        if isinstance(zone, dict) and zone.get("id") == OUTSIDE:
            yield ("zones", place, "id"), f"{OUTSIDE} was given", "that zone exists on every frame: leave it out"
    ports: dict[str, PortEntry] = {}
    for place, port in found.items("ports"):
        ports.setdefault(port.id, port)
        yield from _port_complaints(port, place, found)
    for place, anchor in found.items("anchors"):
        yield from _place_complaints(anchor, ("anchors", place))
    for place, run in found.items("runs"):
        yield from _run_complaints(run, place, found, ports)
    yield from _moves_complaints(found)
    yield from _telling_complaints(found)


def _telling_complaints(found: _FrameParts) -> Iterator[Complaint]:
    """What is wrong with places told on tubes or by a geometry table, and with what is drawn from it."""
    for place, zone in found.items("zones"):
        yield from zone_complaints(zone, ("zones", place))
    told = found.told()
    if told.cockpit is not None and found.raw_frame.get("geometry") is None:
        yield ("cockpit",), "a cockpit was given without geometry", "geometry, which it is drawn on"
    is_drawn = found.geometry is not None or found.raw_frame.get("geometry") is None
    if is_drawn:  # else everything on the table would be told again
        places = find_places(told)
        yield from places.complaints
        yield from motion_complaints(told, table=places.table)


def _place_complaints(placed: PortEntry | AnchorEntry, path: Path) -> Iterator[Complaint]:
    """A place and its heading are told together, or neither is."""
    if (placed.at is None) is not (placed.heading is None):
        given, missing = ("heading", "at") if placed.at is None else ("at", "heading")
        yield (*path, given), f"{given} was given without {missing}", "both, or neither"


def _port_complaints(port: PortEntry, place: int, found: _FrameParts) -> Iterator[Complaint]:
    path = ("ports", place)
    yield from _place_complaints(port, path)
    if port.on is not None:
        yield from on_complaints(port.on, port.joins, (*path, "on"))
    for end, zone in enumerate(port.joins):
        if zone != OUTSIDE and zone not in found.zone_ids:
            yield (*path, "joins", end), f"there is no zone {zone}", did_you_mean(zone, [*found.zone_ids, OUTSIDE])
    if port.joins[0] == port.joins[1]:
        yield (*path, "joins"), f"{port.joins[0]} was given twice", "two different zones"
    if port.opening is not None:
        yield from opening_complaints(port.opening, (*path, "opening"))
    if port.insert is not None:
        yield from opening_complaints(port.insert.opening, (*path, "insert", "opening"))
        if port.opening is not None:
            yield from _insert_complaints(port, (*path, "insert", "opening"))


def _insert_complaints(port: PortEntry, path: tuple[str | int, ...]) -> Iterator[Complaint]:
    if port.insert is None or port.opening is None or port.opening.shape == "gauge":
        return
    insert, is_round = port.insert.opening, port.insert.opening.shape == "round"
    both = zip(("length", "width"), insert.extent_mm, port.opening.extent_mm, strict=True)
    wider = [(name, size, room) for name, size, room in both if size > room]
    for name, size, room in wider[:1] if is_round else wider:
        field = "diameter" if is_round else "points" if insert.shape == "outline" else name
        given = f"the hole in the insert is {size:g} mm"
        yield (*path, field), given, f"at most the {name} of the port it sits in, {room:g} mm, is allowed"


def _run_complaints(run: RunEntry, place: int, found: _FrameParts, ports: dict[str, PortEntry]) -> Iterator[Complaint]:
    path = ("runs", place)
    zone_known = run.zone == OUTSIDE or run.zone in found.zone_ids
    if not zone_known:
        yield (*path, "zone"), f"there is no zone {run.zone}", did_you_mean(run.zone, [*found.zone_ids, OUTSIDE])
    if run.between[0] == run.between[1]:
        yield (*path, "between"), f"{run.between[0]} was given twice", "two different ports or anchors"
    for end, id_ in enumerate(run.between):
        here = (*path, "between", end)
        joins = ports[id_].joins if id_ in ports else ()
        if joins and zone_known and run.zone not in joins and found.has_zones(joins):
            joined = " and ".join(joins)
            yield here, f"port {id_} joins {joined}, not {run.zone}", "a port that joins the zone of the run"
        elif id_ in found.anchor_ids and id_ not in found.port_ids and zone_known and run.zone != OUTSIDE:
            yield here, f"anchor {id_} lies outside, the run in {run.zone}", f"zone: {OUTSIDE}, or a port of {run.zone}"
        elif id_ not in found.port_ids and id_ not in found.anchor_ids:
            known = did_you_mean(id_, [*found.port_ids, *found.anchor_ids])
            yield here, f"there is no port or anchor {id_}", known
    yield from run_complaints(run, path)
    if run.guide is not None:
        yield from guide_complaints(run.guide, (*path, "guide"))


def _moves_complaints(found: _FrameParts) -> Iterator[Complaint]:
    moves = found.raw_rear.get("moves") if isinstance(found.raw_rear, dict) else None
    known = [*found.port_ids, *found.anchor_ids]
    meant: set[str] = set()
    for place, id_ in enumerate(moves if isinstance(moves, list) else ()):
        if isinstance(id_, str) and id_ not in known:
            meant.update(get_close_matches(id_, known, n=1))
            yield ("rear", "moves", place), f"there is no port or anchor {id_}", did_you_mean(id_, known)
    for name in ("ports", "anchors"):
        for place, rider in found.items(name):
            if rider.id not in meant:
                yield from _rider_complaints(rider, (name, place, "moves_with"), found.raw_rear is not None, moves)


def _rider_complaints(rider: PortEntry | AnchorEntry, path: Path, has_rear: bool, moves: object) -> Iterator[Complaint]:
    """What a port or anchor says of itself against what the rear end says; leaving it to the rear end is enough."""
    if rider.moves_with is MovesWith.REAR and not has_rear:
        yield path, "rear was given on a frame without one", "rear: how it moves, or moves_with left out"
    elif rider.moves_with is MovesWith.REAR and isinstance(moves, list) and rider.id not in moves:
        yield path, f"rear was given, but rear moves does not name {rider.id}", f"{rider.id} in both or in neither"
    elif rider.moves_with is MovesWith.BAR and isinstance(moves, list) and rider.id in moves:
        yield path, f"bar was given, but rear moves names {rider.id}", "one of the two: it rides on one thing"
