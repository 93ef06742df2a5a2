"""The clearance of a set of round things as straight lines in every size, and what it truly is at other sizes.

Every size is taken as independent and normal about its nominal value, with its tolerance as two standard deviations.
"""

from collections.abc import Sequence
from dataclasses import dataclass
from itertools import chain

import numpy as np
from numpy.typing import NDArray

from planner.geometry.openings.opening_shape import opening_sizes, vary_opening
from planner.geometry.packing.set_clearance import SetClearance, Variant, find_set_clearance, find_varied_clearances
from planner.geometry.packing.slopes import find_clearance_slopes
from planner.geometry.packing.work import MOST_WORK
from planner.parts import Opening, OutlineOpening
from planner.verdicts import Thing

Array = NDArray[np.float64]

DEVIATIONS_IN_TOLERANCE = 2.0
"""A tolerance is taken as this many standard deviations."""

CERTAIN_DEVIATIONS = 6.0
"""A clearance further from nothing than this is taken as certain."""

_PROBED_DEVIATIONS = 2.0
_SAME_MM = 1e-4
_FLAT_SLOPE = 1e-6
_LEAST_MM = 1e-6
_EDGE_STEP_DEVIATIONS = 0.5
_MOST_PROBED_ALONE = 2
"""With more things than this, only the opening's sizes are looked at each on its own."""


@dataclass(frozen=True, slots=True, kw_only=True)
class ClearanceModel:
    """The clearance as straight lines in every size: the lowest of them holds.

    names : "opening length" and the like, then the ids of the items
    deviations_mm : standard deviation of each [mm]
    at_nominal_mm : the clearance each line gives at nominal sizes, the true one first [mm]
    slopes : lines by sizes [mm/mm]
    work_rows : what finding it cost
    """

    names: tuple[str, ...]
    deviations_mm: Array
    at_nominal_mm: Array
    slopes: Array
    work_rows: int = 0


@dataclass(frozen=True, slots=True, kw_only=True)
class SharedHole:
    """A hole and the things that share it, every size free to be off.

    opening : the hole in the wall, at nominal sizes
    tilt_deg : angle between the line and the hole's axis, leaning along the opening's length [deg]
    wall_thickness_mm : of the wall [mm]
    items : what shares the opening
    most_work : rows that each search for room may look at
    """

    opening: Opening
    tilt_deg: float
    wall_thickness_mm: float
    items: tuple[Thing, ...]
    most_work: int = MOST_WORK

    @property
    def names(self) -> tuple[str, ...]:
        """Every size that may be off: "opening length" and the like, then the ids of the items."""
        sizes = (f"opening {name.replace('_', ' ')}" for name in opening_sizes(self.opening))
        return (*sizes, *(item.id for item in self.items))

    @property
    def deviations_mm(self) -> Array:
        """Standard deviation of each size."""
        openings = [self.opening.tolerance_mm] * len(opening_sizes(self.opening))
        return np.array([*openings, *(item.tolerance_mm for item in self.items)]) / DEVIATIONS_IN_TOLERANCE

    @property
    def helps(self) -> Array:
        """1 for each size that gives room when it grows, -1 for each that takes it."""
        openings = [-1.0 if name == "corner_radius" else 1.0 for name in opening_sizes(self.opening)]
        return np.array(openings + [-1.0] * len(self.items))

    def clearance_at(self, offset_mm: Array) -> SetClearance:
        """The clearance with every size off by so much, the placements near the nominal ones followed.

        offset_mm : one for each size, in the order of the names
        """
        reach_mm = 2 * float(self.deviations_mm.max(initial=0.0)) * DEVIATIONS_IN_TOLERANCE
        nominal = self._variant(np.zeros(len(offset_mm)))
        if not offset_mm.any():
            return find_set_clearance(
                opening=nominal.opening,
                tilt_deg=self.tilt_deg,
                wall_thickness_mm=self.wall_thickness_mm,
                diameters_mm=nominal.diameters_mm,
                most_work=self.most_work,
                proves_no=False,
            )
        (found,) = find_varied_clearances(
            nominal=nominal,
            tilt_deg=self.tilt_deg,
            wall_thickness_mm=self.wall_thickness_mm,
            variants=(self._variant(offset_mm),),
            within_mm=reach_mm,
            is_bounded=False,
            most_work=self.most_work,
        )
        return found

    def line_through(self, offset_mm: Array) -> tuple[float, Array]:
        """The straight line that touches the clearance at some sizes.

        Returns what it gives at nominal sizes [mm], and its slopes [mm/mm].

        offset_mm : how far off each size is
        """
        found = self.clearance_at(offset_mm)
        slopes = find_clearance_slopes(
            opening=self._variant(offset_mm).opening,
            tilt_deg=self.tilt_deg,
            wall_thickness_mm=self.wall_thickness_mm,
            clearance=found,
        )
        slope = np.array(list(chain(slopes.by_size.values(), slopes.by_thing)))
        if isinstance(self.opening, OutlineOpening) and self.opening.tolerance_mm > 0:
            slope[0] = self._rise_by_edge(offset_mm, found.clearance_mm)
        slope[slope * self.helps < _FLAT_SLOPE] = 0.0  # rounding is no direction
        return found.clearance_mm - float(slope @ offset_mm), slope

    def _rise_by_edge(self, offset_mm: Array, clearance_mm: float) -> float:
        """How much a traced hole loses where its edge lies further in: the tip of a dent goes faster than the edge."""
        step = np.zeros(len(offset_mm))
        step[0] = _EDGE_STEP_DEVIATIONS * float(self.deviations_mm[0])
        less_mm = self.clearance_at(offset_mm - step).clearance_mm
        return (clearance_mm - less_mm) / float(step[0])

    def _variant(self, offset_mm: Array) -> Variant:
        names = tuple(opening_sizes(self.opening))
        changes = dict(zip(names, offset_mm[: len(names)].tolist(), strict=True))
        offs = offset_mm[len(names) :].tolist()
        sizes = tuple(max(item.diameter_mm + off, _LEAST_MM) for item, off in zip(self.items, offs, strict=True))
        return Variant(opening=vary_opening(opening=self.opening, changes_mm=changes), diameters_mm=sizes)


def find_clearance_model(
    *,
    opening: Opening,
    tilt_deg: float,
    wall_thickness_mm: float,
    items: Sequence[Thing],
    most_work: int | None = None,
) -> ClearanceModel:
    """The clearance of a set as straight lines in every size, true at nominal sizes and at each size's poorer side.

    Returns its first line is that at nominal sizes.

    opening : the hole in the wall
    tilt_deg : angle between the line and the hole's axis, leaning along the opening's length
    items : what shares the opening
    most_work : rows that each search for room may look at; None for the usual

    Raises ImpossibleDimensionError when a size is not one that a workshop could measure.
    """
    return model_of_hole(
        SharedHole(
            opening=opening,
            tilt_deg=tilt_deg,
            wall_thickness_mm=wall_thickness_mm,
            items=tuple(items),
            most_work=most_work or MOST_WORK,
        )
    )


def model_of_hole(hole: SharedHole) -> ClearanceModel:
    """The same of a hole that is at hand.

    Raises ImpossibleDimensionError when a size is not one that a workshop could measure.
    """
    deviations = hole.deviations_mm
    lines = [hole.line_through(np.zeros(len(deviations)))]
    probes = _probes(hole, lines[0])
    if len(hole.items) > _MOST_PROBED_ALONE:
        probes = probes[: 1 + len(opening_sizes(hole.opening))]
    cost_rows = 2 * hole.clearance_at(np.zeros(len(deviations))).work_rows  # and for the placements followed from it
    for offset in probes:
        probed = hole.clearance_at(offset)
        cost_rows += probed.work_rows
        if probed.clearance_mm < min(base + float(slope @ offset) for base, slope in lines) - _SAME_MM:
            lines.append(hole.line_through(offset))
    return ClearanceModel(
        names=hole.names,
        deviations_mm=deviations,
        at_nominal_mm=np.array([base for base, _ in lines]),
        slopes=np.array([slope for _, slope in lines]),
        work_rows=cost_rows,
    )


def _probes(hole: SharedHole, line: tuple[float, Array]) -> list[Array]:
    """Where the clearance is looked at again: the likeliest sizes that bring it to zero, and each size poorer alone."""
    base, slope = line
    deviations = hole.deviations_mm
    pull = slope * deviations
    spread = float(np.sqrt(pull @ pull))
    if abs(base) > 2 * CERTAIN_DEVIATIONS * float(deviations.max(initial=0.0)):
        return []
    poorer = -_PROBED_DEVIATIONS * hole.helps * deviations
    alone = [np.where(np.arange(len(poorer)) == place, poorer, 0.0) for place in np.flatnonzero(poorer).tolist()]
    if spread == 0:
        return alone
    reach = min(_PROBED_DEVIATIONS, abs(base) / spread)
    return [-np.copysign(reach / spread, base) * pull * deviations, *alone]
