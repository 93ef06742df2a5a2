"""Hand-over records of saved jobs: what is asked, what was recorded last, one more kept, printed."""

from collections.abc import Sequence
from dataclasses import replace
from typing import TYPE_CHECKING

from planner import HandOver, carried_over, hand_over_asked
from ui.shared.planned_visit import Planned, PlannedVisit

if TYPE_CHECKING:
    from catalog import Store


def asked_of(planned: Planned) -> HandOver:
    """An empty record for a planned job of one line or of several."""
    if isinstance(planned, PlannedVisit):
        plans = [line.plan for line in planned.plan.lines if line.plan is not None]
        steps = [
            replace(one.step, n=one.n, tightens=_whose(one.step.tightens, one.line_ids)) for one in planned.plan.steps
        ]
    else:
        plans, steps = [planned.plan], list(planned.plan.steps)
    return hand_over_asked(plans=plans, steps=steps, workshop=planned.workshop)


def _whose(bolts: str, line_ids: Sequence[str]) -> str:
    """Bolts with the lines they belong to: two lines may both have a clamp."""
    return f"{bolts} ({', '.join(line_ids)})" if bolts else ""


def last_record(store: "Store", planned: Planned, name: str) -> tuple[HandOver, int]:
    """What was recorded last on the rows that are asked now, and which record that was: 0 where there is none."""
    from catalog import from_record

    asked, kept = asked_of(planned), store.hand_overs.of_job(name)
    if not kept:
        return asked, 0
    return carried_over(asked, from_record(HandOver, kept[-1].content)), kept[-1].version


def keep_record(store: "Store", name: str, record: HandOver, *, based_on: int, by: str) -> int:
    """Keep one more record of a job; its number.

    Raises EditConflict where another one was kept meanwhile.
    """
    from catalog import as_record

    return store.hand_overs.save(name, as_record(record), based_on=based_on, by=by).version


def record_pdf(record: HandOver, planned: Planned, *, title: str, version: int) -> bytes:
    """A record on paper, with the shop's name and whom the job is for."""
    from planner import hand_over_pdf

    limits = planned.workshop.limits
    return hand_over_pdf(
        record=record,
        title=title,
        for_whom=planned.for_whom,
        shop_name=limits.shop_name,
        shop_address=limits.shop_address,
        number=str(version) if version else "",
    )
