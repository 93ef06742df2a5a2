"""What to measure before anything else, in sentences: sizes at places, and whatever else left a plan unproven."""

from collections.abc import Iterator
from dataclasses import dataclass

from planner.documents.words.check_words import sentence_for
from planner.documents.words.sizes_in_words import millimetres
from planner.fit.measure_first import MeasureFirst
from planner.parts import Figure, Job, LineFigure, ReadWhat, Visit
from planner.plan.figures_asked import figures_of_check, figures_of_contradiction, figures_of_measure
from planner.plan.names import find_job_names
from planner.plan.routing_plan import RoutingPlan
from planner.rules import PlaceRule
from planner.verdicts import Check, Outcome

WIDTH_OF_CAVITY = "Nobody has measured the clear width of {place}, so nothing can be said about what passes there"

_FIGURES: dict[ReadWhat | LineFigure, str] = {
    ReadWhat.OPENING: "hole",
    ReadWhat.INSERT: "hole of the insert",
    ReadWhat.LEAN: "how far the line leans",
    ReadWhat.WALL: "thickness of the wall",
    ReadWhat.LOOKS: "which way the hole goes",
    ReadWhat.BORE: "bore of the guide",
    ReadWhat.BEND: "bend of the guide, radius to its inside",
    ReadWhat.CAVITY: "clear width of the cavity",
    LineFigure.OLD_OUTER: "the old line, outside",
    LineFigure.OLD_CABLE: "the inner cable in the old housing",
    LineFigure.STAYING_OUTER: "outside",
    LineFigure.BORE: "bore",
    LineFigure.JOINT_OUTER: "thickest place of the joint over it",
    LineFigure.JOINT_HOLDS: "pull that the joint over it holds",
}

OLD_LINE = "old line"
OLD_IS_IN_THERE = (
    "The old line of {size} lies in there, and by the sizes told does not pass {place} either: measure it and the hole"
    " again before anything is given up."
)


@dataclass(frozen=True, slots=True, kw_only=True)
class ToMeasure:
    """One thing to measure or settle first.

    place_id : of the port or run; "" where it is not about one
    what : the size, or the rule that asks
    reason : one sentence
    chance_ratio : of fitting as it stands; None when not measured
    asked_by : the measurement or check that asks; None for an old line in a hole too small for it
    """

    place_id: str
    what: str
    reason: str
    chance_ratio: float | None = None
    asked_by: MeasureFirst | Check | None = None


def measures_told(plan: RoutingPlan) -> tuple[ToMeasure, ...]:
    """What to measure first, what decides first: of a plan that is not proven never empty."""
    sizes = [
        ToMeasure(place_id=one.place_id, what=one.what, reason=one.reason, chance_ratio=one.chance_ratio, asked_by=one)
        for one in plan.measure_first
    ]
    sizes = [*_contradictions(plan), *sizes]
    unmeasured = [one for one in sizes if one.chance_ratio is None]
    told = {one.place_id for one in unmeasured}
    asked = {item.reason: item for item in _left_unproven(plan, told)} if plan.outcome is Outcome.UNKNOWN else {}
    return (*unmeasured, *asked.values(), *(one for one in sizes if one.chance_ratio is not None))


def figures_asked(measure: ToMeasure, job: Job) -> tuple[Figure, ...]:
    """The figures that would answer it once they are read; none where nobody can read it at the bench.

    job : what was planned
    """
    if measure.asked_by is None:
        return figures_of_contradiction(measure.place_id, job)
    if isinstance(measure.asked_by, Check):
        return figures_of_check(measure.asked_by, job)
    return figures_of_measure(measure.asked_by, job)


def first_figures_asked(plan: RoutingPlan, job: Job) -> tuple[Figure, ...]:
    """The figures of the first thing to measure that can be read at the bench; none where nothing can.

    job : what was planned
    """
    asked = (figures_asked(one, job) for one in measures_told(plan))
    return next((figures for figures in asked if figures), ())


def figure_words(figure: Figure, job: Job | Visit) -> str:
    """What people call a figure: whose it is, and which.

    job : what it is a figure of, of one line or of several
    """
    what, names = _FIGURES[figure.what], find_job_names(job)
    if figure.of_line:
        return f"{figure.of_line}: {what}"
    match figure.what:
        case LineFigure.BORE | LineFigure.JOINT_OUTER | LineFigure.JOINT_HOLDS | LineFigure.STAYING_OUTER:
            return f"{names.thing(figure.id)}: {what}"
        case LineFigure():
            return what[:1].upper() + what[1:]
        case ReadWhat.CAVITY:
            return f"{figure.id.replace('_', ' ').capitalize()}: {what}"
    return f"{names.run(figure.id) if figure.id in job.frame.runs else names.place(figure.id)}: {what}"


def _contradictions(plan: RoutingPlan) -> Iterator[ToMeasure]:
    """The old line lies in there: what it does not pass by its size was measured wrong, or the line was."""
    no_route = plan.no_route
    if no_route is None:
        return
    for port_id in no_route.old_too_thick_at:
        reason = OLD_IS_IN_THERE.format(size=millimetres(no_route.old_line_mm), place=plan.names.place(port_id))
        yield ToMeasure(place_id=port_id, what=OLD_LINE, reason=reason)


def _left_unproven(plan: RoutingPlan, told: set[str]) -> Iterator[ToMeasure]:
    for check in plan.checks:
        place_id = check.port_id or check.run_id or ""
        is_told = check.port_id in told and (check.room is None or check.room.opening is None)
        if check.outcome is Outcome.UNKNOWN and not is_told:
            yield ToMeasure(place_id=place_id, what=check.rule.value, reason=_sentence(plan, check), asked_by=check)


def _sentence(plan: RoutingPlan, check: Check) -> str:
    if check.rule is PlaceRule.ZONE_BORE and check.band_mm is None:
        return WIDTH_OF_CAVITY.format(place=plan.names.run(check.run_id or "")) + "."
    words = sentence_for(check, names=plan.names)
    return f"{words[:1].upper()}{words[1:]}."
