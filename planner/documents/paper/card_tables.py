"""The tables of a job card: holes, lengths, marks, parts, steps and what was ruled out."""

from collections.abc import Mapping, Sequence
from itertools import accumulate
from typing import Any

from planner.documents.paper.style import TICK_BOX, Cell, table
from planner.documents.words.advice import ruled_out_in_short
from planner.documents.words.caution_letters import told_first
from planner.documents.words.outcome_words import OUTCOME_WORDS, fit_class_words
from planner.documents.words.sizes_in_words import basis_words, leg_size, millimetres
from planner.parts import JobEnd
from planner.plan.job_time import whole_minutes
from planner.plan.names import Names
from planner.plan.routing_plan import RoutingPlan
from planner.verdicts import Check


def hole_table(plan: RoutingPlan, *, width_mm: float) -> Any:
    """Every hole at every moment, with the numbers that decided it; None where no hole was checked.

    width_mm : width there is
    """
    checks = [check for check in plan.checks if check.rule.is_about_hole]
    if not checks:
        return None
    head: list[Cell] = [
        "Hole",
        "In the picture",
        "While",
        "Beside",
        "Size",
        "To spare",
        "At worst",
        "Fit class",
        "Verdict",
    ]
    rows = [head, *(_hole_row(check, plan.names) for check in checks)]
    return table(rows, widths_mm=_shared(width_mm, (32, 27, 16, 22, 16, 16, 16, 18, 17)))


def _hole_row(check: Check, names: Names) -> list[Cell]:
    place = names.place(check.port_id or "")
    return [
        (f"{place}; insert in" if check.is_insert_in else place, "strong"),
        (check.port_id or "", "small"),
        check.state or "",
        ", ".join(map(names.thing, check.with_ids)) or "–",
        *(_size(size_mm) for size_mm in (check.size_mm, check.clearance_mm, check.worst_clearance_mm)),
        fit_class_words(check.fit_class),
        (OUTCOME_WORDS[check.outcome], "strong"),
    ]


def _size(size_mm: float | None) -> Cell:
    return ("not measured", "small") if size_mm is None else millimetres(size_mm)


def length_table(plan: RoutingPlan, *, width_mm: float) -> Any:
    """The legs of the way, with how each length is known.

    width_mm : width there is
    """
    head: list[Cell] = ["From", "To", "Least", "At rest", "Most", "How known"]
    rows: list[list[Cell]] = [head]
    for leg in () if plan.lengths is None else plan.lengths.legs:
        sizes = [leg_size(size_mm) for size_mm in (leg.low_mm, leg.nominal_mm, leg.high_mm)]
        ends = (plan.names.place(leg.from_place), plan.names.place(leg.to_place))
        rows.append([*ends, *sizes, basis_words(leg)])
    return table(rows, widths_mm=_shared(width_mm, (44, 44, 18, 18, 18, 38)))


def mark_table(plan: RoutingPlan, *, width_mm: float) -> Any:
    """Where to put tape on the new line: how much of it has gone in when its leading end is at each hole.

    width_mm : width there is
    """
    if plan.lengths is None or not plan.route or plan.feed_from is None:
        return None
    legs = list(plan.lengths.legs) if plan.feed_from is JobEnd.FROM else list(plan.lengths.legs)[::-1]
    inner = legs[1:-1]
    holes = list(plan.route) if plan.feed_from is JobEnd.FROM else list(plan.route)[::-1]
    if len(inner) != len(holes) - 1:
        return None
    rows: list[list[Cell]] = [["", "Tape on the new line", "Once the tape is at the first hole, that end is at"]]
    known_mm = [leg.way_mm for leg in inner if leg.nominal_mm is not None and leg.way_mm is not None]
    ways_mm = list(accumulate(known_mm))
    if len(ways_mm) != len(inner):
        return None
    for hole, way_mm in zip(holes[1:], ways_mm, strict=True):
        rows.append([TICK_BOX, f"{way_mm:.0f} mm from its leading end", plan.names.place(hole)])
    return table(rows, widths_mm=_shared(width_mm, (7, 60, 113)))


def part_table(plan: RoutingPlan, needs: Sequence[str], *, width_mm: float) -> Any:
    """What must lie on the bench, with a box to tick; None where nothing is needed.

    needs : what the job needs beside its parts, in words
    width_mm : width there is
    """
    rows: list[list[Cell]] = [["", "Quantity", "Have ready", "Catalog id"]]
    rows += [[TICK_BOX, f"{part.quantity} ×", part.name, part.id] for part in plan.parts]
    rows += [[TICK_BOX, "", need, ""] for need in needs]
    return table(rows, widths_mm=_shared(width_mm, (7, 20, 110, 43))) if len(rows) > 1 else None


def step_table(plan: RoutingPlan, letters: Mapping[str, str], *, width_mm: float) -> Any:
    """The work order with boxes to tick.

    letters : the letter of every caution, by its sentence
    width_mm : width there is
    """
    rows: list[list[Cell]] = [["", "", "Step", "Why", "Minutes"]]
    for step in plan.steps:
        first = told_first(plan, step)
        again = ", ".join(letters[caution] for caution in step.cautions if caution not in first)
        told = [step.text + (f" ⚠ {again}" if again else ""), *(f"⚠ {letters[caution]} {caution}" for caution in first)]
        least, likely, most = (whole_minutes(time) for time in (step.least_min, step.likely_min, step.most_min))
        minutes = f"{likely} ({least}–{most})"
        rows.append([TICK_BOX, f"{step.n}.", "\n".join(told), (step.why, "small"), minutes])
    return table(rows, widths_mm=_shared(width_mm, (7, 9, 90, 54, 20)))


def ruled_out_table(plan: RoutingPlan, *, width_mm: float) -> Any:
    """The first reason against every way that was tried; None where nothing was.

    width_mm : width there is
    """
    rows: list[list[Cell]] = [["Way", "What stands against it"]]
    rows += [[", ".join(tried), (sentence, "small")] for sentence, tried in ruled_out_in_short(plan).items()]
    return table(rows, widths_mm=_shared(width_mm, (64, 116))) if len(rows) > 1 else None


def _shared(width_mm: float, parts: Sequence[float]) -> list[float]:
    whole = sum(parts)
    return [width_mm * part / whole for part in parts]
