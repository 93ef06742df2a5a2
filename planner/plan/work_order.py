"""Which steps, in which order, with which cautions, and what to have on the bench."""

from collections import Counter
from collections.abc import Iterable, Iterator

from planner.parts import AtHand, Caution, Fact, Job, JobEnd, Method, Placeholder, Rescue, WorkPart, Workshop, WorkStep
from planner.plan.line_ends import ends_by_feed, must_be_set
from planner.plan.routing_plan import PartNeeded, RescueLine, Step


class _Words(dict[str, str]):
    """Leaves a placeholder that nobody fills standing, so that it is seen and not lost."""

    def __missing__(self, key: str) -> str:
        return "{" + key + "}"


def holds_under(asked: WorkStep | Caution | Rescue | AtHand, facts: frozenset[Fact]) -> bool:
    """Whether it applies: all of `when`, one of `when_any` if any is named, none of `unless`."""
    has_one = not asked.when_any or not facts.isdisjoint(asked.when_any)
    return has_one and facts.issuperset(asked.when) and facts.isdisjoint(asked.unless)


def find_steps(*, workshop: Workshop, facts: frozenset[Fact], words: dict[Placeholder, str]) -> tuple[Step, ...]:
    """The numbered steps of this plan.

    Returns numbered from 1; a caution whose own conditions do not hold is told at none.

    workshop : its steps in working order, and its cautions
    words : fills the placeholders
    """
    chosen = [step for step in workshop.steps if holds_under(step, facts)]
    parts = dict(zip((step.id for step in workshop.steps), _parts_of(workshop.steps), strict=True))
    fill = _Words(words.items())
    return tuple(
        Step(
            n=n,
            id=step.id,
            text=step.text.format_map(fill),
            why=step.why.format_map(fill),
            short=step.short.format_map(fill),
            tightens=step.tightens.format_map(fill),
            part=parts[step.id],
            shows_rescue=step.shows_rescue,
            cautions=tuple(
                workshop.cautions[key].text.format_map(fill)
                for key in _caution_ids(step, workshop)
                if holds_under(workshop.cautions[key], facts)
            ),
            least_min=step.minutes.least,
            likely_min=step.minutes.likely,
            most_min=step.minutes.most,
        )
        for n, step in enumerate(chosen, start=1)
    )


def _caution_ids(step: WorkStep, workshop: Workshop) -> Iterable[str]:
    """The cautions that a step names; where it tightens something, also what is to be minded with a torque."""
    torque = (caution.id for caution in workshop.cautions.values() if step.tightens and caution.asks_torque)
    return dict.fromkeys((*step.cautions, *torque))


def _parts_of(steps: Iterable[WorkStep]) -> Iterator[WorkPart | None]:
    """The stretch of every step: its own, or that of the step before."""
    part = None
    for step in steps:
        part = step.part or part
        yield part


def find_cautions(
    *, workshop: Workshop, facts: frozenset[Fact], words: dict[Placeholder, str], steps: Iterable[Step]
) -> tuple[str, ...]:
    """The cautions told for the whole job: those that hold under conditions of theirs and belong to no step of it.

    Returns in the workshop's order.

    words : fills the placeholders
    steps : of the plan
    """
    fill = _Words(words.items())
    told = {caution for step in steps for caution in step.cautions}
    asked = (
        caution.text.format_map(fill)
        for caution in workshop.cautions.values()
        if (caution.when or caution.when_any or caution.unless) and holds_under(caution, facts)
    )
    return tuple(sentence for sentence in asked if sentence not in told)


def find_short_cautions(*, workshop: Workshop, words: dict[Placeholder, str]) -> dict[str, str]:
    """The workshop's cautions in a few words, by their sentence."""
    fill = _Words(words.items())
    return {
        caution.text.format_map(fill): caution.short.format_map(fill)
        for caution in workshop.cautions.values()
        if caution.short
    }


def find_rescue(*, workshop: Workshop, facts: frozenset[Fact], words: dict[Placeholder, str]) -> tuple[RescueLine, ...]:
    """What to do when it sticks or parts; nothing where no line goes through the frame.

    words : fills the placeholders
    """
    if Fact.OUTSIDE_ONLY in facts:
        return ()
    fill = _Words(words.items())
    return tuple(
        RescueLine(case=each.case, kind=each.kind, text=each.text.format_map(fill))
        for each in workshop.rescues
        if holds_under(each, facts)
    )


def find_at_hand(*, workshop: Workshop, facts: frozenset[Fact], words: dict[Placeholder, str]) -> tuple[str, ...]:
    """Tools and supplies that the steps of this plan take up, in the workshop's order.

    words : fills the placeholders
    """
    fill = _Words(words.items())
    return tuple(each.text.format_map(fill) for each in workshop.at_hand if holds_under(each, facts))


def find_part_ids(*, job: Job, method: Method, feed_from: JobEnd) -> tuple[str, ...]:
    """Small parts that setting the fittings and making the joint uses up, one id for each piece.

    A fitting that already sits on the line takes none.

    Returns in the order they are first needed.

    method : how the lines are joined
    feed_from : the end the new line is fed from

    Common practice, no source: an olive, an insert and sealing washers are used once.
    """
    ends = ends_by_feed(job=job, feed_from=feed_from)
    used = (part_id for end in ends if must_be_set(end) and end.fitting is not None for part_id in end.fitting.uses)
    return (*method.uses, *used)


def count_parts(*, part_ids: Iterable[str], workshop: Workshop) -> tuple[PartNeeded, ...]:
    """Add up equal parts.

    Returns in the order of first mention.

    part_ids : one for each piece: a small part or an adapter
    workshop : for the names; a part that it does not hold is listed under its id
    """
    names = {part.id: part.name for part in workshop.small_parts.values()}
    names |= {adapter.id: adapter.name for adapter in workshop.adapters}
    return tuple(
        PartNeeded(id=part_id, name=names.get(part_id, part_id), quantity=count)
        for part_id, count in Counter(part_ids).items()
    )
