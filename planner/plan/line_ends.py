"""The new line's two ends: which one leads, which wants a fitting set, which can be cut to length."""

from planner.parts import Job, JobEnd, LineEnd, LineFamily, NewLine, SetBy


def ends_by_feed(*, job: Job, feed_from: JobEnd) -> tuple[LineEnd, LineEnd]:
    """The new line's leading and trailing end.

    feed_from : the end it is fed from
    """
    return job.new.end_at(feed_from.other), job.new.end_at(feed_from)


def must_be_set(end: LineEnd) -> bool:
    """Whether a fitting belongs on this end and is not on it yet, so that the workshop has to set it."""
    return end.fitting is not None and not end.is_fitted


def can_be_trimmed(end: LineEnd) -> bool:
    """Whether the line can be cut to length at this end: it is bare, and a workshop can set what belongs on it."""
    return not end.is_fitted and (end.fitting is None or end.fitting.set_by is SetBy.WORKSHOP)


def has_factory_end(line: NewLine) -> bool:
    """Whether an end of it is set at the factory, so that it is never cut from stock.

    Common practice, no source: an end crimped at the factory cannot be made in a workshop.
    """
    fittings = (line.from_end.fitting, line.to_end.fitting)
    return any(fitting is not None and fitting.set_by is SetBy.FACTORY for fitting in fittings)


def is_cut_to_length(line: NewLine) -> bool:
    """Whether the workshop cuts this line: never a wire, nor a line whose ends both come closed."""
    ends = (line.from_end, line.to_end)
    return line.line.kind.family is not LineFamily.ELECTRIC and any(can_be_trimmed(end) for end in ends)
