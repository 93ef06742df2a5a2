"""Which answers count for the outcome of a plan, and which are questions for the owner."""

from collections.abc import Iterator

from planner.fit.compatibility import CompatibilityResult
from planner.parts import Job
from planner.plan.job_facts import ends_by_feed
from planner.plan.routing_plan import JobEnd
from planner.verdicts import Check, Outcome, State


def known_checks(parts: CompatibilityResult) -> tuple[Check, ...]:
    """Checks of the parts that are known to pass or to fail, and so count for the outcome.

    Parameters
    ----------
    parts : CompatibilityResult
        Whether the parts belong together.

    Returns
    -------
    tuple of Check
        Without those that nobody can answer from the catalog.

    References
    ----------
    Decisions 10 in DEVELOPERS.md.
    """
    return tuple(check for check in parts.checks if check.outcome is not Outcome.UNKNOWN)


def open_questions(parts: CompatibilityResult) -> tuple[Check, ...]:
    """What the catalog does not know about the parts, and what only the owner can settle.

    Parameters
    ----------
    parts : CompatibilityResult
        Whether the parts belong together.

    Returns
    -------
    tuple of Check
        All UNKNOWN; no part of the outcome.

    References
    ----------
    Decisions 10 in DEVELOPERS.md.
    """
    return (*(check for check in parts.checks if check.outcome is Outcome.UNKNOWN), *parts.questions)


def leading_joint_question(*, job: Job, feed_from: JobEnd) -> Iterator[Check]:
    """A fitted leading end has its bore filled: whether the joint goes onto it is for the bench to try.

    Parameters
    ----------
    job : Job
        The job.
    feed_from : JobEnd
        The end the new line is fed from.

    Yields
    ------
    Check
        Rule "leading_joint", for a fitted leading end only.

    References
    ----------
    Common practice, no source.
    """
    leading, _ = ends_by_feed(job=job, feed_from=feed_from)
    if leading.is_fitted and leading.fitting is not None:
        yield Check(
            rule="leading_joint",
            outcome=Outcome.UNKNOWN,
            state=State.DRAWING,
            with_ids=(leading.fitting.id,),
            note=leading.fitting.name,
        )
