"""A visit's plan as plain values for a file."""

from typing import Any

from planner.documents.records.plan_record import plan_as_record
from planner.whole_bike.hole_stories import HoleStory
from planner.whole_bike.reasons import Conflict, Forced
from planner.whole_bike.visit_plan import LinePlan, Totals, VisitPlan, VisitStep
from planner.whole_bike.visit_ways_out import VisitWayOut

Record = dict[str, Any]


def visit_as_record(plan: VisitPlan) -> Record:
    """The plan as the one object that `lineplan plan --json` prints for a job of several lines.

    Returns plain values only, in a fixed order; each line's plan as that of a job with one line, with its id.
    """
    return {
        "format": 1,
        "job": plan.visit_id,
        "title": plan.visit_title,
        "frame": plan.frame_id,
        "outcome": plan.outcome.word,
        "proven": plan.is_proven,
        "order": [{"line": step.line_id, "step": step.kind, "together": list(step.together)} for step in plan.order],
        "lines": [_line(line) for line in plan.lines],
        "forced": [_forced(forced, plan) for forced in plan.forced],
        "conflict": None if plan.conflict is None else _conflict(plan.conflict),
        "ways_out": [_way_out(way) for way in plan.ways_out],
        "holes": [_hole(story) for story in plan.holes],
        "bound": None if plan.least_min is None else {"minutes": round(plan.least_min, 1)},
        "steps": [_step(step) for step in plan.steps],
        "cautions": list(plan.cautions),
        "totals": None if plan.totals is None else _totals(plan.totals),
    }


def _line(line: LinePlan) -> Record:
    return {"id": line.line_id, **({"plan": None} if line.plan is None else plan_as_record(line.plan))}


def _forced(forced: Forced, plan: VisitPlan) -> Record:
    """Both changes by their lines, as the order names them; a place for each that stands in the way."""
    named = {line_id: step.line_id for step in plan.order for line_id in step.line_ids}
    return {
        "before": named[forced.before[0]],
        "after": named[forced.after[0]],
        "steps": [forced.before[1], forced.after[1]],
        "place": forced.obstacle.places[0] if len(forced.obstacle.places) == 1 else None,
        "places": list(forced.obstacle.places),
        "missing_mm": _rounded(forced.obstacle.missing_mm),
        "with": list(forced.with_ids),
        "follows": forced.follows,
    }


def _conflict(conflict: Conflict) -> Record:
    return {
        "lines": list(conflict.line_ids),
        "places": list(conflict.obstacle.places),
        "moment": "at_the_end" if conflict.at_the_end else "on_the_way",
        "one_draw": conflict.is_one_draw,
        "never": conflict.never,
        "missing_mm": _rounded(conflict.obstacle.missing_mm),
    }


def _way_out(way: VisitWayOut) -> Record:
    return {
        "kind": way.kind,
        "line": way.line_id,
        "lines": list(way.line_ids),
        "place": way.place_ids[0] if len(way.place_ids) == 1 else None,
        "places": list(way.place_ids),
        "by_mm": _rounded(way.by_mm),
        "taken_out_first": list(way.split),
    }


def _hole(story: HoleStory) -> Record:
    before, *after = ([{"line": t.line_id, "is": t.lies_as} for t in moment.things] for moment in story.moments)
    return {"place": story.place_id, "before": before, "after": after}


def _rounded(size_mm: float | None) -> float | None:
    return None if size_mm is None else round(size_mm, 4) + 0.0


def _step(row: VisitStep) -> Record:
    step = row.step
    return {
        "n": row.n,
        "lines": list(row.line_ids),
        "id": step.id,
        "text": step.text,
        "why": step.why,
        "short": step.short,
        "part": step.part,
        "cautions": list(step.cautions),
        "minutes": [step.least_min, step.likely_min, step.most_min],
    }


def _totals(totals: Totals) -> Record:
    return {
        "minutes": round(float(totals.time.mean_min), 1),
        "least": round(totals.time.low_min, 1),
        "most": round(totals.time.high_min, 1),
        "price": str(totals.total),
        "tax": str(totals.tax),
        "currency": totals.currency,
        "charged": [
            {
                "kind": line.kind,
                "id": line.id,
                "name": line.name,
                "quantity": str(line.quantity),
                "unit": line.unit,
                "unit_price": None if line.unit_price is None else str(line.unit_price),
                "total": None if line.total is None else str(line.total),
            }
            for line in totals.charged
        ],
        "unpriced": list(totals.unpriced),
        "parts": [{"id": part.id, "name": part.name, "quantity": part.quantity} for part in totals.parts],
        "length_mm": None if totals.length_mm is None else round(totals.length_mm, 1),
    }
