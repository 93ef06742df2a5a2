"""What a visit takes in all: minutes with shared work counted once, parts, and what is charged."""

from collections import Counter
from collections.abc import Sequence
from decimal import Decimal

from planner.parts import Minutes, Workshop
from planner.plan.job_time import JobTime, Repeat, estimate_job_time, work_of_way
from planner.plan.money import round_money
from planner.plan.quote_lines import charge_labour
from planner.plan.work_order import count_parts
from planner.whole_bike.visit_plan import Totals, VisitStep
from planner.whole_bike.visit_quote import quotes_of_lines, things_of
from planner.whole_bike.visit_work_order import Turn


def find_totals(*, turns: Sequence[Turn], steps: Sequence[VisitStep], workshop: Workshop) -> Totals:
    """What all lines take together.

    turns : the lines' own work, in order
    steps : the one work order
    """
    time = _time_of(turns, steps, workshop)
    limits = workshop.limits
    planned = [(turn.job, turn.plan) for turn in turns if turn.plan is not None]
    charged = (*things_of(quotes_of_lines(planned, workshop=workshop)), charge_labour(time, limits))
    subtotal = sum((line.total for line in charged if line.total is not None), Decimal(0))
    tax = round_money(subtotal * limits.tax_ratio, step=limits.money_step)
    plans = [turn.plan for turn in turns if turn.plan is not None]
    parts = Counter({part.id: 0 for plan in plans for part in plan.parts})
    for plan in plans:
        parts.update({part.id: part.quantity for part in plan.parts})
    lengths_mm = [plan.options[0].length_mm for plan in plans if plan.options]
    return Totals(
        time=time,
        length_mm=None if None in lengths_mm else sum(each for each in lengths_mm if each is not None),
        parts=count_parts(part_ids=parts.elements(), workshop=workshop),
        charged=charged,
        tax=tax,
        total=subtotal + tax,
        currency=limits.currency,
        unpriced=tuple(line.name for line in charged if line.total is None),
    )


def _time_of(turns: Sequence[Turn], steps: Sequence[VisitStep], workshop: Workshop) -> JobTime:
    """Every step of the work order once; the making of each joint, and what is done again when it fails."""
    work = [Minutes(least=row.step.least_min, likely=row.step.likely_min, most=row.step.most_min) for row in steps]
    repeats: list[Repeat] = []
    for turn in turns:
        if turn.plan is not None and turn.plan.options:
            option = turn.plan.options[0]
            setup, again = work_of_way(option.step_ids, option.method, workshop)
            work.append(setup[0])
            repeats += again
    return estimate_job_time(steps=work, repeats=repeats)
