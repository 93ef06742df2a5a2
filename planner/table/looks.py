"""Brakes by their values alone: those that look alike have the same answers, and share questions as far as they do."""

from collections.abc import Iterable
from dataclasses import dataclass, replace
from typing import TypeVar

from planner.parts import FLUID_FACTS, Brake, Fitting, FittingStyle, Fluid, Line, LineEnd, MountKind

Thing = TypeVar("Thing")


def look_of(brake: Brake) -> Brake:
    """The brake by its values alone: no ids, names, prices or small parts."""
    line, lever_end, caliper_end = line_look(brake.line), end_look(brake.lever_end), end_look(brake.caliper_end)
    return replace(brake, id="", name="", price=None, line=line, lever_end=lever_end, caliper_end=caliper_end)


def line_look(line: Line) -> Line:
    """The same of a line."""
    return replace(line, id="", name="", price_per_m=None)


def end_look(end: LineEnd) -> LineEnd:
    """The same of an end and what belongs on it."""
    if end.fitting is None:
        return end
    return replace(end, fitting=replace(end.fitting, id="", name="", price=None, uses=()))


@dataclass(frozen=True, slots=True, kw_only=True)
class Looks:
    """Looks of brakes, sorted by what each question asks of them.

    each : the looks
    ways, way_of : each different look as far as the way asks of it, and which of these every look has
    parts, parts_of : the same for the parts
    """

    each: tuple[Brake, ...]
    ways: tuple[Brake, ...]
    way_of: tuple[int, ...]
    parts: tuple[Brake, ...]
    parts_of: tuple[int, ...]


def sort_looks(brakes: Iterable[Brake]) -> Looks:
    """Brakes sorted out, in the order each different one is first met.

    brakes : as `look_of` has them
    """
    each = tuple(brakes)
    ways, way_of = each_once(map(_for_way, each))
    parts, parts_of = each_once(replace(look, supplied_length_mm=None) for look in each)
    return Looks(each=each, ways=ways, way_of=way_of, parts=parts, parts_of=parts_of)


def each_once(things: Iterable[Thing]) -> tuple[tuple[Thing, ...], tuple[int, ...]]:
    """The different things, and for each thing which of these it is."""
    places: dict[Thing, int] = {}
    of = tuple(places.setdefault(thing, len(places)) for thing in things)
    return tuple(places), of


def _for_way(look: Brake) -> Brake:
    """What the way asks: of a fluid its class, of a mount whether there is one, nothing of clamp, rotor or thread."""
    return replace(
        look,
        fluid=None if look.fluid is None else _FIRST_OF_CLASS[FLUID_FACTS[look.fluid].fluid_class],
        line=replace(look.line, pressure_shrink_ratio=None),
        supplied_length_mm=None,
        lever_end=_end_for_way(look.lever_end),
        caliper_end=_end_for_way(look.caliper_end),
        lever_clamp_mm=None,
        made_for=None,
        caliper_mount=None if look.caliper_mount is None else MountKind.POST,
        caliper_rotor_min_mm=None,
        caliper_rotor_max_mm=None,
    )


_FIRST_OF_CLASS = {FLUID_FACTS[fluid].fluid_class: fluid for fluid in reversed(Fluid)}


def _end_for_way(end: LineEnd) -> LineEnd:
    return end if end.fitting is None else replace(end, fitting=_fitting_for_way(end.fitting))


def _fitting_for_way(fitting: Fitting) -> Fitting:
    return replace(
        fitting, style=FittingStyle.CRIMPED, thread="", line_outer_diameter_mm=None, line_bore_diameter_mm=None
    )
