"""One case against every look of a brake: two questions each, kept apart."""

from collections.abc import Hashable

from planner.fit.brake_end import find_brake_end
from planner.fit.compatibility import check_compatibility
from planner.parts import Brake, Case, Job, Workshop, is_lever_at_from, job_of_pair
from planner.plan.advisories import known_checks
from planner.table.answer_book import AnswerBook
from planner.table.answers import CaseAnswers, PartsAnswer, decider_told
from planner.table.looks import each_once, sort_looks
from planner.table.shared_ways import find_ways
from planner.verdicts import Outcome, worst_of


def decide_case(*, case: Case, book: AnswerBook) -> CaseAnswers:
    """Whether each of the book's brakes goes on, as planning each pair by itself would have it.

    book : remembers what one case asks and another asks again

    Raises UnknownPortError when a run or the case names a port or anchor the frame lacks.
    """
    parts, parts_of = _parts_of_all(case, book)
    adapters = {adapter.id: adapter for adapter in book.workshop.adapters}
    found = [parts[number].adapter_id for number in parts_of]
    ways, way_of = each_once(
        find_ways(case=case, adapters=[None if one is None else adapters[one] for one in found], book=book)
    )
    return CaseAnswers(case_id=case.id, ways=ways, parts=parts, way_of=way_of, parts_of=parts_of)


def _parts_of_all(case: Case, book: AnswerBook) -> tuple[tuple[PartsAnswer, ...], tuple[int, ...]]:
    """The parts answers of all looks; cases that ask the same of them share them."""
    looks = book.looks
    key = _asked_of_parts(job_of_pair(case=case, brake=looks.parts[0])) if looks.parts else ()
    return book.parts.once(key, lambda: _new_parts(case, book))


def _new_parts(case: Case, book: AnswerBook) -> tuple[tuple[PartsAnswer, ...], tuple[int, ...]]:
    jobs = (job_of_pair(case=case, brake=look) for look in book.looks.parts)
    answers, of = each_once(_parts_answer(job, book.workshop) for job in jobs)
    return answers, tuple(of[number] for number in book.looks.parts_of)


def _asked_of_parts(job: Job) -> Hashable:
    """All of a case that the parts hang on, whatever the brake."""
    end, old = find_brake_end(job=job), job.old
    is_lever_first = is_lever_at_from(frame=job.frame, from_anchor_id=job.from_anchor_id, to_anchor_id=job.to_anchor_id)
    was = None if old is None else (old.line.kind, None if old.brake is None else (old.brake.fluid,))
    mount = None if end is None else job.frame.brakes.get(end)
    return end, mount, job.frame.bar_clamp_mm, job.rotor_mm, job.rotor_hub, was, is_lever_first


def _parts_answer(job: Job, workshop: Workshop) -> PartsAnswer:
    """What is known of the parts; their questions do not hang on the way."""
    found = check_compatibility(job=job, adapters=workshop.adapters, limits=workshop.limits)
    known = known_checks(found)
    against = next((check for check in known if check.outcome is Outcome.NO_FIT), None)
    return PartsAnswer(
        outcome=worst_of(known, of_nothing=Outcome.FITS),
        decider=decider_told(against),
        adapter_id=None if found.adapter is None else found.adapter.id,
        asks=tuple(dict.fromkeys(check.rule.value for check in found.checks if check not in known)),
    )


def book_of(looks: tuple[Brake, ...], workshop: Workshop) -> AnswerBook:
    """An empty book for some looks of brakes.

    looks : as `look_of` has them, each once
    """
    return AnswerBook(sort_looks(looks), workshop)
