"""Does each port and stop on the old line's way take a line of the new kind?"""

from collections.abc import Iterable

from planner.parts import Line, LineKind, Port
from planner.rules import PartRule
from planner.verdicts import Check, Outcome


def check_line_kind(*, line: Line, ports: Iterable[Port]) -> tuple[Check, ...]:
    """Whether the new line may take the way of the old one, as far as the kind of line goes.

    A closed cable stop lets an inner cable through and holds the housing back: a hose needs another way or open guides
    beside it. It is never drilled out: it carries load and sits on a thin tube.

    Returns rule "port_admits", one for each port: FITS with note "takes_all" or "takes_it"; NO_FIT with "closed_stop"
    (takes an inner cable only) or "other_kind". Size does not count here.

    ports : the ports the old line runs through
    """
    return tuple(
        Check(rule=PartRule.PORT_ADMITS, outcome=outcome, note=note, port_id=port.id, with_ids=(line.id,))
        for port in ports
        for outcome, note in (_answer(line, port),)
    )


def _answer(line: Line, port: Port) -> tuple[Outcome, str]:
    if not port.admits:
        return Outcome.FITS, "takes_all"
    if port.takes(line.kind):
        return Outcome.FITS, "takes_it"
    if set(port.admits) == {LineKind.INNER_CABLE}:
        return Outcome.NO_FIT, "closed_stop"
    return Outcome.NO_FIT, "other_kind"
