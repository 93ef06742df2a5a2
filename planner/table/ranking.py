"""Which of the manners that get through is the plan, in the order of `find_candidates`; minutes only where asked."""

from collections.abc import Callable, Sequence
from dataclasses import dataclass

from planner.parts import JobEnd, PullWord
from planner.plan.options import handling_of_pull
from planner.table.manners import Manner
from planner.verdicts import Outcome


@dataclass(frozen=True, slots=True, kw_only=True)
class Candidate:
    """One manner that gets through.

    row : of the manner table
    outcome : of its way, ends and joint
    way : which of the ways it takes
    length_mm : of that way, by which equals are put in order
    drag_n : pull to draw it through
    advice : what the hands may do to its joint
    """

    manner: Manner
    row: int
    outcome: Outcome
    way: int
    length_mm: float
    drag_n: float
    advice: PullWord

    @property
    def handling(self) -> int:
        """How careful the hands must be."""
        return handling_of_pull(method=self.manner.method, advice=self.advice)


def pick(
    candidates: Sequence[Candidate],
    *,
    is_short: Callable[[Candidate], bool],
    minutes: Callable[[Candidate], float],
) -> Candidate:
    """The best of some candidates; at least one is given.

    is_short : whether the line as supplied is too short for it
    minutes : how long it takes

    As `rank_of_candidate` has it.
    """
    graded = [(Outcome.NO_FIT if is_short(one) else one.outcome, one.handling) for one in candidates]
    least = min(graded)
    equals = [one for one, grade in zip(candidates, graded, strict=True) if grade == least]
    return equals[0] if len(equals) == 1 else min(equals, key=lambda one: _rest_of_rank(one, minutes))


def _rest_of_rank(
    one: Candidate, minutes: Callable[[Candidate], float]
) -> tuple[float, bool, float, float, float, str, JobEnd]:
    manner = one.manner
    return (
        minutes(one),
        manner.undoes_leading,
        one.length_mm,
        manner.looseness_mm,
        -(manner.holds_n or 0.0),
        manner.method.id,
        manner.feed_from,
    )
