"""What a table comes to: how many pairs of each outcome, what stops most, what one measurement would settle."""

from collections import Counter
from collections.abc import Mapping, Sequence
from dataclasses import dataclass, field
from typing import TypeVar

from planner.table.answers import CaseAnswers
from planner.table.decisions import Decision, join_answers
from planner.verdicts import Outcome

Place = tuple[str, str]
"""Ids of a frame and of one of its ports or runs."""


Counted = TypeVar("Counted", str, Place)


@dataclass(slots=True, kw_only=True)
class Tally:
    """Counts of pairs; filled case by case, in any order.

    outcomes : by outcome
    stops : of pairs that nothing gets through, by the place of the nearest miss
    others : of pairs that are a no for another reason, by its rule
    open_by_one : of pairs not proven, by the one place that was not measured or not proven
    open_by_more : of those that wait for several places, or for none
    """

    outcomes: Counter[Outcome] = field(default_factory=Counter)
    stops: Counter[Place] = field(default_factory=Counter)
    others: Counter[str] = field(default_factory=Counter)
    open_by_one: Counter[Place] = field(default_factory=Counter)
    open_by_more: int = 0

    @property
    def pairs_n(self) -> int:
        """All pairs counted so far."""
        return sum(self.outcomes.values())


def most_first(counts: Mapping[Counted, int]) -> list[tuple[Counted, int]]:
    """What was counted, most first; what is as many by name, so that the order does not hang on that of counting."""
    return sorted(counts.items(), key=lambda counted: (-counted[1], counted[0]))


def count_case(
    tally: Tally, *, frame_id: str, answers: CaseAnswers, supplied_mm: Sequence[float | None], brakes_n: Sequence[int]
) -> None:
    """Count one case in.

    supplied_mm, brakes_n : length of the line as supplied, and how many brakes there are, of each look [mm, no unit]
    """
    alike: Counter[tuple[int, int, float | None]] = Counter()
    for look, several in zip(zip(answers.way_of, answers.parts_of, supplied_mm, strict=True), brakes_n, strict=True):
        alike[look] += several
    for (way, parts, length_mm), several in alike.items():
        decision = join_answers(way=answers.ways[way], parts=answers.parts[parts], supplied_mm=length_mm)
        _count(tally, frame_id, decision, several)


def _count(tally: Tally, frame_id: str, decision: Decision, several: int) -> None:
    tally.outcomes[decision.outcome] += several
    if decision.outcome is Outcome.NO_FIT:
        is_stopped = not decision.way.has_way and decision.decider.place_id
        if is_stopped:
            tally.stops[frame_id, decision.decider.place_id] += several
        else:
            tally.others[decision.decider.rule] += several
    if decision.outcome is Outcome.UNKNOWN:
        places = {place for place, _ in decision.way.missing if place}
        if len(places) == 1:
            tally.open_by_one[frame_id, places.pop()] += several
        else:
            tally.open_by_more += several
