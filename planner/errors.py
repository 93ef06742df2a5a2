"""What can go wrong in a computation, as opposed to a part that does not fit.

PlannerError
  ImpossibleDimensionError (also ValueError)   a number no workshop could measure
  UnknownPortError                             a run or a job names a port or anchor the frame lacks
  OldWayNotToldError                           several ways are open for an old line, and the job does not say which

A bad fit, no route and a missing measurement are results, never exceptions.
"""


class PlannerError(Exception):
    """Base of everything the planner raises on purpose."""


class ImpossibleDimensionError(PlannerError, ValueError):
    """A number that no measurement can have given, such as a hole of negative width."""

    def __init__(self, *, name: str, value: float, unit: str, rule: str) -> None:
        self.name, self.value, self.unit, self.rule = name, value, unit, rule
        given = f"{value:g} {unit}" if unit else f"{value:g}"
        super().__init__(f"{name}: {given} was given; it {rule}")


class UnknownPortError(PlannerError):
    """A port or anchor was named that this frame does not have."""

    def __init__(self, *, frame_id: str, port_id: str, known: tuple[str, ...]) -> None:
        self.frame_id, self.port_id, self.known = frame_id, port_id, known
        super().__init__(f"{frame_id} has no port or anchor {port_id}; it has {', '.join(known)}")


class OldWayNotToldError(PlannerError):
    """Where an old line lies decides what may go beside it, and more than one way is open."""

    def __init__(self, *, line_id: str, ways: tuple[tuple[str, ...], ...]) -> None:
        self.line_id, self.ways = line_id, ways
        told = "; ".join(", ".join(ports) or "outside, through no port" for ports in ways)
        super().__init__(f"{line_id}: the ports its old line runs through are not told, and it may be: {told}")
