"""Which lines several jobs need cut: from the length supplied with the job where that reaches, or else from stock."""

from collections import Counter
from collections.abc import Sequence
from dataclasses import dataclass, replace
from enum import StrEnum

from planner.parts import Job, Workshop
from planner.plan.cut_list import find_cut_list
from planner.plan.cut_program import SearchEffort
from planner.plan.cut_stock import CutList, Piece, StockLength
from planner.plan.line_ends import has_factory_end
from planner.plan.plan_builder import plan_job
from planner.plan.routing_plan import RoutingPlan
from planner.verdicts import Outcome


class TakenFrom(StrEnum):
    """Where a job's line is cut from."""

    SUPPLIED = "supplied"
    STOCK = "stock"


class WhyNotCut(StrEnum):
    """Why a job's line is not to be cut at all."""

    NO_PLAN = "no_plan"
    NOT_PROVEN = "not_proven"
    FACTORY_END = "factory_end"
    LENGTH_NOT_KNOWN = "length_not_known"
    COMES_CLOSED = "comes_closed"


@dataclass(frozen=True, slots=True, kw_only=True)
class PlannedLine:
    """A job with a plan of its line, made as if the supplied line were long enough."""

    job: Job
    plan: RoutingPlan


@dataclass(frozen=True, slots=True, kw_only=True)
class JobCut:
    """What one job asks of the cut list.

    label : the job's id; numbered where several jobs share one
    job, plan : the job and its plan, made as if the supplied line were long enough
    cut_mm : length to cut the new line to; None when the plan has none [mm]
    taken_from : where it is cut from; None when it is not to be cut
    why_not : why it is not to be cut; None when it is
    """

    label: str
    job: Job
    plan: RoutingPlan
    cut_mm: float | None
    taken_from: TakenFrom | None = None
    why_not: WhyNotCut | None = None

    @property
    def has_its_line(self) -> bool:
        """Whether nothing is missing: it is cut, or comes closed and long enough."""
        return self.why_not in (None, WhyNotCut.COMES_CLOSED)


@dataclass(frozen=True, slots=True, kw_only=True)
class JobCuts:
    """The cuts for several jobs together.

    jobs : every job asked about, in the order given
    cut_list : what to cut from what; its pieces are named by the jobs' labels, and own ones by their ids
    own : pieces that belong to no job
    """

    jobs: tuple[JobCut, ...]
    cut_list: CutList
    own: tuple[Piece, ...] = ()

    @property
    def line_ids(self) -> dict[str, str]:
        """The line of every piece that was asked for, by its name in the cut list."""
        return {each.label: each.job.new.line.id for each in self.jobs} | {each.id: each.line_id for each in self.own}

    @property
    def supplied_ids(self) -> frozenset[str]:
        """Ids that lengths supplied with a job go by in the cut list."""
        return frozenset(_supplied_id(each) for each in self.jobs if each.taken_from is TakenFrom.SUPPLIED)

    @property
    def is_complete(self) -> bool:
        """Whether every job gets its line."""
        return not self.cut_list.uncut and all(each.has_its_line for each in self.jobs)


def find_job_cuts(
    *,
    jobs: Sequence[Job | PlannedLine],
    workshop: Workshop,
    stock: Sequence[StockLength],
    kerf_mm: float = 0.0,
    keep_offcut_from_mm: float | None = None,
    uses_supplied: bool = True,
    own: Sequence[Piece] = (),
    effort: SearchEffort | None = None,
) -> JobCuts:
    """Plan several jobs and cut their new lines from as few rolls as possible.

    A line supplied with a job is used for that job and for no other, where it is long enough; what is left of it is an
    offcut. A line with an end set at the factory is never cut from stock. A job without a plan, or with one that is
    not proven, is told and not cut.

    Returns every job with where its line comes from or why not, and the cut list.

    jobs : any number of jobs, the same one twice is cut twice; a line that was planned among others comes with its plan
    workshop : methods, limits, steps and small parts
    stock : rolls, lengths and offcuts on the shelf
    kerf_mm : what one cut takes
    keep_offcut_from_mm : an end piece at least this long is kept as stock; None to keep none
    uses_supplied : false to leave supplied lines alone and cut from stock whatever can be
    own : pieces that belong to no job, each id its own; cut from stock like those of the jobs
    effort : how much work may be spent on the proof; None for the usual

    Raises ImpossibleDimensionError when a length of stock is not above zero, or the kerf is negative.

    The cut list itself: see `find_cut_list`.
    """
    planned = _planned(jobs, workshop)
    labels = _labels([each.job for each in planned])
    asked = tuple(
        _asked(label, each.job, each.plan, uses_supplied) for label, each in zip(labels, planned, strict=True)
    )
    supplied = [_supplied_length(each) for each in asked if each.taken_from is TakenFrom.SUPPLIED]
    cut_list = find_cut_list(
        pieces=[*(_piece(each) for each in asked if each.taken_from is not None), *own],
        stock=[*stock, *supplied],
        kerf_mm=kerf_mm,
        keep_offcut_from_mm=keep_offcut_from_mm,
        effort=effort,
    )
    return JobCuts(jobs=asked, cut_list=_with_real_lines(cut_list, asked), own=tuple(own))


def _labels(jobs: Sequence[Job]) -> list[str]:
    """The jobs' ids; "rear #1" and "rear #2" where two share one. No id has a "#" in it."""
    count = Counter(job.id for job in jobs)
    seen: Counter[str] = Counter()
    labels: list[str] = []
    for job in jobs:
        seen[job.id] += 1
        labels.append(job.id if count[job.id] == 1 else f"{job.id} #{seen[job.id]}")
    return labels


def _planned(jobs: Sequence[Job | PlannedLine], workshop: Workshop) -> list[PlannedLine]:
    """A plan for every job; equal jobs are planned once."""
    known: list[PlannedLine] = []
    planned: list[PlannedLine] = []
    for job in jobs:
        if isinstance(job, PlannedLine):
            planned.append(job)
            continue
        found = next((each for each in known if each.job.id == job.id and each.job == job), None)
        if found is None:
            found = PlannedLine(job=job, plan=plan_job(job=long_enough(job), workshop=workshop))
            known.append(found)
        planned.append(found)
    return planned


def long_enough(job: Job) -> Job:
    """The job without the length of its supplied line: one that is too short is no reason against the plan here."""
    return replace(job, new=replace(job.new, supplied_length_mm=None))


def _asked(label: str, job: Job, plan: RoutingPlan, uses_supplied: bool) -> JobCut:
    cut_mm = None if plan.lengths is None else plan.lengths.cut_mm
    asked = JobCut(label=label, job=job, plan=plan, cut_mm=cut_mm)
    if plan.outcome is Outcome.NO_FIT or plan.lengths is None:
        return replace(asked, why_not=WhyNotCut.NO_PLAN)
    if plan.outcome is Outcome.UNKNOWN:
        return replace(asked, why_not=WhyNotCut.NOT_PROVEN)
    if cut_mm is None:
        return replace(asked, why_not=WhyNotCut.LENGTH_NOT_KNOWN)
    supplied_mm = job.new.supplied_length_mm
    reaches = supplied_mm is not None and supplied_mm >= cut_mm
    needs_own = has_factory_end(job.new) or not plan.lengths.is_cut
    if reaches and not plan.lengths.is_cut:
        return replace(asked, why_not=WhyNotCut.COMES_CLOSED)
    if reaches and (uses_supplied or needs_own):
        return replace(asked, taken_from=TakenFrom.SUPPLIED)
    return replace(asked, why_not=WhyNotCut.FACTORY_END) if needs_own else replace(asked, taken_from=TakenFrom.STOCK)


def _own_line_id(asked: JobCut) -> str:
    """A line of its own for a job that is cut from what came with it, so that no other piece is taken from it."""
    return f"{asked.job.new.line.id} of {asked.label}"


def _piece(asked: JobCut) -> Piece:
    assert asked.cut_mm is not None
    is_own = asked.taken_from is TakenFrom.SUPPLIED
    line_id = _own_line_id(asked) if is_own else asked.job.new.line.id
    return Piece(id=asked.label, line_id=line_id, length_mm=asked.cut_mm)


def _supplied_id(asked: JobCut) -> str:
    return f"supplied with {asked.label}"


def _supplied_length(asked: JobCut) -> StockLength:
    assert asked.job.new.supplied_length_mm is not None
    return StockLength(
        id=_supplied_id(asked),
        line_id=_own_line_id(asked),
        length_mm=asked.job.new.supplied_length_mm,
        quantity=1,
        is_offcut=True,
    )


def _with_real_lines(cut_list: CutList, asked: Sequence[JobCut]) -> CutList:
    real = {_own_line_id(each): each.job.new.line.id for each in asked}
    return replace(
        cut_list,
        opened=tuple(replace(each, line_id=real.get(each.line_id, each.line_id)) for each in cut_list.opened),
        offcuts=tuple(replace(each, line_id=real.get(each.line_id, each.line_id)) for each in cut_list.offcuts),
    )
