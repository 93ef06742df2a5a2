"""Quotes: every coin accounted for, nothing counted as nought, the other ways beside."""

from dataclasses import fields, is_dataclass, replace
from decimal import Decimal
from typing import Any

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from planner.documents.words.quote_sentences import quote_line_words, time_sentences
from planner.documents.words.quote_wording import (
    ASSUMPTION_SENTENCES,
    ROUNDING_SENTENCES,
    TIME_SENTENCES,
    alternative_words,
)
from planner.errors import ImpossibleDimensionError
from planner.fit.compatibility import check_compatibility
from planner.parts import Job, JobEnd, LineEnd, LineKind, Minutes, Workshop
from planner.plan.money import round_money
from planner.plan.quote import Alternative, Quote, make_quote
from planner.plan.routing_plan import PartNeeded, Remark, RoutingPlan
from planner.plan.work_order import find_part_ids
from planner.verdicts import Outcome
from tests.planner.fit.compatibility_samples import (
    ADAPTERS,
    UNTOLD,
    make_brake,
    make_fitting,
    make_job,
    make_line,
    make_new,
    make_old,
)
from tests.planner.plan.quote_samples import PARTS, make_option, make_plan, make_workshop, with_no_length

JOB = make_job(old=make_old(), new=make_new(brake=replace(make_brake(), price=Decimal("189.00"))))
steps_of_money = st.sampled_from([Decimal("0.01"), Decimal("0.05"), Decimal("0.10"), Decimal(1)])
money = st.decimals(0, 1000, places=2, allow_nan=False, allow_infinity=False)


def _quote(
    *, job: Job = JOB, plan: RoutingPlan | None = None, workshop: Workshop | None = None, **changes: Any
) -> Quote:
    """The quote of a plan whose ways are done with the methods of the workshop as it is told."""
    shop = workshop or make_workshop()
    methods = {method.id: method for method in shop.methods}
    planned = plan or make_plan()
    options = tuple(
        replace(
            option,
            method=methods[option.method_id],
            part_ids=find_part_ids(job=job, method=methods[option.method_id], feed_from=option.feed_from),
        )
        for option in planned.options
    )
    quote = make_quote(job=job, plan=replace(planned, options=options), workshop=shop, **changes)
    assert quote is not None
    return quote


def test_quote_by_hand() -> None:
    quote = _quote()
    assert [(line.kind, line.total) for line in quote.lines] == [
        ("brake", Decimal("189.00")),
        ("part", Decimal("0.80")),
        ("part", Decimal("1.20")),
        ("labour", Decimal("60.00")),
    ]
    assert (quote.subtotal, quote.tax, quote.total) == (Decimal("251.00"), Decimal("50.20"), Decimal("301.20"))
    assert (quote.currency, quote.valid_days, quote.unpriced) == ("EUR", 30, ())


@settings(deadline=None, max_examples=60)
@given(
    price=money,
    rate=money,
    tax_ratio=st.decimals(0, 1, places=3),
    step=steps_of_money,
    likely_min=st.integers(1, 300),
    cut_mm=st.integers(100, 3000),
)
def test_lines_add_up_to_the_total_and_everything_is_in_whole_coins(
    price: Decimal, rate: Decimal, tax_ratio: Decimal, step: Decimal, likely_min: int, cut_mm: int
) -> None:
    line = replace(make_line(), price_per_m=price)
    job = make_job(old=make_old(), new=replace(make_new(), line=line))
    feed = Minutes(least=likely_min, likely=likely_min, most=likely_min)
    workshop = make_workshop(money_step=step, tax_ratio=tax_ratio, labour_per_hour=rate, feed=feed)
    quote = _quote(job=job, plan=make_plan(cut_mm=cut_mm), workshop=workshop)
    assert sum((each.total for each in quote.lines if each.total is not None), Decimal(0)) == quote.subtotal
    assert quote.subtotal + quote.tax == quote.total
    assert abs(quote.tax - quote.subtotal * tax_ratio) <= step / 2
    for amount in (quote.subtotal, quote.tax, quote.total, *(each.total for each in quote.lines)):
        assert amount is not None
        assert amount % step == 0
    for each in quote.lines:
        assert each.unit_price is not None
        assert each.total is not None
        assert each.total == round_money(each.unit_price * each.quantity / each.price_per, step=step)


def test_no_amount_of_money_is_a_float() -> None:
    quote = _quote(compatibility=check_compatibility(job=replace(JOB, rotor_mm=203), adapters=ADAPTERS, limits=UNTOLD))
    amounts = [quote.subtotal, quote.tax, quote.total, quote.tax_ratio, quote.money_step]
    for line in quote.lines:
        amounts += [each for each in (line.quantity, line.unit_price, line.total) if each is not None]
    amounts += [each.more_money for each in quote.alternatives if each.more_money is not None]
    assert all(type(amount) is Decimal for amount in amounts)
    assert {field.name for field in fields(quote) if isinstance(getattr(quote, field.name), float)} == set()
    assert is_dataclass(quote)


@pytest.mark.parametrize(
    ("brake_price", "part_ids", "unpriced"),
    [
        (None, ("olive",), ("Brake (invented)",)),
        (Decimal("189.00"), ("mystery", "olive"), ("Mystery (invented)",)),
        (Decimal("189.00"), ("not-in-catalog",), ("not-in-catalog",)),
        (Decimal("0.00"), ("olive",), ()),
    ],
    ids=["brake", "part without a price", "part not in the catalog", "given away"],
)
def test_what_has_no_price_is_named_and_never_counted_as_nought(
    brake_price: Decimal | None, part_ids: tuple[str, ...], unpriced: tuple[str, ...]
) -> None:
    job = make_job(old=make_old(), new=make_new(brake=replace(make_brake(), price=brake_price)))
    plan = make_plan(part_ids=part_ids)
    named = tuple(replace(part, name=PARTS[part.id].name) if part.id in PARTS else part for part in plan.parts)
    quote = _quote(job=job, plan=replace(plan, parts=named))
    assert quote.unpriced == unpriced
    assert [line.name for line in quote.lines if line.total is None] == list(unpriced)


def test_bare_line_is_charged_by_the_metre_with_the_fittings_to_set() -> None:
    fitting = replace(make_fitting(), price=Decimal("4.50"))
    line = replace(make_line(), price_per_m=Decimal("6.00"))
    new = replace(
        make_new(), line=line, from_end=LineEnd(fitting=fitting, is_fitted=True), to_end=LineEnd(fitting=fitting)
    )
    quote = _quote(job=make_job(old=make_old(), new=new), plan=make_plan(cut_mm=1795))
    assert [(each.kind, each.quantity, each.total) for each in quote.lines[:2]] == [
        ("line", Decimal("1.795"), Decimal("10.77")),
        ("fitting", Decimal(1), Decimal("4.50")),
    ]


def test_owner_s_own_brake_is_not_charged_and_said_so() -> None:
    quote = _quote(charges_new_line=False)
    assert "brake" not in {line.kind for line in quote.lines}
    assert "owner_brings_line" in quote.assumptions


def test_adapter_comes_with_its_bolts() -> None:
    adapters = (*(replace(adapter, price=Decimal("14.00")) for adapter in ADAPTERS),)
    quote = _quote(compatibility=check_compatibility(job=replace(JOB, rotor_mm=203), adapters=adapters, limits=UNTOLD))
    assert [(line.id, line.total) for line in quote.lines if line.id in ("post_step-43", "long-bolts")] == [
        ("post_step-43", Decimal("14.00")),
        ("long-bolts", Decimal("3.10")),
    ]


@pytest.mark.parametrize(
    ("changes", "assumption"),
    [
        ({"plan": make_plan(outcome=Outcome.TIGHT)}, "fit_is_tight"),
        ({"plan": make_plan(outcome=Outcome.UNKNOWN)}, "fit_is_not_proven"),
        ({"plan": make_plan(spare_mm=-1)}, "supplied_line_too_short"),
        ({"plan": with_no_length(make_plan())}, "length_not_known"),
        ({}, "parts_not_checked"),
        ({"compatibility": check_compatibility(job=replace(JOB, rotor_mm=None), limits=UNTOLD)}, "parts_not_all_known"),
        ({"compatibility": check_compatibility(job=replace(JOB, rotor_mm=140), limits=UNTOLD)}, "parts_do_not_belong"),
        ({"compatibility": check_compatibility(job=JOB, limits=UNTOLD)}, "needs_not_priced"),
        ({}, "nothing_hidden_is_broken"),
    ],
)
def test_what_a_quote_takes_for_granted_is_told(changes: dict[str, object], assumption: str) -> None:
    quote = _quote(**changes)
    assert assumption in quote.assumptions
    assert all(ASSUMPTION_SENTENCES[key].endswith(".") for key in quote.assumptions)


def test_sound_job_takes_little_for_granted() -> None:
    job = make_job(old=make_old(kind=LineKind.HYDRAULIC_HOSE, through=("front", "back")), new=JOB.new)
    workshop = make_workshop()
    workshop = replace(workshop, methods=tuple(replace(each, fail_chance=0.1) for each in workshop.methods))
    quote = _quote(
        job=job, workshop=workshop, compatibility=check_compatibility(job=job, adapters=ADAPTERS, limits=UNTOLD)
    )
    assert quote.assumptions == ("needs_not_priced", "nothing_hidden_is_broken")


def test_no_plan_has_no_quote() -> None:
    plan = replace(make_plan(outcome=Outcome.NO_FIT), method_id=None)
    assert make_quote(job=JOB, plan=plan, workshop=make_workshop()) is None


def test_other_ways_stand_beside_with_minutes_money_and_hold() -> None:
    quote = _quote()
    (spoke,) = quote.alternatives
    assert (spoke.method_id, spoke.more_min, spoke.remark) == ("spoke", 7, "holds_nothing")
    assert spoke.more_money == Decimal("7.44")  # (7 min at 1.00 without the tube of 0.80) with a fifth of tax
    words = alternative_words(spoke, currency=quote.currency)
    assert words == "Spoke link (invented): 7 min more, 7.44 EUR more, holds nothing: push only"


def test_what_fails_more_often_costs_its_repeats() -> None:
    workshop = make_workshop()
    sleeve, spoke = workshop.methods
    quote = _quote(workshop=replace(workshop, methods=(sleeve, replace(spoke, fail_chance=0.5))))
    (other,) = quote.alternatives  # a half fails: its setup of 5 min is done twice on average
    assert (other.more_min, other.more_money) == (12, Decimal("13.44"))


def test_the_supplied_line_is_held_against_every_way() -> None:
    plan = make_plan()
    lengths = replace(plan.lengths, supplied_mm=1800) if plan.lengths else None
    options = (plan.options[0], replace(plan.options[1], cut_mm=1805))
    (other,) = _quote(plan=replace(plan, lengths=lengths, options=options)).alternatives
    assert other.outcome is Outcome.NO_FIT


@pytest.mark.parametrize(
    ("points", "charged"), [((34.5, 59.0, 79.0), 58), ((0.1, 0.1, 1.3), 1), ((0.7, 0.7, 0.1 + 0.7), 1)]
)
def test_an_exact_half_minute_is_charged_upwards_and_told_alike(points: tuple[float, ...], charged: int) -> None:
    least, likely, most = points
    workshop = make_workshop(feed=Minutes(least=least, likely=likely, most=most))
    methods = tuple(replace(method, setup_min=0) for method in workshop.methods)
    quote = _quote(workshop=replace(workshop, methods=methods))
    labour = quote.lines[-1]
    assert (labour.quantity, labour.unit) == (charged, "min")
    assert time_sentences(quote)[0].startswith(f"About {charged} minutes of work")


@given(minutes=st.integers(1, 2000), rate=money)
def test_labour_is_written_so_that_it_multiplies(minutes: int, rate: Decimal) -> None:
    feed = Minutes(least=minutes, likely=minutes, most=minutes)
    workshop = make_workshop(feed=feed, labour_per_hour=rate)
    methods = tuple(replace(method, setup_min=0) for method in workshop.methods)
    labour = _quote(workshop=replace(workshop, methods=methods)).lines[-1]
    _, quantity, each, together = quote_line_words(labour)
    much, (price, per) = quantity.removesuffix(" min"), each.removesuffix(" min").split(" per ")
    told = Decimal(much) * Decimal(price) / Decimal(per)
    assert round_money(told, step=Decimal("0.01")) == Decimal(together)


def test_a_line_cut_to_a_tenth_of_a_millimetre_is_told_so_that_it_multiplies() -> None:
    line = replace(make_line(), price_per_m=Decimal("100.00"))
    job = make_job(old=make_old(), new=replace(make_new(), line=line))
    _, quantity, each, together = quote_line_words(_quote(job=job, plan=make_plan(cut_mm=1795.5)).lines[0])
    assert (quantity, each, together) == ("1.7955 m", "100.00", "179.55")


@pytest.mark.parametrize(
    ("more_min", "more_money", "holds_n", "remark", "words"),
    [
        (5.0, Decimal("6.00"), 60.0, "", "Stud: 5 min more, 6.00 EUR more, holds 60 N"),
        (0.0, Decimal(0), None, "", "Stud: the same time, hold not known"),
        (-0.4, Decimal(0), 60.0, "", "Stud: the same time, holds 60 N"),
        (-3.0, None, 8.0, "", "Stud: 3 min less, price not known, holds 8 N"),
    ],
)
def test_other_way_in_words(
    more_min: float, more_money: Decimal | None, holds_n: float | None, remark: str, words: str
) -> None:
    alternative = Alternative(
        method_id="stud",
        method_name="Stud",
        feed_from=JobEnd.FROM,
        outcome=Outcome.FITS,
        more_min=more_min,
        more_money=more_money,
        holds_n=holds_n,
        remark=Remark(remark),
    )
    assert alternative_words(alternative, currency="EUR") == words


@pytest.mark.parametrize(("sleeve_uses", "is_told"), [(("tube",), False), (("mystery",), True)])
def test_an_unpriced_part_leaves_no_price_difference_unless_both_ways_take_it(
    sleeve_uses: tuple[str, ...], is_told: bool
) -> None:
    workshop = make_workshop()
    sleeve, spoke = workshop.methods
    workshop = replace(workshop, methods=(replace(sleeve, uses=sleeve_uses), replace(spoke, uses=("mystery",))))
    plan = replace(
        make_plan(part_ids=sleeve_uses),
        options=(make_option("sleeve", holds_n=8), make_option("spoke", holds_n=0)),
    )
    (other,) = _quote(plan=plan, workshop=workshop).alternatives
    assert (other.more_money is not None) == is_told


def test_rounding_and_time_are_stated_in_words() -> None:
    quote = _quote()
    sentence = ROUNDING_SENTENCES[quote.rounding_rule].format(step=quote.money_step, currency=quote.currency)
    assert sentence.startswith("Each line is rounded to 0.01 EUR")
    assert TIME_SENTENCES[quote.time.method]


@pytest.mark.parametrize(
    ("amount", "step", "expected"),
    [
        ("1.224", "0.01", "1.22"),
        ("1.225", "0.01", "1.23"),
        ("1.0249", "0.05", "1.00"),
        ("1.025", "0.05", "1.05"),
        ("-1.025", "0.05", "-1.05"),
        ("0.5", "1", "1"),
        ("0", "0.05", "0.00"),
    ],
)
def test_halves_are_rounded_up(amount: str, step: str, expected: str) -> None:
    rounded = round_money(Decimal(amount), step=Decimal(step))
    assert str(rounded) == expected


@given(amount=money, step=steps_of_money)
def test_rounding_twice_changes_nothing(amount: Decimal, step: Decimal) -> None:
    once = round_money(amount, step=step)
    assert round_money(once, step=step) == once
    assert abs(once - amount) <= step / 2


def test_float_is_no_money() -> None:
    with pytest.raises(TypeError, match=r"money is exact: 1\.2 is a float, not a Decimal"):
        round_money(1.2, step=Decimal("0.01"))  # type: ignore[arg-type]


def test_coin_of_nought_is_refused() -> None:
    with pytest.raises(ImpossibleDimensionError, match=r"step: 0 .* must be above zero"):
        round_money(Decimal(1), step=Decimal(0))


def test_an_adapter_that_the_plan_lists_is_charged_once_with_its_bolts() -> None:
    compatibility = check_compatibility(job=replace(JOB, rotor_mm=203), adapters=ADAPTERS, limits=UNTOLD)
    listed = tuple(PartNeeded(id=part_id, name=part_id, quantity=1) for part_id in compatibility.part_ids)
    without = _quote(compatibility=compatibility)
    plan = make_plan()
    within = _quote(compatibility=compatibility, plan=replace(plan, parts=(*plan.parts, *listed)))
    assert compatibility.adapter is not None
    assert [line.id for line in within.lines] == [line.id for line in without.lines]
    assert within.total == without.total
