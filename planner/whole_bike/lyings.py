"""Where a line lies on a frame, as the other lines meet it."""

from collections.abc import Collection
from dataclasses import dataclass

from planner.fit.things import thing_of_line
from planner.parts import Frame, Line
from planner.routing.passage import lies_in_run


@dataclass(frozen=True, slots=True, kw_only=True)
class Lying:
    """A line in its place.

    places : ids of the ports and runs it lies in
    diameter_mm, tolerance_mm : outside, and plus or minus [mm]
    """

    places: frozenset[str]
    diameter_mm: float
    tolerance_mm: float

    @property
    def thickest_mm(self) -> float:
        """Its diameter at the worse limit."""
        return self.diameter_mm + self.tolerance_mm


def find_lying(*, frame: Frame, line: Line, through: Collection[str]) -> Lying:
    """Where a line lies that goes through these places; guides and cavities as for a line that stays.

    through : ids of ports and runs
    """
    named = set(through)
    runs = {run.id for run in frame.runs.values() if lies_in_run(frame=frame, run=run, through=named)}
    thing = thing_of_line(line)
    return Lying(
        places=frozenset(runs | (named & frame.ports.keys())),
        diameter_mm=thing.diameter_mm,
        tolerance_mm=thing.tolerance_mm,
    )


def is_nowhere_more(less: Lying | None, more: Lying | None) -> bool:
    """Whether one is met at no place where the other is not, and is thicker than it at neither size nor limit."""
    if less is None or more is None:
        return less is None
    return less.places <= more.places and less.diameter_mm <= more.diameter_mm and less.thickest_mm <= more.thickest_mm


def always_there(first: Lying | None, second: Lying | None) -> Lying | None:
    """What is met whichever of the two lies there: at common places, by the lesser size and the lesser limit.

    None where nothing is.
    """
    if first is None or second is None or not first.places & second.places:
        return None
    diameter_mm = min(first.diameter_mm, second.diameter_mm)
    return Lying(
        places=first.places & second.places,
        diameter_mm=diameter_mm,
        tolerance_mm=min(first.thickest_mm, second.thickest_mm) - diameter_mm,
    )
