"""Invented parts for the tests of pull and hold."""

from dataclasses import replace
from decimal import Decimal

from planner.parts import Line, LineKind, ShopLimits

HOSE_50 = Line(
    id="hose-50",
    name="Hose 5.0 (invented)",
    kind=LineKind.HYDRAULIC_HOSE,
    outer_diameter_mm=5.0,
    outer_tolerance_mm=0.05,
    bore_diameter_mm=2.1,
    minimum_bend_radius_mm=35,
    friction_ratio=0.15,
    mass_g_per_m=25,
)
HOSE_55 = replace(HOSE_50, id="hose-55", outer_diameter_mm=5.5, bore_diameter_mm=2.3)

LIMITS = ShopLimits(
    running_clearance_mm=0.3,
    stud_squeeze_min_mm=0.2,
    stud_squeeze_max_mm=0.8,
    trim_allowance_mm=20,
    length_step_mm=5,
    free_span_mm=250,
    slack_variation_mm=30,
    pull_margin_ratio=3,
    ease_margin_ratio=1.5,
    friction_ratio=0.2,
    entry_drag_n=1.5,
    mass_g_per_m=30,
    hand_force_loss_ratio=0.35,
    measured_length_ratio=0.03,
    currency="EUR",
    labour_per_hour=Decimal("60.00"),
    tax_ratio=Decimal("0.20"),
    money_step=Decimal("0.01"),
    quote_valid_days=30,
)
