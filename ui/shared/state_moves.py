"""Where a job or a quote may go from where it stands, in the words of a button."""

from catalog import JobState, QuoteState, next_job_states, next_quote_states

_JOB_MOVES = {
    JobState.WAITING: "Put back to waiting",
    JobState.ON_THE_BENCH: "Take to the bench",
    JobState.FINISHED: "Finished",
    JobState.CALLED_OFF: "Call off",
}
_QUOTE_MOVES = {
    QuoteState.HANDED_OVER: "Handed over",
    QuoteState.AGREED: "Agreed",
    QuoteState.TURNED_DOWN: "Turned down",
    QuoteState.LAPSED: "Lapsed",
    QuoteState.CALLED_OFF: "Call off",
    QuoteState.WORK_DONE: "Work done",
}


def job_moves(state: JobState) -> dict[JobState, str]:
    """The states a job may be taken to, each with what the button says."""
    return {to: _JOB_MOVES[to] for to in next_job_states(state)}


def quote_moves(state: QuoteState) -> dict[QuoteState, str]:
    """The states a quote may be taken to, each with what the button says."""
    return {to: _QUOTE_MOVES[to] for to in next_quote_states(state)}
