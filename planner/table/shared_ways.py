"""The way answers of one case for all looks, found together; what is odd is planned pair by pair."""

from collections.abc import Sequence

from planner.parts import Adapter, Brake, Case, GeometryError, job_of_pair
from planner.plan.deciding import decider_of, in_reading_order
from planner.plan.length_allowance import geometry_error_of
from planner.plan.options import cut_old_at
from planner.routing.closest_miss import worst_failing
from planner.table.answer_book import AnswerBook
from planner.table.answers import Decider, WayAnswer, decider_told
from planner.table.by_plan import legs_missing, places_missing, way_by_plan
from planner.table.desk import Desk, port_ids_of
from planner.table.leg_book import places_of
from planner.table.misses import NotDecidedHere, find_nearest_miss
from planner.table.ranking import Candidate, pick
from planner.verdicts import Outcome, worst_of


def find_ways(*, case: Case, adapters: Sequence[Adapter | None], book: AnswerBook) -> list[WayAnswer]:
    """The way answer of every look in the book.

    adapters : what goes between frame and caliper, for each look

    Raises UnknownPortError when a run or a job names a port or anchor the frame lacks.
    """
    desk = _desk(case, book)
    told: dict[tuple[int, float | None, bool], WayAnswer] = {}
    answers = []
    for look, way, adapter in zip(book.looks.each, book.looks.way_of, adapters, strict=True):
        key = (way, look.supplied_length_mm, adapter is None)
        if key not in told:
            told[key] = _answer(case, book, desk, look, way, adapter)
        answers.append(told[key])
    return answers


def _desk(case: Case, book: AnswerBook) -> Desk | None:
    """None where every pair is to be planned by itself: places told by eye, ways outside, too many ways or none."""
    is_by_eye = geometry_error_of(frame=case.frame, limits=book.workshop.limits) is GeometryError.ROUGH
    ground = book.ground(case)
    if is_by_eye or not ground.ways:
        return None
    kind, table = book.manners(case)
    if not table.rows:
        return None
    return Desk(case=case, book=book, ground=ground, table=table, kind=kind, places=places_of(case.frame))


def _answer(
    case: Case, book: AnswerBook, desk: Desk | None, look: Brake, way: int, adapter: Adapter | None
) -> WayAnswer:
    try:
        if desk is not None and way not in desk.beyond_work:
            return _shared_answer(desk, way, look.supplied_length_mm, adapter)
    except NotDecidedHere:
        pass
    return way_by_plan(job=job_of_pair(case=case, brake=look), workshop=book.workshop)


def _shared_answer(desk: Desk, way: int, supplied_mm: float | None, adapter: Adapter | None) -> WayAnswer:
    candidates = desk.find_candidates(way)
    if not candidates:
        return desk.once(("no way", way), lambda: WayAnswer(outcome=Outcome.NO_FIT, decider=_nearest_miss(desk, way)))

    def minutes(one: Candidate) -> float:
        return desk.work_min(one, adapter)

    def is_short(one: Candidate) -> bool:
        cut_mm = desk.find_lengths(one).cut_mm
        return cut_mm is not None and supplied_mm is not None and supplied_mm < cut_mm

    best = pick(candidates, is_short=lambda _: False, minutes=minutes)
    if is_short(best):  # then one that takes less line may do
        best = pick(candidates, is_short=is_short, minutes=minutes)
    return desk.once((best.row, best.way), lambda: _way_answer(desk, best))


def _nearest_miss(desk: Desk, way: int) -> Decider:
    miss = find_nearest_miss(table=desk.table, look=way, least=desk.least())
    if miss is None or miss.check is not None:
        return decider_told(None if miss is None else miss.check)
    told = {
        decider_told(worst_failing(desk.checks_at(miss.row, desk.steps.states[column])))
        for column in desk.least().columns(miss.row)
    }
    return told.pop() if len(told) == 1 else decider_told(desk.search_miss(miss.row))


def _way_answer(desk: Desk, one: Candidate) -> WayAnswer:
    """What is told of a manner that gets through."""
    manner = one.manner
    states = desk.ground.ways[one.way]
    on_way = tuple(check for state in states for check in desk.checks_at(one.row, state))
    checks = in_reading_order(on_way, manner.general_checks)
    lengths = desk.find_lengths(one)
    return WayAnswer(
        outcome=worst_of(checks, of_nothing=Outcome.UNKNOWN),
        method_id=manner.method.id,
        feed_from=manner.feed_from,
        cut_old_at=cut_old_at(job=desk.job_of(one.row), method=manner.method, feed_from=manner.feed_from),
        route=port_ids_of(desk.ground.ways[one.way]),
        decider=decider_told(decider_of(checks)),
        cut_mm=lengths.cut_mm,
        missing=(*places_missing(checks), *legs_missing(lengths)),
    )
