"""How a command ends, in the numbers that a shell and other programs read."""

from enum import IntEnum
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from planner.verdicts import Outcome


class ExitStatus(IntEnum):
    """Exit statuses of every command.

    DONE : what was asked for, or a plan
    BAD_INPUT : nothing was done, and the error stream says everything that is wrong
    NO_PLAN : a valid answer that is a no, or not all that was wanted
    """

    DONE = 0
    BAD_INPUT = 2
    NO_PLAN = 3


def status_of(outcome: "Outcome") -> ExitStatus:
    """A plan that may be worked by, or a no: what is not proven is no plan."""
    return ExitStatus.DONE if outcome.lets_work_begin else ExitStatus.NO_PLAN
