"""Where a shop's methods, margins, steps and parts become the planner's workshop."""

from catalog.adapters import AdapterEntry
from catalog.catalog_file import CatalogFile
from catalog.shop import GeometryErrorsEntry, ShopEntry
from catalog.slips import slip_limits
from catalog.small_parts import SmallPartEntry
from catalog.to_parts import known, to_fitting, to_line
from catalog.work_steps import AtHandEntry, CautionEntry, MeasureEntry, RescueEntry, StepEntry
from planner import parts

ROWS_IN_UNIT = 1_000_000
"""In files the work a hole may cost is told in millions of rows."""


def to_workshop(file: CatalogFile, *, shop: ShopEntry) -> parts.Workshop:
    """What the workshop has and how it works."""
    return parts.Workshop(
        limits=to_limits(shop),
        methods=tuple(entry.part() for entry in file.methods),
        small_parts={entry.id: _to_small_part(entry) for entry in file.parts},
        lines={entry.id: to_line(entry, shop=shop) for entry in file.lines},
        fittings={entry.id: to_fitting(entry) for entry in file.fittings},
        steps=tuple(_to_step(entry) for entry in file.steps),
        cautions={entry.id: _to_caution(entry) for entry in file.cautions},
        adapters=tuple(_to_adapter(entry) for entry in file.adapters),
        rescues=tuple(_to_rescue(entry) for entry in file.rescues),
        measures=tuple(_to_measure(entry) for entry in file.measures),
        at_hand=tuple(_to_at_hand(entry) for entry in file.at_hand),
    )


def to_limits(shop: ShopEntry) -> parts.ShopLimits:
    """The shop's margins; every one of them must be known by now."""
    return parts.ShopLimits(
        running_clearance_mm=known(shop.running_clearance),
        stud_squeeze_min_mm=known(shop.stud_squeeze_min),
        stud_squeeze_max_mm=known(shop.stud_squeeze_max),
        trim_allowance_mm=known(shop.trim),
        length_step_mm=known(shop.length_step),
        free_span_mm=known(shop.free_span),
        slack_variation_mm=known(shop.slack_variation),
        pull_margin_ratio=known(shop.pull_margin),
        ease_margin_ratio=known(shop.ease_margin),
        friction_ratio=known(shop.friction),
        entry_drag_n=known(shop.entry_drag),
        mass_g_per_m=known(shop.mass_per_metre),
        hand_force_loss_ratio=known(shop.hand_force_loss),
        measured_length_ratio=known(shop.measured_length_difference),
        currency=known(shop.currency),
        labour_per_hour=known(shop.labour_per_hour),
        tax_ratio=known(shop.tax),
        money_step=known(shop.money_step),
        quote_valid_days=known(shop.quote_valid_days),
        time_zone=shop.time_zone or "",
        shop_name=shop.name or "",
        shop_address=shop.address or "",
        match_clamp_mm=shop.match_clamp,
        match_bore_mm=shop.match_bore,
        match_lift_mm=shop.match_lift,
        tab_base_front_mm=shop.tab_base_front,
        tab_base_rear_mm=shop.tab_base_rear,
        sleeve_modulus_mpa=shop.sleeve_modulus,
        sleeve_friction_ratio=shop.sleeve_friction,
        coupler_cut_away_mm=shop.coupler_cut_away,
        sleeve_cut_away_mm=shop.sleeve_cut_away,
        spoke_cut_away_mm=shop.spoke_cut_away,
        touched_cut_away_mm=shop.touched_cut_away,
        undone_end_mm=shop.undone_end,
        cut_over_mm=shop.cut_over,
        hose_cut_tolerances=shop.hose_cut_tolerances or (),
        hose_cut_tolerance_over_ratio=shop.hose_cut_tolerance_over,
        sleeve_stretch_max_ratio=shop.sleeve_stretch_max,
        hole_work_rows=None if shop.hole_work is None else round(shop.hole_work * ROWS_IN_UNIT),
        plan_work_rows=None if shop.plan_work is None else round(shop.plan_work * ROWS_IN_UNIT),
        outlet_move_mm=shop.outlet_move,
        geometry_error=shop.geometry_error,
        place_errors={} if shop.geometry_errors is None else _to_place_errors(shop.geometry_errors),
        slips=slip_limits(shop.slips),
    )


def _to_place_errors(entry: GeometryErrorsEntry) -> dict[parts.GeometryError, parts.PlaceErrors]:
    told = {parts.GeometryError.CAREFUL: entry.careful, parts.GeometryError.ORDINARY: entry.ordinary}
    return {
        error: parts.PlaceErrors(port_mm=one.port, anchor_mm=one.anchor, heading_deg=one.heading)
        for error, one in told.items()
    }


def _to_adapter(entry: AdapterEntry) -> parts.Adapter:
    return parts.Adapter(
        id=entry.id,
        name=entry.name or entry.id,
        kind=entry.kind,
        frame_mount=entry.joins[0],
        caliper_mount=entry.joins[1],
        end=None if entry.end == "any" else parts.FrameEnd(entry.end),
        step_mm=entry.step,
        native_mm=entry.native,
        lift_mm=entry.lift,
        ask=entry.ask,
        price=entry.price,
        on_shelf=entry.on_shelf,
        uses=entry.uses,
    )


def _to_small_part(entry: SmallPartEntry) -> parts.SmallPart:
    return parts.SmallPart(id=entry.id, name=entry.name or entry.id, price=entry.price, on_shelf=entry.on_shelf)


def _to_step(entry: StepEntry) -> parts.WorkStep:
    least, likely, most = entry.minutes
    return parts.WorkStep(
        id=entry.id,
        text=entry.text,
        why=entry.why,
        cautions=entry.cautions,
        when=_to_facts(entry.when),
        when_any=_to_facts(entry.when_any),
        unless=_to_facts(entry.unless),
        minutes=parts.Minutes(least=least, likely=likely, most=most),
        is_redone=entry.redone,
        shows_rescue=entry.rescue,
        is_once=entry.once,
        short=entry.short or "",
        tightens=entry.tightens or "",
        part=entry.part,
    )


def _to_caution(entry: CautionEntry) -> parts.Caution:
    return parts.Caution(
        id=entry.id,
        text=entry.text,
        short=entry.short or "",
        when=_to_facts(entry.when),
        when_any=_to_facts(entry.when_any),
        unless=_to_facts(entry.unless),
        asks_torque=entry.torque,
    )


def _to_at_hand(entry: AtHandEntry) -> parts.AtHand:
    return parts.AtHand(
        id=entry.id,
        text=entry.text,
        when=_to_facts(entry.when),
        when_any=_to_facts(entry.when_any),
        unless=_to_facts(entry.unless),
    )


def _to_rescue(entry: RescueEntry) -> parts.Rescue:
    return parts.Rescue(
        id=entry.id,
        case=entry.case,
        kind=entry.kind,
        text=entry.text,
        when=_to_facts(entry.when),
        when_any=_to_facts(entry.when_any),
        unless=_to_facts(entry.unless),
    )


def _to_measure(entry: MeasureEntry) -> parts.Measure:
    return parts.Measure(id=entry.id, of=entry.of, tool=entry.tool, give_or_take=entry.give_or_take, hint=entry.hint)


def _to_facts(words: tuple[str, ...]) -> tuple[parts.Fact, ...]:
    return tuple(parts.Fact(word) for word in words)
