"""A shop's own limits: margins, allowances and money. What a shop leaves out is taken from the starter catalog."""

from collections.abc import Iterator
from decimal import Decimal
from typing import Any

from pydantic import Field

from catalog.fields import (
    Address,
    Coin,
    Currency,
    CutRow,
    Days,
    DegreesOff,
    Entry,
    EntryDrag,
    Friction,
    HoleTolerance,
    HoleWork,
    LengthTolerance,
    LineTolerance,
    Margin,
    MassPerMetre,
    Modulus,
    Money,
    Name,
    Note,
    PlanWork,
    RotorDiameter,
    Share,
    Span,
    Step,
    TaxShare,
    Times,
    TimeZone,
)
from catalog.frames import HowWellPlaced
from catalog.slips import SlipsEntry
from catalog.sources import SourceEntry
from planner.parts import ShopLimits

TAX_ASKED_ABOVE = Decimal("0.3")
"""Above any general sales tax we know of (27 %, from memory), and below a slip such as "0.8" for 8 %."""


def _told(label: str, help_text: str) -> Any:
    """May be left out; what it is for, over what its kind says of itself."""
    return Field(default=None, title=label, description=help_text)


class PlaceErrorsEntry(Entry):
    """How far the places of a frame are off, as one standard deviation."""

    port: Margin
    anchor: Margin
    heading: DegreesOff


class GeometryErrorsEntry(Entry):
    """How far places are off, by how they were found; what was told by eye gets no figure."""

    careful: PlaceErrorsEntry
    ordinary: PlaceErrorsEntry


class ShopEntry(Entry):
    """Every margin a workshop chooses; all may be left out."""

    name: Name | None = _told("shop's name", "Printed on quotes and hand-over records where no other is named.")
    address: Address | None = _told("address", "Printed below the name: street, town, telephone.")
    opening_tolerance: HoleTolerance | None = _told(
        "opening tolerance", "Plus or minus on a hole that gives none of its own."
    )
    guide_tolerance: HoleTolerance | None = _told(
        "guide tolerance", "Plus or minus on the bore of a guide that gives none."
    )
    line_tolerance: LineTolerance | None = _told(
        "line tolerance", "Plus or minus on a line's diameter that gives none."
    )
    running_clearance: Margin | None = _told(
        "running clearance", "On the diameter, in the worst case, for a line that is to slide."
    )
    stud_squeeze_min: Margin | None = _told(
        "least squeeze", "A stud is at least this much thicker than the bore, to bite."
    )
    stud_squeeze_max: Margin | None = _told(
        "most squeeze", "A stud is at most this much thicker than the bore, not to split it."
    )
    sleeve_stretch_max: Times | None = _told(
        "most stretch", "A line is at most this many times as thick as the sleeve's bore, or nobody gets it on."
    )
    trim: Margin | None = _told("trim", "Added to a cut length for cutting square at the end.")
    length_step: Step | None = None
    pressure_growth: Share | None = _told("growth", "Steers nothing: no cut hangs on a hose that grows.")
    pressure_shrink: Share | None = _told(
        "shrinkage", "Steers nothing: a line that shortens under pressure says so itself, in its own `pressure_shrink`."
    )
    free_span: Span | None = None
    slack_variation: Margin | None = _told("slack", "Movement of a leg's slack that is worth a caution.")
    pull_margin: Times | None = _told("pull margin", "A joint that holds this many times the drag may be pulled.")
    ease_margin: Times | None = _told("ease margin", "A joint that holds this many times the drag may be eased.")
    friction: Friction | None = _told("friction", "Of a line on the frame, where its own is not known.")
    entry_drag: EntryDrag | None = _told("entry drag", "For a hole whose own was not measured.")
    mass_per_metre: MassPerMetre | None = _told("mass per metre", "For a line whose own is not known.")
    hand_force_loss: Share | None = _told(
        "hand force", "Part of the hand's force lost in a housing that is worth a caution."
    )
    measured_length_difference: Share | None = _told(
        "measured length", "Part by which a measured old line may differ unquestioned."
    )
    currency: Currency | None = None
    labour_per_hour: Money | None = _told("labour", 'An hour of work, decimal text in quotes such as "60.00".')
    tax: TaxShare | None = None
    money_step: Coin | None = None
    quote_valid_days: Days | None = _told("quote stands", "How long a quote stands, from the day it is handed over.")
    time_zone: TimeZone | None = None
    match_clamp: Margin | None = _told("clamp match", "How far a lever's clamp and the bar may differ.")
    match_bore: Margin | None = _told("bore match", "How far a hose's bore and its insert's may differ.")
    match_lift: Margin | None = _told("lift match", "How far an adapter's lift may be off.")
    tab_base_front: RotorDiameter | None = _told("front tabs", "Rotor that the lowest bracket on a fork's tabs gives.")
    tab_base_rear: RotorDiameter | None = _told("rear tabs", "Rotor that the lowest bracket on a frame's tabs gives.")
    sleeve_modulus: Modulus | None = None
    hole_work: HoleWork | None = _told(
        "work on a hole",
        "How much each search for room in a hole may look at; counted, not timed, so that the same hole gets the same "
        "answer. Where it runs out the answer is unknown. A million is some tenth of a second.",
    )
    plan_work: PlanWork | None = _told(
        "work on a plan",
        "How much all questions about the holes of one plan may look at together; counted, not timed. Where it runs "
        "out the rest is unknown, and that is said.",
    )
    sleeve_friction: Friction | None = _told("sleeve friction", "Of a sleeve tube on a line.")
    coupler_cut_away: Margin | None = _told(
        "cut away behind a stud", "How much more of the new line than the stud sat in is cut away afterwards."
    )
    sleeve_cut_away: Margin | None = _told(
        "cut away behind a sleeve", "How much more of the new line than the sleeve covered is cut away afterwards."
    )
    spoke_cut_away: Margin | None = _told(
        "cut away behind a spoke", "How much more of the new line than the spoke lay in is cut away afterwards."
    )
    touched_cut_away: Margin | None = _told(
        "cut away behind another fluid", "The same where the old line held another class of fluid."
    )
    undone_end: Margin | None = _told(
        "lost at an undone end", "How much of a line is lost where a fitting is taken off it and set again."
    )
    cut_over: Margin | None = _told("longer cut", "How much longer than told a cut may come out; it is never shorter.")
    hose_cut_tolerances: tuple[CutRow, ...] | None = _told(
        "ordered hoses", "Rows of [up to, plus or minus] on a hose ordered to length, shortest first."
    )
    hose_cut_tolerance_over: Share | None = _told(
        "longer ordered hoses", "Plus or minus beyond the last row, as a part of the length."
    )
    length_tolerance_outside: LengthTolerance | None = _told(
        "length tolerance outside", "Plus or minus on the length of a run outside that gives none."
    )
    length_tolerance_inside: LengthTolerance | None = _told(
        "length tolerance inside", "Plus or minus on the length of a run inside the frame that gives none."
    )
    outlet_move: Margin | None = _told(
        "outlet move", "How far a new lever's or caliper's outlet may lie from the old one's, where nobody measured it."
    )
    geometry_error: HowWellPlaced | None = _told(
        "geometry error", "How the places of a frame that does not say were found; left out, nothing is added for it."
    )
    geometry_errors: GeometryErrorsEntry | None = _told(
        "geometry errors", "How far places are off, one standard deviation, for careful and for ordinary."
    )
    slips: SlipsEntry | None = _told("slips", "From where on a frame as told is asked about.")
    note: Note = ""
    source: SourceEntry | None = None


def questions_of_shop(limits: ShopLimits) -> tuple[str, ...]:
    """What a shop's figures may be a slip in: allowed, but to be looked at once more."""
    return tuple(f"shop > tax: {tax}; {asked}." for tax, asked in questions_of_tax(limits.tax_ratio))


def questions_of_tax(tax_ratio: Decimal) -> Iterator[tuple[str, str]]:
    """What it comes to and the question, where a tax is higher than any we know of; nothing where it is not."""
    if tax_ratio > TAX_ASKED_ABOVE:
        percent, example = (f"{(ratio * 100).normalize():f}" for ratio in (tax_ratio, TAX_ASKED_ABOVE))
        yield f"{tax_ratio} is {percent} % of the price", f"is that meant? It is asked above {example} %"


def over(own: ShopEntry | None, starter: ShopEntry) -> ShopEntry:
    """The shop's own limits, and those of the starter catalog where it says nothing."""
    said = {} if own is None else own.model_dump(exclude_none=True)
    usual = starter.model_dump(exclude_none=True)
    slips = {**usual.get("slips", {}), **said.get("slips", {})}
    return ShopEntry.model_validate({**usual, **said, "slips": slips or None})
