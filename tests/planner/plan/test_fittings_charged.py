"""Fittings that are set on a bare line stand in its quote once: by their own price, or as the small part they are."""

from dataclasses import replace
from decimal import Decimal

import pytest

from planner.parts import Fitting, FittingStyle, LineEnd
from planner.plan.quote_lines import WayToCharge, make_bill
from planner.plan.routing_plan import PartNeeded
from tests.planner.fit.compatibility_samples import make_fitting, make_job, make_new, make_old
from tests.planner.plan.quote_samples import make_workshop

FERRULE = replace(make_fitting(), style=FittingStyle.PLUG, uses=("olive",), price=None)


@pytest.mark.parametrize(
    ("fitting", "told"),
    [
        (FERRULE, []),
        (replace(FERRULE, price=Decimal("0.50")), [(Decimal(2), Decimal("1.00"))]),
        (replace(FERRULE, uses=()), [(Decimal(2), None)]),
        (replace(FERRULE, style=FittingStyle.COMPRESSION), [(Decimal(2), None)]),
    ],
    ids=["a ferrule is its small part", "with a price of its own", "without a small part", "a nut beside its olive"],
)
def test_two_fittings_alike_are_one_line_and_a_ferrule_is_charged_as_its_small_part(
    fitting: Fitting, told: list[tuple[Decimal, Decimal | None]]
) -> None:
    bare = LineEnd(fitting=fitting)
    job = make_job(old=make_old(), new=replace(make_new(), from_end=bare, to_end=bare))
    shop = make_workshop()
    way = WayToCharge(
        method=shop.methods[0],
        step_ids=(),
        cut_mm=1000.0,
        parts=(PartNeeded(id="olive", name="Olive (invented)", quantity=2),),
    )
    bill = make_bill(job=job, way=way, workshop=shop, compatibility=None, charges_new_line=True)
    assert [(line.quantity, line.total) for line in bill.lines if line.kind == "fitting"] == told
    assert [line.quantity for line in bill.lines if line.id == "olive"] == [Decimal(2)]
