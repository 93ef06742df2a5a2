"""A frame by its geometry table, and its cockpit by a tape measure."""

from collections.abc import Iterator
from typing import Annotated

from pydantic import Field

from catalog.fields import Entry
from catalog.geometry_fields import (
    Ahead,
    BarReach,
    BarWidth,
    Below,
    BottomBracketDrop,
    BottomBracketHeight,
    Chainstay,
    Fork,
    ForkOffset,
    FrontCentre,
    HeadAngle,
    HeadTube,
    Inboard,
    Reach,
    Rise,
    SeatAngle,
    SeatTube,
    Spacers,
    Spacing,
    Stack,
    Stem,
    StemAngle,
    Sweep,
    Upsweep,
    Wheelbase,
    WheelRadius,
)
from catalog.layouts import BarDefaults, Layout, LayoutDefaults, bar_defaults, layout_defaults
from catalog.mechanic_errors import Complaint
from planner import parts

LEAST_DROP_MM, MOST_DROP_MM = -20.0, 90.0


class GeometryEntry(Entry):
    """What a geometry table prints of a frame."""

    layout: Annotated[Layout, Field(title="layout", description="What sort of frame it is.")]
    reach: Reach
    stack: Stack
    head_angle: HeadAngle
    head_tube: HeadTube
    chainstay: Chainstay
    seat_angle: SeatAngle | None = None
    seat_tube: SeatTube | None = None
    bb_drop: BottomBracketDrop | None = None
    bb_height: BottomBracketHeight | None = None
    wheel_radius: WheelRadius | None = None
    spacing: Spacing | None = None
    fork: Fork | None = None
    offset: ForkOffset | None = None
    wheelbase: Wheelbase | None = None
    front_centre: FrontCentre | None = None

    @property
    def defaults(self) -> LayoutDefaults:
        """What is usual on such a frame."""
        return layout_defaults(self.layout)

    @property
    def drop_mm(self) -> float:
        """Bottom bracket below the axles: told, or from its height, or usual on such a frame."""
        if self.bb_drop is not None:
            return self.bb_drop
        if self.bb_height is not None and self.wheel_radius is not None:
            return self.wheel_radius - self.bb_height
        return self.defaults.bb_drop

    def part(self) -> parts.FrameTable:
        """The planner's table, with what is usual on such a frame where nothing was told."""
        usual = self.defaults
        return parts.FrameTable(
            reach_mm=self.reach,
            stack_mm=self.stack,
            head_angle_deg=self.head_angle,
            head_tube_mm=self.head_tube,
            chainstay_mm=self.chainstay,
            bb_drop_mm=self.drop_mm,
            spacing_mm=usual.spacing if self.spacing is None else self.spacing,
            down_tube_short_mm=usual.down_tube_short,
            seat_angle_deg=self.seat_angle,
            seat_tube_mm=self.seat_tube,
            has_swingarm=usual.swingarm,
            steps_low=usual.steps_low,
            fork_mm=self.fork,
            offset_mm=self.offset,
            wheelbase_mm=self.wheelbase,
            front_centre_mm=self.front_centre,
        )

    def complaints(self) -> Iterator[Complaint]:
        """What the table says against itself."""
        for one, other in (("seat_angle", "seat_tube"), ("fork", "offset"), ("bb_height", "wheel_radius")):
            told = [name for name in (one, other) if getattr(self, name) is not None]
            if len(told) == 1:
                missing = other if told == [one] else one
                yield (missing,), "nothing was given", f"{one} and {other} together, or neither"
        if self.bb_drop is not None and self.bb_height is not None:
            yield ("bb_height",), f"{self.bb_height:g} mm was given beside bb_drop", "one of the two"
        elif not LEAST_DROP_MM <= self.drop_mm <= MOST_DROP_MM:
            given = f"{self.bb_height:g} mm was given, a drop of {self.drop_mm:g} mm with this wheel"
            yield ("bb_height",), given, f"a drop of {LEAST_DROP_MM:g} to {MOST_DROP_MM:g} mm is allowed"


class LeverPlaceEntry(Entry):
    """Where the line leaves a lever, where it was measured."""

    ahead: Ahead | None = None
    inboard: Inboard | None = None
    below: Below | None = None


class CockpitEntry(Entry):
    """Bar and stem."""

    bar: Annotated[parts.BarKind | None, Field(title="bar", description="flat, city or drop. [by the layout]")] = None
    width: BarWidth
    stem: Stem
    rise: Rise | None = None
    sweep: Sweep | None = None
    upsweep: Upsweep | None = None
    stem_angle: StemAngle = 0.0
    spacers: Spacers | None = None
    bar_reach: BarReach | None = None
    lever: LeverPlaceEntry = LeverPlaceEntry()

    def usual(self, layout: Layout) -> BarDefaults:
        """What is usual of such a bar."""
        return bar_defaults(self.bar or layout_defaults(layout).bar)

    def part(self, layout: Layout) -> parts.Cockpit:
        """The planner's cockpit, with what is usual of such a bar where nothing was told."""
        usual = self.usual(layout)
        return parts.Cockpit(
            bar=self.bar or layout_defaults(layout).bar,
            width_mm=self.width,
            rise_mm=usual.rise if self.rise is None else self.rise,
            sweep_deg=usual.sweep if self.sweep is None else self.sweep,
            upsweep_deg=usual.upsweep if self.upsweep is None else self.upsweep,
            stem_mm=self.stem,
            stem_angle_deg=self.stem_angle,
            spacers_mm=usual.spacers if self.spacers is None else self.spacers,
            bar_reach_mm=usual.bar_reach if self.bar_reach is None else self.bar_reach,
        )

    def outlet(self, layout: Layout, *, is_lever: bool) -> parts.Outlet:
        """Where the line leaves: a lever as measured, else as usual of such a bar."""
        usual = self.usual(layout)
        lies, own = (usual.lever, self.lever) if is_lever else (usual.shifter, LeverPlaceEntry())
        return parts.Outlet(
            inboard_mm=lies.inboard if own.inboard is None else own.inboard,
            ahead_mm=lies.ahead if own.ahead is None else own.ahead,
            below_mm=lies.below if own.below is None else own.below,
            heading=lies.heading,
        )
