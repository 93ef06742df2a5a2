"""Frames whose answers were planted: holes one behind the other, no places, a soft leader that is as thick as told.

What passes is then the least of the holes less the thicker of line and leader, and which hole decides is known. Seeded.
"""

from dataclasses import dataclass
from itertools import pairwise
from random import Random

from planner.parts import (
    OUTSIDE,
    Anchor,
    AnchorPart,
    Brake,
    Case,
    Frame,
    LeaderLine,
    LineEnd,
    Port,
    RoundOpening,
    Run,
    Workshop,
    Zone,
)
from planner.verdicts import Outcome
from tests.builders import make_line, make_workshop

LEADER_MM = 4.5
HOLES_MM = tuple(round(4.6 + step / 10, 1) for step in range(40))
TOLERANCE_MM, LINE_TOLERANCE_MM = 0.1, 0.05


@dataclass(frozen=True, slots=True, kw_only=True)
class Planted:
    """What is known of a frame beforehand.

    narrowest : id of the port that decides; the first of equals
    width_mm : of that port
    """

    case: Case
    narrowest: str
    width_mm: float


def planted_workshop() -> Workshop:
    leader = LeaderLine(
        id="leader",
        name="Leader",
        outer_diameter_mm=2.0,
        joint_diameter_mm=LEADER_MM,
        joint_length_mm=0.0,
        holds_n=50.0,
        setup_min=5.0,
    )
    return make_workshop(leader)


def planted_brakes(several: int) -> tuple[Brake, ...]:
    """So many brakes, on hoses of 4.0 to 7.9 mm."""
    return tuple(
        Brake(
            id=f"brake-{number:04}",
            name=f"Planted brake {number}",
            fluid=None,
            line=make_line(outer_diameter_mm=round(4.0 + number % 40 / 10, 1), outer_tolerance_mm=LINE_TOLERANCE_MM),
            supplied_length_mm=None,
            lever_end=LineEnd(),
            caliper_end=LineEnd(),
        )
        for number in range(several)
    )


def planted(number: int, *, ports_n: int) -> Planted:
    """One frame with so many ports, an even number."""
    draw = Random(f"planted {number} {ports_n}")
    wide_mm = draw.choice(HOLES_MM[20:])
    widths_mm = [draw.choice((wide_mm, *HOLES_MM[30:])) for _ in range(ports_n)]
    place = draw.randrange(ports_n)
    widths_mm[place] = draw.choice(HOLES_MM[:20])
    zones = [OUTSIDE, *(f"tube-{n}" if n % 2 == 0 else OUTSIDE for n in range(ports_n - 1)), OUTSIDE]
    ports = {
        f"p{n}": Port(
            id=f"p{n}",
            label=f"p{n}",
            joins=joins,
            position_mm=None,
            heading=None,
            opening=RoundOpening(diameter_mm=widths_mm[n], tolerance_mm=TOLERANCE_MM),
            wall_thickness_mm=1.0,
        )
        for n, joins in enumerate(pairwise(zones))
    }
    ends = ["lever", *ports, "caliper"]
    runs = {f"r{n}": Run(id=f"r{n}", zone_id=zones[n], between=between) for n, between in enumerate(pairwise(ends))}
    frame = Frame(
        id=f"planted-{number:05}",
        name=f"Planted frame {number}",
        zones={zone: Zone(id=zone, path_mm=(), bore_diameter_mm=60.0) for zone in zones if zone != OUTSIDE},
        ports=ports,
        anchors={
            "lever": Anchor(id="lever", position_mm=None, heading=None, part=AnchorPart.LEVER),
            "caliper": Anchor(id="caliper", position_mm=None, heading=None, part=AnchorPart.CALIPER),
        },
        runs=runs,
    )
    case = Case(id=frame.id, frame=frame, from_anchor_id="lever", to_anchor_id="caliper", old=None)
    return Planted(case=case, narrowest=f"p{place}", width_mm=widths_mm[place])


def planted_outcome(frame: Planted, brake: Brake, *, running_mm: float) -> Outcome:
    """What was planted."""
    piece_mm = max(LEADER_MM, brake.line.outer_diameter_mm)
    nominal_mm = frame.width_mm - piece_mm
    worst_mm = nominal_mm - TOLERANCE_MM - LINE_TOLERANCE_MM
    if nominal_mm < -1e-9:
        return Outcome.NO_FIT
    return Outcome.FITS if worst_mm >= running_mm - 1e-9 else Outcome.TIGHT
