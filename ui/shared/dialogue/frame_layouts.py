"""The sorts of frame a dialogue knows, and what hangs on them."""

from dataclasses import dataclass

from catalog import Layout, bar_defaults, layout_defaults, usual_frame
from planner.parts import BarKind, FrameFeature


@dataclass(frozen=True, slots=True, kw_only=True)
class FrameLayout:
    """One sort of frame.

    can_tell_rear : whether travel and a pivot tell how its rear end moves
    """

    id: Layout
    name: str
    can_tell_rear: bool = False
    features: tuple[FrameFeature, ...] = ()

    @property
    def bar(self) -> BarKind:
        """The bar it usually has."""
        return layout_defaults(self.id).bar

    @property
    def bar_clamp_mm(self) -> float:
        """Usual diameter of its bar where the lever clamps."""
        usual = usual_frame()
        return usual.drop_bar_clamp if self.bar is BarKind.DROP else usual.bar_clamp

    @property
    def lock_deg(self) -> float:
        """Usual turn of its bar to each side."""
        return bar_defaults(self.bar).lock

    def usual(self, name: str) -> float | None:
        """A figure of its table or cockpit that is usual; None for those that every frame has its own of."""
        return {"bb_drop": layout_defaults(self.id).bb_drop, "spacers": bar_defaults(self.bar).spacers}.get(name)


LAYOUTS = {
    str(layout.id): layout
    for layout in (
        FrameLayout(id=Layout.HARDTAIL, name="hardtail"),
        FrameLayout(
            id=Layout.SINGLE_PIVOT, name="single pivot", can_tell_rear=True, features=(FrameFeature.SUSPENSION,)
        ),
        FrameLayout(id=Layout.FOUR_BAR, name="four-bar", features=(FrameFeature.SUSPENSION,)),
        FrameLayout(id=Layout.DROP_BAR, name="drop bar"),
        FrameLayout(id=Layout.STEP_THROUGH, name="step-through"),
        FrameLayout(id=Layout.EBIKE, name="e-bike", can_tell_rear=True, features=(FrameFeature.EBIKE,)),
    )
}
LAYOUT_CHOICES = tuple((id_, layout.name) for id_, layout in LAYOUTS.items())
