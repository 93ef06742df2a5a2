"""One case against every look of a brake: two questions each, kept apart."""

from collections.abc import Sequence
from typing import TypeVar

from planner.fit.compatibility import check_compatibility
from planner.parts import Brake, Case, Job, Workshop, job_of_pair
from planner.plan.advisories import known_checks
from planner.table.answers import CaseAnswers, PartsAnswer, WayAnswer, decider_told
from planner.table.by_plan import way_by_plan
from planner.verdicts import Outcome, worst_of

Answer = TypeVar("Answer", WayAnswer, PartsAnswer)


def decide_case(*, case: Case, looks: Sequence[Brake], workshop: Workshop) -> CaseAnswers:
    """Whether each of these brakes goes on, as planning each pair by itself would have it.

    looks : brakes as `look_of` has them

    Raises UnknownPortError when a run names a port or anchor the frame lacks.
    """
    jobs = [job_of_pair(case=case, brake=look) for look in looks]
    ways, way_of = _each_once([way_by_plan(job=job, workshop=workshop) for job in jobs])
    parts, parts_of = _each_once([_parts_answer(job, workshop) for job in jobs])
    return CaseAnswers(case_id=case.id, ways=ways, parts=parts, way_of=way_of, parts_of=parts_of)


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


def _each_once(answers: Sequence[Answer]) -> tuple[tuple[Answer, ...], tuple[int, ...]]:
    places: dict[Answer, int] = {}
    of = tuple(places.setdefault(answer, len(places)) for answer in answers)
    return tuple(places), of
