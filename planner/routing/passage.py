"""Everything asked of one step of a route: the port it goes in at, the run it takes, the port it comes out at."""

from collections.abc import Callable, Collection, Hashable, Iterable, Iterator
from functools import partial
from math import inf

from planner.fit.bend_fit import check_guide_bends_line
from planner.fit.guide_fit import check_line_in_guide, check_rigid_in_guide
from planner.fit.port_fit import (
    check_port_admits,
    check_things_through_port,
    find_insert_place,
    is_in_line_with_tube,
)
from planner.fit.things import thing_of_line
from planner.fit.wall_fit import check_rigid_through_wall
from planner.fit.zone_fit import check_things_in_zone
from planner.geometry.packing.work import Allowance
from planner.geometry.rigid.wall_opening import longest_way_across_mm
from planner.parts import OUTSIDE, Frame, Job, JobEnd, Line, Port, Run, ShopLimits, StayingLine, Zone
from planner.quick_dataclass import dataclass
from planner.routing.run_graph import RunState, far_end_of, zone_bore_mm, zone_bore_tolerance_mm
from planner.rules import IN_LINE, PlaceRule
from planner.verdicts import Check, Outcome, Room, State, Thing


@dataclass(frozen=True, slots=True, kw_only=True)
class Mover:
    """What moves through the frame in one attempt.

    joint : the joint of old and new line
    leading_fitting : the fitting already on the leading end; None for a bare end
    feed_from : the end the new line enters at, and travels away from
    """

    joint: Thing
    leading_fitting: Thing | None
    feed_from: JobEnd

    @property
    def pieces(self) -> tuple[Thing, ...]:
        """All that moves: the joint, and the fitting in front of it."""
        return (self.joint,) if self.leading_fitting is None else (self.joint, self.leading_fitting)


class AskedBefore:
    """What has been asked of the holes and runs of one frame: most of it every method asks again, from either end.

    Good for one frame, one new line and the lines that stay, whatever draws the line in.
    """

    def __init__(self) -> None:
        self._answers: dict[Hashable, tuple[Check, ...]] = {}
        self._numbers: dict[Hashable, int] = {}
        self._in_line: dict[tuple[str, str], bool] = {}

    def number_of(self, thing: Hashable) -> int:
        """A number that stands for a thing in questions: they are many, and numbers are compared quickly."""
        return self._numbers.setdefault(thing, len(self._numbers))

    def is_in_line(self, port: Port, zone: Zone) -> bool:
        """Whether a hole looks along the tube it opens into, as `is_in_line_with_tube` tells."""
        key = (port.id, zone.id)
        if key not in self._in_line:
            self._in_line[key] = is_in_line_with_tube(port=port, zone=zone)
        return self._in_line[key]

    def once(self, question: Hashable, ask: Callable[[], Iterable[Check]]) -> tuple[Check, ...]:
        """The answers to a question: those given before, where it was asked before."""
        answers = self._answers.get(question)
        if answers is None:
            answers = self._answers[question] = tuple(ask())
        return answers


def allowance_of(limits: ShopLimits) -> Allowance:
    """What the questions about holes of one plan may cost, as the shop has it; none of it spent."""
    usual = Allowance()
    return Allowance(each_rows=limits.hole_work_rows or usual.each_rows, whole_rows=limits.plan_work_rows)


def check_step(
    *,
    job: Job,
    mover: Mover,
    state: RunState,
    limits: ShopLimits,
    allowance: Allowance | None = None,
    proves_no: bool = True,
    before: AskedBefore | None = None,
) -> tuple[Check, ...]:
    """All checks of entering a run at a place and travelling it to its far end.

    Returns while drawing first, then while riding; empty only for an open run outside that starts at an anchor.

    limits : the shop's clearance for a line that is to slide, and the work a hole may cost
    allowance : the work that this and other steps may cost; None for what the shop allows
    proves_no : whether "does not pass" is to be told from "not known", which costs far more
    before : answers to the same of the same job; None where nothing has been asked
    """
    before = before or AskedBefore()
    asking = _Asking(
        job=job,
        limits=limits,
        allowance=allowance or allowance_of(limits),
        proves_no=proves_no,
        before=before,
    )
    run = job.frame.runs[state.run_id]
    port = job.frame.ports.get(state.place)
    once, line = before.once, thing_of_line(job.new.line)
    moments = [*((State.DRAWING, piece) for piece in mover.pieces), (State.RIDING, line)]
    asked = [(before.number_of(moment), *moment) for moment in moments]
    checks: list[Check] = []
    if port is not None:
        for number, moment, item in asked:
            checks += once(("port", port.id, number), partial(_port_checks, asking, port, moment, item))
        checks += once(("kind", port.id), partial(_kind_checks, asking, port))
    for number, moment, item in asked:
        checks += once(("run", run.id, number), partial(_run_checks, asking, run, moment, item))
    pieces = before.number_of(mover.pieces)
    checks += once(("bend", run.id, pieces), partial(_bend_checks, asking, run, mover.pieces))
    is_forwards = mover.feed_from is JobEnd.FROM
    for place, is_entry in ((state.place, is_forwards), (far_end_of(run=run, place=state.place), not is_forwards)):
        question = ("wall", place, run.id, is_entry, pieces)
        checks += once(question, partial(_wall_checks, asking, place, run, is_entry, mover.pieces))
    return tuple(checks)


@dataclass(frozen=True, slots=True, kw_only=True)
class _Asking:
    """What all questions about one job have in common."""

    job: Job
    limits: ShopLimits
    allowance: Allowance
    proves_no: bool
    before: AskedBefore


def _port_checks(asking: _Asking, port: Port, moment: State, item: Thing) -> Iterator[Check]:
    job, is_drawn = asking.job, moment is State.DRAWING
    lines = job.staying if is_drawn else job.ridden_beside
    beside = [thing_of_line(staying.line) for staying in lines if port.id in staying.through]
    yield check_things_through_port(
        port=port,
        state=moment,
        things=[item, *beside],
        is_insert_out=is_drawn and is_insert_taken_out(job=job, port=port),
        running_clearance_mm=asking.limits.running_clearance_mm,
        allowance=asking.allowance,
        proves_no=asking.proves_no,
    )


def _kind_checks(asking: _Asking, port: Port) -> Iterator[Check]:
    admitted = check_port_admits(port=port, kind=asking.job.new.line.kind)
    if admitted is not None:
        yield admitted


def _run_checks(asking: _Asking, run: Run, moment: State, item: Thing) -> Iterator[Check]:
    if run.zone_id == OUTSIDE and run.guide is None:
        return
    job, limits = asking.job, asking.limits
    beside = _things_in_run(job, run, job.staying if moment is State.DRAWING else job.ridden_beside)
    if run.guide is None:
        yield check_things_in_zone(
            zone_bore_mm=zone_bore_mm(frame=job.frame, run=run),
            run_id=run.id,
            state=moment,
            things=(item, *beside),
            running_clearance_mm=limits.running_clearance_mm,
            allowance=asking.allowance,
            proves_no=asking.proves_no,
            bore_tolerance_mm=zone_bore_tolerance_mm(frame=job.frame, run=run),
        )
    else:
        yield check_line_in_guide(
            guide=run.guide,
            run_id=run.id,
            state=moment,
            item=item,
            beside=beside,
            running_clearance_mm=limits.running_clearance_mm,
            allowance=asking.allowance,
            proves_no=asking.proves_no,
        )


def _bend_checks(asking: _Asking, run: Run, pieces: tuple[Thing, ...]) -> Iterator[Check]:
    if run.guide is not None and run.guide.turn_deg != 0:
        bent = check_guide_bends_line(guide=run.guide, run_id=run.id, line=asking.job.new.line)
        if bent is not None:
            yield bent
        for piece in _rigid_pieces(pieces, no_wider_than_mm=run.guide.bore_diameter_mm):
            yield check_rigid_in_guide(guide=run.guide, run_id=run.id, state=State.DRAWING, item=piece)


def _wall_checks(asking: _Asking, place: str, run: Run, is_entry: bool, pieces: tuple[Thing, ...]) -> Iterator[Check]:
    """A rigid piece dips through the wall where it enters an unguided cavity, and again where it leaves it."""
    job, port = asking.job, asking.job.frame.ports.get(place)
    if port is None or run.zone_id == OUTSIDE or run.guide is not None:
        return
    if asking.before.is_in_line(port, job.frame.zones[run.zone_id]):
        yield from _in_line(job, pieces, port, run, is_entry=is_entry)
        return
    gap_mm = inf if port.opening is None else longest_way_across_mm(opening=port.opening)
    for piece in _rigid_pieces(pieces, no_wider_than_mm=gap_mm):
        yield check_rigid_through_wall(
            port=port,
            run_id=run.id,
            corridor_mm=zone_bore_mm(frame=job.frame, run=run),
            corridor_tolerance_mm=zone_bore_tolerance_mm(frame=job.frame, run=run),
            item=piece,
            is_entry=is_entry,
            is_insert_out=is_insert_taken_out(job=job, port=port),
        )


def _in_line(job: Job, pieces: tuple[Thing, ...], port: Port, run: Run, *, is_entry: bool) -> Iterator[Check]:
    """Through a hole that looks along its tube a stiff piece goes straight; its diameter has been asked already."""
    room = Room(
        opening=port.opening,
        wall_thickness_mm=port.wall_thickness_mm,
        insert=find_insert_place(port=port, is_insert_out=is_insert_taken_out(job=job, port=port)),
        corridor_mm=zone_bore_mm(frame=job.frame, run=run),
    )
    for piece in _rigid_pieces(pieces, no_wider_than_mm=inf):
        yield Check(
            rule=PlaceRule.WALL_ENTRY if is_entry else PlaceRule.WALL_EXIT,
            outcome=Outcome.FITS,
            state=State.DRAWING,
            port_id=port.id,
            run_id=run.id,
            thing=piece,
            room=room,
            size_mm=piece.rigid_length_mm,
            note=IN_LINE,
        )


def _rigid_pieces(pieces: tuple[Thing, ...], *, no_wider_than_mm: float) -> Iterator[Thing]:
    """Stiff pieces; one that is wider than the hole is told by its diameter alone."""
    return (piece for piece in pieces if piece.rigid_length_mm > 0 and piece.diameter_mm <= no_wider_than_mm)


def is_insert_taken_out(*, job: Job, port: Port) -> bool:
    """Whether a port's insert lies on the bench while drawing.

    False for a port without an insert.
    """
    return port.insert is not None and port.insert.is_removable and job.may_remove_inserts


def lines_staying_in_run(*, job: Job, run: Run) -> tuple[Line, ...]:
    """Lines that lie in this run beside the new one while it is drawn, in the job's order."""
    return _lines_in_run(job, run, job.staying)


def _lines_in_run(job: Job, run: Run, lines: Iterable[StayingLine]) -> tuple[Line, ...]:
    return tuple(each.line for each in lines if lies_in_run(frame=job.frame, run=run, through=each.through))


def _things_in_run(job: Job, run: Run, lines: Iterable[StayingLine]) -> tuple[Thing, ...]:
    return tuple(thing_of_line(line) for line in _lines_in_run(job, run, lines))


def lies_in_run(*, frame: Frame, run: Run, through: Collection[str]) -> bool:
    """Whether a line lies in this run, by the ports and runs it is said to go through.

    A guide holds it only where its run, or both ends of the run, are named. An open cavity holds every line that goes
    through one of its ports.

    through : ids of the ports and runs the line goes through
    """
    if run.id in through or set(run.between) <= set(through):
        return True
    if run.guide is not None or run.zone_id == OUTSIDE:
        return False
    named = (frame.ports[place] for place in through if place in frame.ports)
    return any(run.zone_id in port.joins for port in named)
