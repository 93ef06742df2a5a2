"""The lines of a visit side by side on paper: what goes in, how it is joined, where it is fed and cut."""

from collections.abc import Iterator, Mapping, Sequence
from typing import Any

from planner.documents.paper.card_tables import mark_table
from planner.documents.paper.parts import gap, heading
from planner.documents.paper.style import TICK_BOX, Cell, table, words
from planner.documents.words.advice import advice_to_heed
from planner.documents.words.check_words import sentence_for
from planner.documents.words.hand_words import cut_words, joint_size_words
from planner.documents.words.outcome_words import OUTCOME_MARKS, OUTCOME_WORDS
from planner.documents.words.sizes_in_words import finely, leg_size, unknown_legs_words
from planner.documents.words.wording import end_name, may_part_inside, pull_sentence
from planner.plan.cut_length import added_words, words_beside_cut
from planner.plan.names import Names
from planner.plan.routing_plan import RoutingPlan
from planner.verdicts import Check, Outcome, State
from planner.whole_bike.visit_plan import LinePlan, VisitPlan


def lines_table(plan: VisitPlan, letters: Mapping[str, str], *, width_mm: float) -> Any:
    """A column of facts for each line: the new one, its joint, where it is fed, what is cut.

    letters : of the lines on the pictures
    width_mm : width there is
    """
    head: list[Cell] = ["", "Line in", "Led in by", "Feed from", "Cut the old line", "The new line"]
    rows = [head, *(_line_row(line, letters) for line in plan.lines)]
    return table(rows, widths_mm=_shared(width_mm, (24, 30, 38, 22, 24, 42)))


def _line_row(line: LinePlan, letters: Mapping[str, str]) -> list[Cell]:
    name: Cell = (f"{letters[line.line_id]} {line.line_id}", "strong")
    plan = line.plan
    if plan is None:
        return [name, "nothing: it only comes out", "–", "–", "–", "–"]
    begins = plan.outcome.lets_work_begin
    led = f"{plan.method_name}{joint_size_words(plan)}" if plan.route else plan.method_name
    return [
        name,
        plan.new_line_name,
        led or "–",
        end_name(plan, plan.feed_from) if plan.route else "–",
        f"near {end_name(plan, plan.cut_old_at)}" if begins and plan.cut_old_at else "nothing to cut",
        cut_words(plan) if begins else OUTCOME_WORDS[plan.outcome],
    ]


def to_settle(plan: VisitPlan) -> Iterator[Any]:
    """What each line asks to be settled and known; what several ask stands once."""
    said: dict[str, list[str]] = {}
    for line in plan.lines:
        for check in advice_to_heed(line.plan) if line.plan is not None else ():
            said.setdefault(sentence_for(check, names=plan.names), []).append(line.line_id)
    if said:
        yield from heading("To settle and to know")
    everybody = sum(line.plan is not None for line in plan.lines)
    for sentence, line_ids in said.items():
        whose = "all" if len(set(line_ids)) == everybody else ", ".join(dict.fromkeys(line_ids))
        yield words(f"{TICK_BOX} {whose}: {sentence}")


def line_section(line: LinePlan, letters: Mapping[str, str], *, width_mm: float) -> Iterator[Any]:
    """What is of one line alone: pulling, marks on it, its holes with their figures, its lengths.

    letters : of the lines on the pictures
    width_mm : width there is
    """
    plan = line.plan
    if plan is None:
        return
    title = f"{letters[line.line_id]} {line.line_id}: {plan.new_line_name}"
    yield from heading(title, followed_by_mm=30)
    if plan.outcome.lets_work_begin:
        told = [] if plan.lengths is None else [": ".join(row) for row in words_beside_cut(plan.lengths)]
        told += [pull_sentence(plan.joint)] if plan.joint is not None and may_part_inside(plan) else []
        yield from (words(sentence) for sentence in told)
        marks = mark_table(plan, width_mm=width_mm)
        if marks is not None:
            yield gap(1)
            yield marks
    holes = _hole_table(plan, width_mm=width_mm)
    if holes is not None:
        yield gap(1.5)
        yield holes
    yield from _lengths(plan)
    yield from _not_plain(plan)


def _hole_table(plan: RoutingPlan, *, width_mm: float) -> Any:
    """A row for each hole and guide, while the line is drawn through it and when all is done; the worst of each."""
    checks = [check for check in plan.checks if check.rule.row.is_gap_round_a_line]
    places = dict.fromkeys((check.port_id, check.run_id) for check in checks)
    if not places:
        return None
    spare = "To spare, at worst"
    head: list[Cell] = ["Hole or guide", "Drawn beside", spare, "Rides beside", spare]
    rows = [head]
    for port_id, run_id in places:
        here = [check for check in checks if (check.port_id, check.run_id) == (port_id, run_id)]
        place = plan.names.place(port_id) if port_id else plan.names.run(run_id or "")
        drawing, riding = (_figures(here, state, plan.names) for state in (State.DRAWING, State.RIDING))
        rows.append([place, *drawing, *riding])
    return table(rows, widths_mm=_shared(width_mm, (42, 40, 29, 40, 29)))


def _figures(checks: Sequence[Check], state: State, names: Names) -> tuple[Cell, Cell]:
    """What lies beside, and what is left: that of the tightest question at this moment."""
    asked = [check for check in checks if check.state is state]
    if not asked:
        return "–", "–"
    worst = max(asked, key=lambda check: (check.outcome, -_left_mm(check)))
    beside = ", ".join(map(names.thing, worst.with_ids)) or "nothing"
    sizes = (worst.clearance_mm, worst.worst_clearance_mm)
    told = ", ".join(
        "not measured" if size_mm is None else finely(size_mm, digits=2) for size_mm in dict.fromkeys(sizes)
    )
    insert = ", insert in" if worst.is_insert_in else ""
    return (f"{beside}{insert}", "small"), f"{OUTCOME_MARKS[worst.outcome]} {told}"


def _left_mm(check: Check) -> float:
    return 0.0 if check.worst_clearance_mm is None else check.worst_clearance_mm


def _lengths(plan: RoutingPlan) -> Iterator[Any]:
    lengths = plan.lengths
    if lengths is None:
        return
    yield gap(1.5)
    legs = [f"{plan.names.run(leg.run_id)} {'–'.join(_told_once(leg.low_mm, leg.high_mm))} mm" for leg in lengths.legs]
    if lengths.need_mm is None or lengths.cut_mm is None:
        unknown = unknown_legs_words(lengths, names=plan.names)
        need = f"How much is needed is not known: {unknown}."
    else:
        need = f"Needed {lengths.need_mm:.0f} mm{added_words(lengths)}, rounded up: {lengths.cut_mm:.0f} mm."
    yield words(f"Lengths, {lengths.posture}: {' · '.join(legs)}. {need}", "small")


def _told_once(*sizes_mm: float | None) -> tuple[str, ...]:
    return tuple(dict.fromkeys(leg_size(size_mm, unit="") for size_mm in sizes_mm))


def _not_plain(plan: RoutingPlan) -> Iterator[Any]:
    """Every other answer that is not a plain yes."""
    said = [
        f"{OUTCOME_WORDS[check.outcome]}: {sentence_for(check, names=plan.names)}"
        for check in plan.checks
        if check.outcome is not Outcome.FITS and not check.rule.row.is_gap_round_a_line
    ]
    yield from (words(f"– {sentence}") for sentence in dict.fromkeys(said))


def _shared(width_mm: float, parts: tuple[float, ...]) -> list[float]:
    return [width_mm * part / sum(parts) for part in parts]
