"""Jobs that are sound and of any shape: a frame with ways drawn at random, lines, what stays, what is allowed."""

import json
from dataclasses import dataclass
from itertools import pairwise
from math import cos, dist, pi, sin
from random import Random
from typing import Any

from catalog import read_catalog
from planner.parts import LineKind

Fields = dict[str, Any]

STARTER = read_catalog()
BRAKES, LINES = tuple(STARTER.brakes), tuple(STARTER.lines)
HOSES = tuple(line.id for line in STARTER.lines.values() if line.kind is LineKind.HYDRAULIC_HOSE)


@dataclass(frozen=True, slots=True, kw_only=True)
class Size:
    """How large the frame of a random job is.

    share : of all jobs
    zones, holes : least and most cavities, and least and most holes in each wall between them
    runs_share, led_share : of the pairs of holes that a run joins, and of the runs that are led past points
    points : how many of those a led run may have
    """

    name: str
    share: float
    zones: tuple[int, int]
    holes: tuple[int, int]
    runs_share: float
    led_share: float
    points: tuple[int, ...]


SIZES = (
    Size(name="small", share=0.9, zones=(1, 2), holes=(1, 2), runs_share=0.8, led_share=0.04, points=(1, 1, 2)),
    Size(name="middle", share=0.095, zones=(1, 4), holes=(1, 3), runs_share=0.8, led_share=0.1, points=(1, 2, 3, 20)),
    Size(name="large", share=0.005, zones=(6, 12), holes=(4, 8), runs_share=0.25, led_share=0.02, points=(1, 2)),
)
"""Most are small, so that many are seen; the large ones have 30 to 100 holes."""


def random_size(draw: Random) -> Size:
    """One of the sizes, each as often as its share."""
    return draw.choices(SIZES, weights=[size.share for size in SIZES])[0]


def random_job_files(draw: Random, *, size: Size) -> dict[str, bytes]:
    """A catalog file and a job file by name."""
    frame = _frame(draw, size)
    catalog: Fields = {"format": 1, "frames": [frame]}
    if draw.random() < 0.5:
        catalog["lines"] = [_line(draw, n) for n in range(2)]
    own = [line["id"] for line in catalog.get("lines", [])]
    job = _job(draw, frame, (*LINES, *own))
    for _ in range(draw.choice((0, 0, 1, 3, 8))):
        catalog = _pushed(draw, catalog)
    return {"frame.yaml": _text(catalog), "job.yaml": _text({"format": 1, "job": job})}


EXTREMES = (0, 1e-6, 0.3, 0.8, 1, 2, 5, 20, 60, 89.9, 180, 300, 360, 1000, 5000, -1, -90, -5000)
"""Ends of the ranges of one field or another."""


def _pushed(draw: Random, value: Any) -> Any:
    """The same with one number somewhere at the end of some range; the check may refuse that."""
    if isinstance(value, dict) and value:
        key = draw.choice(sorted(value))
        return {**value, key: _pushed(draw, value[key])}
    if isinstance(value, list) and value:
        place = draw.randrange(len(value))
        return [*value[:place], _pushed(draw, value[place]), *value[place + 1 :]]
    is_number = isinstance(value, int | float) and not isinstance(value, bool)
    return draw.choice(EXTREMES) if is_number and value != 1 else value


def _text(value: Fields) -> bytes:
    return json.dumps(value, ensure_ascii=False, indent=1).encode("utf-8")


def _near(draw: Random, middle: float, spread: float) -> float:
    return round(draw.uniform(middle - spread, middle + spread), draw.choice((0, 1, 3)))


def _point(draw: Random, x: float) -> list[float]:
    return [_near(draw, x, 60), _near(draw, 0, 60), _near(draw, 300 + x / 2, 60)]


def _direction(draw: Random) -> list[float]:
    around = draw.uniform(0, 2 * pi)
    flat = [round(-cos(around), 3), round(sin(around) / 3, 3), round(sin(around), 3)]
    return flat if any(flat) else [-1.0, 0.0, 0.0]


def _opening(draw: Random) -> Fields:
    width = round(draw.uniform(5, 11), 2)
    length = round(width + draw.uniform(0, 14), 2)
    shapes: tuple[Fields, ...] = (
        {"shape": "round", "diameter": width},
        {"shape": "round", "diameter": width},
        {"shape": "slot", "length": length, "width": width},
        {"shape": "oval", "length": length, "width": width},
        {"shape": "box", "length": length, "width": width, "corner_radius": round(draw.uniform(0, width / 2.1), 2)},
        {"shape": "outline", "points": _outline(draw, width)},
    )
    opening = dict(draw.choice(shapes))
    if draw.random() < 0.7:
        opening["tolerance"] = draw.choice((0.0, 0.05, 0.1, 0.3))
    return opening


def _outline(draw: Random, width: float) -> list[list[float]]:
    corners = draw.choice((3, 4, 5, 8, 12, 40, 200))
    reach = [width * draw.uniform(0.4, 1.2) for _ in range(corners)]
    turns = [2 * pi * n / corners for n in range(corners)]
    return [[round(r * cos(t), 2), round(r * sin(t), 2)] for r, t in zip(reach, turns, strict=True)]


def _port(draw: Random, port_id: str, joins: list[str], x: float) -> Fields:
    port: Fields = {"id": port_id, "joins": joins, "at": _point(draw, x), "heading": _direction(draw)}
    port["wall"] = round(draw.uniform(0.3, 5), 1)
    if draw.random() < 0.95:
        port["opening"] = _opening(draw)
    if draw.random() < 0.5:
        port["tilt"] = round(draw.uniform(0, 60) * draw.random(), 1)
    width = port.get("opening", {}).get("width", port.get("opening", {}).get("diameter"))
    if width is not None and draw.random() < 0.3:
        narrower = round(width * draw.uniform(0.6, 0.95), 2)
        port["insert"] = {"opening": {"shape": "round", "diameter": narrower}, "removable": draw.random() < 0.8}
    if draw.random() < 0.1:
        port["admits"] = draw.sample(["hydraulic_hose", "shift_housing", "inner_cable"], draw.randint(1, 2))
    if draw.random() < 0.2:
        port["label"] = draw.choice(("Upper left", "a_b *c* <d>", "„Ω“ \u202e", "x" * 120))
    return port


def _frame(draw: Random, size: Size) -> Fields:
    """Cavities one behind the other, holes in each wall between them, and runs in each."""
    zones_n = draw.randint(*size.zones)
    names = ["outside", *(f"tube_{n}" for n in range(zones_n)), "outside"]
    if draw.random() < 0.3 and zones_n > 2:
        names[2] = "outside"
    zones = [{"id": name, "path": [_point(draw, 300), _point(draw, -300)]} for name in dict.fromkeys(names[1:-1])]
    for zone in zones:
        if draw.random() < 0.9:
            zone["bore"] = round(draw.uniform(8, 50), 1)
    walls: list[list[Fields]] = []
    for n, joins in enumerate(pairwise(names)):
        x = 400 - 800 * (n + 1) / (zones_n + 2)
        walls.append([_port(draw, f"p{n}-{k}", list(joins), x) for k in range(draw.randint(*size.holes))])
    frame: Fields = {
        "id": "frame",
        "zones": [zone for zone in zones if zone["id"] != "outside"],
        "ports": [port for wall in walls for port in wall],
        "anchors": [_anchor(draw, "lever", 450), _anchor(draw, "caliper", -420)],
        "runs": list(_runs(draw, walls, size)),
    }
    _let_move(draw, frame)
    return frame


def _anchor(draw: Random, anchor_id: str, x: float) -> Fields:
    return {"id": anchor_id, "at": _point(draw, x), "heading": _direction(draw)}


def _runs(draw: Random, walls: list[list[Fields]], size: Size) -> Any:
    for port in walls[0]:
        yield _run(draw, "lever", port["id"], port["joins"][0], size)
    for before, behind in pairwise(walls):
        for one in before:
            for other in behind:
                shared = [zone for zone in one["joins"] if zone in other["joins"]]
                if shared and draw.random() < size.runs_share:
                    yield _run(draw, one["id"], other["id"], shared[-1], size, chord=dist(one["at"], other["at"]))
    for port in walls[-1]:
        yield _run(draw, port["id"], "caliper", port["joins"][1], size)
    if draw.random() < 0.1:
        yield _run(draw, "lever", "caliper", "outside", size)


def _run(draw: Random, start: str, end: str, zone: str, size: Size, *, chord: float | None = None) -> Fields:
    run: Fields = {"id": f"{start}-{end}", "zone": zone, "between": [start, end]}
    chance = draw.random()
    if chance < 0.2 and chord is not None:
        run["guide"] = {"bore": round(draw.uniform(5, 9), 1), "bend_radius": draw.choice((30, 60, 350)), "turn": 0}
        run["guide"]["turn"] = draw.choice((0, 14, 60, 90, 180))
        if draw.random() < 0.7:
            run["guide"]["length"] = round(chord * draw.uniform(1.0, 1.4) + 1, 1)
    elif chance < 0.2 + size.led_share:
        run[draw.choice(("via", "clips"))] = [
            _point(draw, draw.uniform(-300, 300)) for _ in range(draw.choice(size.points))
        ]
    return run


def _let_move(draw: Random, frame: Fields) -> None:
    if draw.random() < 0.6:
        frame["bar"] = {"axis_point": [400, 0, 600], "axis": [-0.42, 0, 0.91], "lock": draw.choice((0, 15, 75, 180))}
        frame["anchors"][0]["moves_with"] = "bar"
    moved = ["caliper", *(port["id"] for port in frame["ports"][-draw.randint(0, 2) :])]
    kind = draw.random()
    if kind < 0.4:
        frame["anchors"][1]["moves_with"] = "rear"
    if kind < 0.25:
        frame["rear"] = {"kind": "single_pivot", "pivot": [14, 60], "swing": draw.choice((-20, 5, 17)), "moves": moved}
    elif kind < 0.4:
        links = {"frame_pivots": [[0, 60], [20, 300]], "link_pivots": [[-380, 20], [-120, 330]]}
        frame["rear"] = {"kind": "four_bar", **links, "swing": draw.choice((-10, 8, 20)), "moves": moved}
    if draw.random() < 0.5:
        frame["brakes"] = {"rear": {"mount": draw.choice(("post", "flat")), "rotor_native": 160, "rotor_max": 203}}


def _line(draw: Random, n: int) -> Fields:
    outer = round(draw.uniform(3.5, 6.5), 2)
    line: Fields = {"id": f"own-{n}", "name": f"Own {n}", "kind": draw.choice(("hydraulic_hose", "brake_housing"))}
    line |= {"outer": outer, "bend_radius": draw.choice((10, 35, 60))}
    if draw.random() < 0.9:
        line["bore"] = round(outer * draw.uniform(0.3, 0.6), 2)
    if draw.random() < 0.5:
        line["outer_tolerance"] = draw.choice((0.0, 0.05, 0.2))
    return line


def _choice(draw: Random, lines: tuple[str, ...]) -> Fields:
    """A hose for the most part, so that many jobs have a plan."""
    chance = draw.random()
    if chance < 0.25:
        return {"brake": draw.choice(BRAKES)}
    return {"line": draw.choice(HOSES if chance < 0.8 else lines)}


def _job(draw: Random, frame: Fields, lines: tuple[str, ...]) -> Fields:
    ports = [port["id"] for port in frame["ports"]]
    job: Fields = {"id": "job", "title": draw.choice(("A swap", "* <b> ='1\u202e", "x" * 150)), "frame": "frame"}
    job |= {"from": "lever", "to": "caliper", "old": "none", "new": _choice(draw, lines)}
    if draw.random() < 0.2:
        job["from"], job["to"] = job["to"], job["from"]
    if draw.random() < 0.85:
        job["old"] = _choice(draw, lines)
        if draw.random() < 0.3:
            job["old"]["through"] = draw.sample(ports, draw.randint(1, len(ports)))
        if draw.random() < 0.3:
            job["old"]["measured_length"] = draw.randint(500, 2500)
    if draw.random() < 0.5:
        job["new"]["supplied_length"] = draw.randint(300, 3000)
    if draw.random() < 0.5:
        shared = draw.sample(ports, draw.randint(1, min(3, len(ports))))
        job["staying"] = [
            {"line": draw.choice(lines), "through": shared} for _ in range(draw.choice((1, 1, 1, 2, 3, 6)))
        ]
    if draw.random() < 0.4:
        job["rotor"] = draw.choice((140, 160, 180, 203))
    job["allow"] = {"remove_inserts": draw.random() < 0.7, "keep_old_brake": draw.random() < 0.4}
    return job
