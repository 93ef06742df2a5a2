"""The lines of a quote: what a way of doing the job takes, each thing with its price."""

from collections import Counter
from collections.abc import Iterator, Sequence
from decimal import Decimal

from planner.fit.compatibility import CompatibilityResult
from planner.parts import Fitting, FittingStyle, Job, LineEnd, Method, ShopLimits, Workshop
from planner.plan.job_time import JobTime, find_job_time, whole_minutes
from planner.plan.line_ends import must_be_set
from planner.plan.money import round_money
from planner.plan.routing_plan import PartNeeded
from planner.quick_dataclass import dataclass

MINUTES_PER_HOUR = Decimal(60)
MILLIMETRES_PER_METRE = Decimal(1000)


@dataclass(frozen=True, slots=True, kw_only=True)
class QuoteLine:
    """One line of a quote: quantity times unit price, by what the price is for, is the total before rounding.

    kind : "brake", "line", "fitting", "part", "adapter" or "labour"
    id, name : as in the catalog
    quantity : pieces, metres or minutes
    unit : "piece", "m" or "min"
    unit_price : None where nothing is priced
    total : rounded to the shop's coin; None where nothing is priced
    price_per : how many units the unit price is for: 60 for the minutes of a rate by the hour
    """

    kind: str
    id: str
    name: str
    quantity: Decimal
    unit: str
    unit_price: Decimal | None
    total: Decimal | None
    price_per: Decimal = Decimal(1)


@dataclass(frozen=True, slots=True, kw_only=True)
class WayToCharge:
    """What a way of doing the job takes, as far as its price goes.

    method : how the lines are joined
    step_ids : its steps, as the workshop names them
    cut_mm : length the new line is cut to; None where that is not known [mm]
    parts : small parts, and the adapter with what it brings
    """

    method: Method
    step_ids: tuple[str, ...]
    cut_mm: float | None
    parts: tuple[PartNeeded, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class Bill:
    """What a way of doing the job costs.

    lines : parts, then labour
    subtotal : sum of the priced lines
    tax, total : on the subtotal; both together
    time : what the labour rests on
    """

    lines: tuple[QuoteLine, ...]
    subtotal: Decimal
    tax: Decimal
    total: Decimal
    time: JobTime

    @property
    def unpriced(self) -> tuple[QuoteLine, ...]:
        """What stands in it without a price and so is missing from the total."""
        return tuple(line for line in self.lines if line.total is None)


def make_bill(
    *,
    job: Job,
    way: WayToCharge,
    workshop: Workshop,
    compatibility: CompatibilityResult | None,
    charges_new_line: bool,
) -> Bill:
    """What one way of doing a job costs, line by line.

    Raises ImpossibleDimensionError when a price is no amount of money.
    """
    limits = workshop.limits
    time = find_job_time(step_ids=way.step_ids, method=way.method, workshop=workshop)
    lines = (
        *(_new_things(job, way.cut_mm, limits) if charges_new_line else ()),
        *(
            _part(need.id, need.name, quantity, workshop)
            for need, quantity in _parts_beside_adapter(way.parts, compatibility)
        ),
        *_adapter(compatibility, workshop),
        charge_labour(time, limits),
    )
    subtotal = sum((line.total for line in lines if line.total is not None), Decimal(0))
    tax = round_money(subtotal * limits.tax_ratio, step=limits.money_step)
    return Bill(lines=lines, subtotal=subtotal, tax=tax, total=subtotal + tax, time=time)


def labour_total(*, minutes: Decimal, rate: Decimal, step: Decimal) -> Decimal:
    """What some minutes of work cost at a rate by the hour, rounded once."""
    return round_money(rate * minutes / MINUTES_PER_HOUR, step=step)


def _line(
    kind: str, id: str, name: str, quantity: Decimal, unit: str, price: Decimal | None, limits: ShopLimits
) -> QuoteLine:
    total = None if price is None else round_money(price * quantity, step=limits.money_step)
    return QuoteLine(kind=kind, id=id, name=name, quantity=quantity, unit=unit, unit_price=price, total=total)


def _new_things(job: Job, cut_mm: float | None, limits: ShopLimits) -> Iterator[QuoteLine]:
    brake, line = job.new.brake, job.new.line
    if brake is not None:
        yield _line("brake", brake.id, brake.name, Decimal(1), "piece", brake.price, limits)
        return
    if cut_mm is None:
        yield _line("line", line.id, line.name, Decimal(1), "piece of a length not known", None, limits)
    else:
        metres = Decimal(str(round(cut_mm, 1))) / MILLIMETRES_PER_METRE
        yield _line("line", line.id, line.name, metres, "m", line.price_per_m, limits)
    for fitting, quantity in _fittings_to_set((job.new.from_end, job.new.to_end)).items():
        yield _line("fitting", fitting.id, fitting.name, Decimal(quantity), "piece", fitting.price, limits)


def _fittings_to_set(ends: Sequence[LineEnd]) -> Counter[Fitting]:
    return Counter(
        end.fitting
        for end in ends
        if end.fitting is not None and must_be_set(end) and not _is_its_small_part(end.fitting)
    )


def _is_its_small_part(fitting: Fitting) -> bool:
    """A ferrule without a price of its own is the small part that its setting takes, and charged as that."""
    return fitting.style is FittingStyle.PLUG and fitting.price is None and bool(fitting.uses)


def _part(part_id: str, name: str, quantity: int, workshop: Workshop) -> QuoteLine:
    known = workshop.small_parts.get(part_id)
    price = None if known is None else known.price
    return _line("part", part_id, name, Decimal(quantity), "piece", price, workshop.limits)


def _parts_beside_adapter(
    parts: Sequence[PartNeeded], compatibility: CompatibilityResult | None
) -> Iterator[tuple[PartNeeded, int]]:
    """The plan lists the adapter and its bolts among the parts; they are quoted in a place of their own."""
    brought = Counter(() if compatibility is None else compatibility.part_ids)
    counted = ((need, need.quantity - brought[need.id]) for need in parts)
    return ((need, quantity) for need, quantity in counted if quantity > 0)


def _adapter(compatibility: CompatibilityResult | None, workshop: Workshop) -> Iterator[QuoteLine]:
    if compatibility is None or compatibility.adapter is None:
        return
    adapter = compatibility.adapter
    yield _line("adapter", adapter.id, adapter.name, Decimal(1), "piece", adapter.price, workshop.limits)
    for part_id in adapter.uses:
        known = workshop.small_parts.get(part_id)
        yield _part(part_id, part_id if known is None else known.name, 1, workshop)


def charge_labour(time: JobTime, limits: ShopLimits) -> QuoteLine:
    """In minutes at a price for sixty of them, so that whoever multiplies gets the total: 100 min are no 1.667 h."""
    minutes = whole_minutes(time.mean_min)
    return QuoteLine(
        kind="labour",
        id="labour",
        name="Labour",
        quantity=minutes,
        unit="min",
        unit_price=limits.labour_per_hour,
        total=labour_total(minutes=minutes, rate=limits.labour_per_hour, step=limits.money_step),
        price_per=MINUTES_PER_HOUR,
    )
