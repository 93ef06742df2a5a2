"""Every step of every way of a case, asked of all pieces and lines at once."""

from collections.abc import Callable, Sequence
from dataclasses import dataclass

import numpy as np

from planner.fit.bend_fit import check_guide_bends_line
from planner.fit.port_fit import find_hole_seen, is_in_line_with_tube
from planner.fit.things import thing_of_line
from planner.parts import OUTSIDE, Job, Line, Port, RoundOpening, Run
from planner.routing.passage import is_insert_taken_out, lines_staying_in_run
from planner.routing.run_graph import RunState, far_end_of, zone_bore_mm, zone_bore_tolerance_mm
from planner.table.pieces import Array, PieceBook, missing_mm, numbers_of, piece_of
from planner.table.places import PlaceBook
from planner.table.worst import Worst, nothing_asked
from planner.verdicts import Check, Outcome, Room, Thing

Bends = Callable[[int, str], Sequence[Check]]
"""What the shape of a run shows about a line's bends, by the line's number and the run's id."""


Rooms = tuple[tuple[Room, Room], Sequence[Thing]]
"""A place while drawing and while riding, and what stays in it."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Steps:
    """What all steps answer; rows are pieces or lines, columns the steps.

    states : the steps
    diameter, length : of each piece while drawing; the last row is nothing at all, which passes
    ride_diameter, ride_length : of each line while riding
    """

    states: tuple[RunState, ...]
    diameter: Worst
    length: Worst
    ride_diameter: Worst
    ride_length: Worst


@dataclass(frozen=True, slots=True, kw_only=True)
class _Asked:
    """What is asked at one step.

    job : any job of the case, for what stays and what is allowed
    pieces, ride : numbers of the pieces, and of the lines as pieces
    stiff : which pieces have a stiff length
    """

    job: Job
    lines: Sequence[Line]
    book: PlaceBook
    pieces: Array
    sizes: Array
    ride: Array
    bends: Bends


def ask_steps(
    *,
    job: Job,
    states: Sequence[RunState],
    pieces: Array,
    lines: Sequence[Line],
    book: PlaceBook,
    piece_book: PieceBook,
    bends: Bends,
) -> Steps:
    """Ask everything.

    job : any job of the case
    pieces : numbers of what moves through the frame
    lines : what is ridden
    """
    ride = numbers_of((piece_of(thing_of_line(line)) for line in lines), piece_book)
    sizes = piece_book.sizes()[pieces]
    asked = _Asked(job=job, lines=lines, book=book, pieces=pieces, sizes=sizes, ride=ride, bends=bends)
    drawn, ridden = (len(pieces) + 1, len(states)), (len(lines), len(states))
    steps = Steps(
        states=tuple(states),
        diameter=nothing_asked(*drawn),
        length=nothing_asked(*drawn),
        ride_diameter=nothing_asked(*ridden),
        ride_length=nothing_asked(*ridden),
    )
    for column, state in enumerate(states):
        _ask_port(asked, steps, column, job.frame.ports.get(state.place))
        _ask_run(asked, steps, column, job.frame.runs[state.run_id])
        _ask_walls(asked, steps, column, state)
    return steps


def _ask_port(asked: _Asked, steps: Steps, column: int, port: Port | None) -> None:
    if port is None:
        return
    _ask_hole(asked, steps, column, *rooms_of_port(asked.job, port))
    if port.admits:
        refused = [Outcome.FITS if port.takes(line.kind) else Outcome.NO_FIT for line in asked.lines]
        steps.ride_diameter.take((slice(None), column), np.array(refused, np.int8), np.zeros(len(refused)))


def _ask_hole(asked: _Asked, steps: Steps, column: int, rooms: tuple[Room, Room], beside: Sequence[Thing]) -> None:
    drawn, ridden = (asked.book.hole(room, beside) for room in rooms)
    steps.diameter.take((slice(-1), column), *drawn.of(asked.pieces))
    steps.ride_diameter.take((slice(None), column), *ridden.of(asked.ride))


def _ask_run(asked: _Asked, steps: Steps, column: int, run: Run) -> None:
    rooms = rooms_of_run(asked.job, run)
    if rooms is not None:
        _ask_hole(asked, steps, column, *rooms)
    for row, line in enumerate(asked.lines):
        checks = list(asked.bends(row, run.id))
        if run.guide is not None and run.guide.turn_deg != 0:
            bent = check_guide_bends_line(guide=run.guide, run_id=run.id, line=line)
            checks += [] if bent is None else [bent]
        for check in checks:
            outcomes, missing = np.array([check.outcome], np.int8), np.array([missing_mm(check)])
            steps.ride_length.take((slice(row, row + 1), column), outcomes, missing)
    if run.guide is not None and run.guide.turn_deg != 0:
        is_asked = _stiff(asked, no_wider_than_mm=run.guide.bore_diameter_mm)
        rows = np.flatnonzero(is_asked)
        steps.length.take((rows, column), *asked.book.bend(run.guide).of(asked.pieces[rows]))


def rooms_of_port(job: Job, port: Port) -> Rooms:
    """What a port shows while drawing and while riding, and what stays in it."""
    beside = [thing_of_line(staying.line) for staying in job.staying if port.id in staying.through]
    drawn = find_hole_seen(port=port, is_insert_out=is_insert_taken_out(job=job, port=port))
    return (drawn, find_hole_seen(port=port, is_insert_out=False)), beside


def rooms_of_run(job: Job, run: Run) -> Rooms | None:
    """The same of a guide or cavity; None outside, where there is none."""
    if run.zone_id == OUTSIDE and run.guide is None:
        return None
    room = _room_of(job, run)
    return (room, room), [thing_of_line(line) for line in lines_staying_in_run(job=job, run=run)]


def _room_of(job: Job, run: Run) -> Room:
    if run.guide is not None:
        bore_mm, tolerance_mm = run.guide.bore_diameter_mm, run.guide.tolerance_mm
        return Room(opening=RoundOpening(diameter_mm=bore_mm, tolerance_mm=tolerance_mm))
    clear_mm, tolerance_mm = zone_bore_mm(frame=job.frame, run=run), zone_bore_tolerance_mm(frame=job.frame, run=run)
    return Room(opening=None if clear_mm is None else RoundOpening(diameter_mm=clear_mm, tolerance_mm=tolerance_mm))


def _ask_walls(asked: _Asked, steps: Steps, column: int, state: RunState) -> None:
    """A piece that does not pass by its diameter is not asked about its length: misses are told by diameters first."""
    frame = asked.job.frame
    run = frame.runs[state.run_id]
    if run.zone_id == OUTSIDE or run.guide is not None:
        return
    for place in (state.place, far_end_of(run=run, place=state.place)):
        port = frame.ports.get(place)
        if port is None or is_in_line_with_tube(port=port, zone=frame.zones[run.zone_id]):
            continue
        passes = steps.diameter.outcomes[:-1, column] < Outcome.NO_FIT
        rows = np.flatnonzero(_stiff(asked, no_wider_than_mm=asked.book.gap_mm(port.opening)) & passes)
        if len(rows):
            corridor_mm, off_mm = zone_bore_mm(frame=frame, run=run), zone_bore_tolerance_mm(frame=frame, run=run)
            steps.length.take((rows, column), *asked.book.wall(port, corridor_mm, off_mm).of(asked.pieces[rows]))


def _stiff(asked: _Asked, *, no_wider_than_mm: float) -> Array:
    is_stiff: Array = (asked.sizes[:, 2] > 0) & (asked.sizes[:, 0] <= no_wider_than_mm)
    return is_stiff
