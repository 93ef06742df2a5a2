"""Every place of every frame met so far, by its values: what it answered is not asked again."""

from collections.abc import Callable, Sequence
from math import inf

from planner.fit.guide_fit import check_rigid_in_guide
from planner.fit.hole_fit import check_things_in_room
from planner.fit.wall_fit import check_rigid_through_wall
from planner.geometry.openings.opening_shape import opening_at_limit, see_opening
from planner.geometry.packing.one import find_largest_disc
from planner.geometry.packing.work import Allowance
from planner.geometry.rigid.wall_opening import longest_way_across_mm
from planner.parts import Guide, Opening, OutlineOpening, Port, ShopLimits, is_gauged
from planner.routing.passage import allowance_of
from planner.rules import PlaceRule
from planner.table.kept import Kept
from planner.table.pieces import Array, PieceBook, PlaceAnswers, outcomes_of
from planner.verdicts import Check, Room, State, Thing

MOST_PLACES = 20_000
"""Holes, walls and guides that are kept; each has an answer for every piece."""

NOT_COUNTED = 0
"""What questions about stiff lengths cost of a plan's work."""


class PlaceBook:
    """Holes, walls and guides by their values."""

    def __init__(self, limits: ShopLimits, pieces: PieceBook) -> None:
        self._limits, self._pieces = limits, pieces
        self._known: Kept[PlaceAnswers] = Kept(MOST_PLACES)
        self._gaps_mm: Kept[float] = Kept(MOST_PLACES)

    def hole(self, room: Room, beside: Sequence[Thing]) -> PlaceAnswers:
        """A hole, guide or cavity, with what lies in it."""
        sizes = tuple((thing.diameter_mm, thing.tolerance_mm) for thing in beside)
        return self._known.once((room, sizes), lambda: self._new_hole(room, tuple(beside)))

    def _new_hole(self, room: Room, beside: tuple[Thing, ...]) -> PlaceAnswers:
        limits = self._limits

        def ask(thing: Thing) -> tuple[Check, int]:
            work = Allowance(each_rows=allowance_of(limits).each_rows)
            check = check_things_in_room(
                rule=PlaceRule.PORT_CLEARANCE,
                room=room,
                things=(thing, *beside),
                running_clearance_mm=limits.running_clearance_mm,
                allowance=work,
            )
            return check, work.spent_rows

        return PlaceAnswers(self._pieces, ask, None if beside else self._closed_form(room))

    def _closed_form(self, room: Room) -> Callable[[Array], tuple[Array, Array]] | None:
        """One thing alone in a plain shape lies in its middle: the largest disc less its diameter."""
        opening = room.opening
        if opening is None or isinstance(opening, OutlineOpening) or room.is_spread or is_gauged(opening):
            return None
        disc_mm = _disc_mm(opening, room)
        worst_disc_mm = _disc_mm(opening_at_limit(opening=opening, is_larger=False), room)

        def closed(sizes: Array) -> tuple[Array, Array]:
            nominal_mm, worst_mm = disc_mm - sizes[:, 0], worst_disc_mm - (sizes[:, 0] + sizes[:, 1])
            running_mm = self._limits.running_clearance_mm
            outcomes = outcomes_of(nominal_mm=nominal_mm, worst_mm=worst_mm, running_clearance_mm=running_mm)
            return outcomes, -nominal_mm

        return closed

    def wall(self, port: Port, corridor_mm: float | None, corridor_tolerance_mm: float) -> PlaceAnswers:
        """A wall that stiff pieces dive through, into or out of an open cavity."""
        is_placed = port.position_mm is not None and port.heading is not None
        told = port.looks is not None or is_placed
        off = (port.wall_tolerance_mm, corridor_mm, corridor_tolerance_mm)

        def ask(thing: Thing) -> tuple[Check, int]:
            check = check_rigid_through_wall(
                port=port,
                run_id="",
                corridor_mm=corridor_mm,
                corridor_tolerance_mm=corridor_tolerance_mm,
                item=thing,
                is_entry=True,
                is_insert_out=True,
            )
            return check, NOT_COUNTED

        key = (port.opening, port.wall_thickness_mm, told, off)
        return self._known.once(key, lambda: PlaceAnswers(self._pieces, ask, None))

    def bend(self, guide: Guide) -> PlaceAnswers:
        """The bend of a guide that stiff pieces get round."""

        def ask(thing: Thing) -> tuple[Check, int]:
            return check_rigid_in_guide(guide=guide, run_id="", state=State.DRAWING, item=thing), NOT_COUNTED

        return self._known.once(guide, lambda: PlaceAnswers(self._pieces, ask, None))

    def gap_mm(self, opening: Opening | None) -> float:
        """The widest that a stiff piece may be to be asked about its length; any where the hole was not measured."""
        if opening is None:
            return inf
        return self._gaps_mm.once(opening, lambda: longest_way_across_mm(opening=opening))


def _disc_mm(opening: Opening, room: Room) -> float:
    seen = see_opening(opening=opening, tilt_deg=room.tilt_deg, wall_thickness_mm=room.wall_thickness_mm)
    return find_largest_disc(seen).diameter_mm
