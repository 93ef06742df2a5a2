"""Networks of places and lengths as the graphs that the route search takes."""

from planner.routing.run_graph import LEAVE, RunGraph, RunState

Way = tuple[str, str, float]


def graph_of(ways: list[Way], *, end: str, are_one_way: bool) -> RunGraph:
    """States by place and run; a run is never followed by itself."""
    states = [(RunState(a, f"{a}-{b}"), b, length) for a, b, length in ways]
    if not are_one_way:
        states += [(RunState(b, f"{a}-{b}"), a, length) for a, b, length in ways]
    steps = [
        (state, onward, length)
        for state, far, length in states
        for onward in (
            [LEAVE] if far == end else [s for s, _, _ in states if s.place == far and s.run_id != state.run_id]
        )
    ]
    return RunGraph((LEAVE, *(state for state, _, _ in states)), steps)
