"""A shop's own limits: margins, allowances and money. What a shop leaves out is taken from the starter catalog."""

from catalog.fields import (
    Currency,
    Days,
    Entry,
    EntryDrag,
    Friction,
    HoleTolerance,
    LineTolerance,
    Margin,
    MassPerMetre,
    Money,
    Note,
    Share,
    Span,
    Step,
    Times,
)
from catalog.sources import SourceEntry


class ShopEntry(Entry):
    """Every margin a workshop chooses; all may be left out."""

    opening_tolerance: HoleTolerance | None = None
    guide_tolerance: HoleTolerance | None = None
    line_tolerance: LineTolerance | None = None
    running_clearance: Margin | None = None
    stud_squeeze_min: Margin | None = None
    stud_squeeze_max: Margin | None = None
    trim: Margin | None = None
    length_step: Step | None = None
    pressure_growth: Share | None = None
    pressure_shrink: Share | None = None
    free_span: Span | None = None
    slack_variation: Margin | None = None
    pull_margin: Times | None = None
    ease_margin: Times | None = None
    friction: Friction | None = None
    entry_drag: EntryDrag | None = None
    mass_per_metre: MassPerMetre | None = None
    hand_force_loss: Share | None = None
    measured_length_difference: Share | None = None
    currency: Currency | None = None
    labour_per_hour: Money | None = None
    tax: Money | None = None
    money_step: Money | None = None
    quote_valid_days: Days | None = None
    note: Note = ""
    source: SourceEntry | None = None
