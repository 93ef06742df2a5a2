"""Which answers count for the outcome of a plan, and which are questions for the owner."""

from collections.abc import Iterator, Sequence

from planner.fit.compatibility import CompatibilityResult
from planner.fit.things import thing_of_line
from planner.fit.wedging import check_of_wedge, wedge_in
from planner.geometry.packing.work import ROWS_IN_UNIT, Allowance
from planner.mechanics.hand_force import check_hand_force
from planner.parts import Job, LineFamily, ShopLimits
from planner.plan.leg_views import turn_of_leg_deg
from planner.plan.lengths import LegLength
from planner.plan.measurements import find_places
from planner.rules import PlaceRule
from planner.verdicts import Check, Outcome


def known_checks(parts: CompatibilityResult) -> tuple[Check, ...]:
    """Checks of the parts that are known to pass or to fail, and so count for the outcome.

    Returns without those that nobody can answer from the catalog, and those that work with care.

    parts : whether the parts belong together
    """
    return tuple(check for check in parts.checks if check.outcome in (Outcome.FITS, Outcome.NO_FIT))


def open_questions(parts: CompatibilityResult) -> tuple[Check, ...]:
    """What the catalog does not know about the parts, what works with care, and what only the owner can settle.

    Returns TIGHT or UNKNOWN; no part of the outcome.

    parts : whether the parts belong together
    """
    open_checks = (check for check in parts.checks if check.outcome in (Outcome.TIGHT, Outcome.UNKNOWN))
    return (*open_checks, *parts.questions)


def wedge_cautions(*, job: Job, route: Sequence[str], run_ids: Sequence[str]) -> Iterator[Check]:
    """Holes and guides on the way in which the new line and two alike that stay can wedge while it is drawn.

    route, run_ids : ids of the ports and runs of the way

    Yields Rule "wedge".
    """
    line = thing_of_line(job.new.line)
    for place in find_places(job=job, joint=line, port_ids=route, run_ids=run_ids):
        wedge = wedge_in(opening=place.room.opening, diameters_mm=[thing.diameter_mm for thing in place.things])
        is_port = place.id in route
        if wedge is not None:
            yield check_of_wedge(
                wedge,
                port_id=place.id if is_port else None,
                run_id=None if is_port else place.id,
                with_ids=tuple(thing.id for thing in place.things[1:]),
            )


def hand_force_question(*, job: Job, legs: Sequence[LegLength], limits: ShopLimits) -> Iterator[Check]:
    """For a pulled line: the share of the hand's force that its housing takes.

    legs : the route's legs, with their curves
    limits : the share that wants a caution

    Yields Rule "hand_force", for housings and inner cables only.
    """
    if job.new.line.kind.family is LineFamily.MECHANICAL:
        turn_deg = sum(turn_of_leg_deg(leg=leg, run=job.frame.runs[leg.run_id]) for leg in legs)
        yield check_hand_force(
            friction_ratio=job.new.line.friction_ratio,
            turn_deg=turn_deg,
            loss_limit_ratio=limits.hand_force_loss_ratio,
        )


def work_question(allowance: Allowance) -> Iterator[Check]:
    """That questions about holes were left unasked, because the work that the shop allows a plan was used up.

    Yields Rule "plan_work", with the allowance in million rows.
    """
    if allowance.refused_n and allowance.whole_rows is not None:
        yield Check(rule=PlaceRule.PLAN_WORK, outcome=Outcome.UNKNOWN, note=f"{allowance.whole_rows / ROWS_IN_UNIT:g}")
