"""What a cut may be off is the shop's word, never shorter; what an ordered hose may be off, the supplier's."""

import pytest

from planner import plan_job
from planner.parts import LineEnd, LineKind, Minutes, NewLine, OldLine, WorkStep
from planner.plan.cut_length import cut_words, hose_cut_tolerance_mm, order_words
from planner.plan.lengths import Lengths
from tests.builders import make_job, make_lane_frame, make_limits, make_line, make_workshop

ROWS = ((300.0, 3.0), (600.0, 5.0))


@pytest.mark.parametrize(
    ("length_mm", "expected_mm"), [(299.9, 3.0), (300.0, 3.0), (300.1, 5.0), (600.0, 5.0), (600.1, 12.002), (700, 14.0)]
)
def test_the_first_row_that_is_long_enough_is_taken(length_mm: float, expected_mm: float) -> None:
    limits = make_limits(hose_cut_tolerances=ROWS, hose_cut_tolerance_over_ratio=0.02)
    assert hose_cut_tolerance_mm(length_mm=length_mm, limits=limits) == pytest.approx(expected_mm)


@pytest.mark.parametrize(
    ("rows", "over_ratio", "length_mm", "expected_mm"),
    [(ROWS, None, 600.0, 5.0), (ROWS, None, 600.1, None), ((), None, 100.0, None), ((), 0.01, 100.0, 1.0)],
)
def test_a_shop_without_a_figure_gets_none(
    rows: tuple[tuple[float, float], ...], over_ratio: float | None, length_mm: float, expected_mm: float | None
) -> None:
    limits = make_limits(hose_cut_tolerances=rows, hose_cut_tolerance_over_ratio=over_ratio)
    assert hose_cut_tolerance_mm(length_mm=length_mm, limits=limits) == expected_mm


@pytest.mark.parametrize(("kind", "is_told"), [(LineKind.HYDRAULIC_HOSE, True), (LineKind.SHIFT_HOUSING, False)])
def test_only_hoses_have_a_table(kind: LineKind, is_told: bool) -> None:
    line = make_line(kind=kind)
    job = make_job(
        make_lane_frame((8.0, 8.0)),
        old=OldLine(line=line, from_end=LineEnd(), to_end=LineEnd()),
        new=NewLine(line=line, from_end=LineEnd(), to_end=LineEnd()),
    )
    limits = make_limits(hose_cut_tolerances=((100_000.0, 7.0),))
    lengths = plan_job(job=job, workshop=make_workshop(limits=limits)).lengths
    assert lengths is not None
    assert lengths.cutting_tolerance_mm == (7.0 if is_told else None)


def lengths_of(*, supplied_mm: float | None, tolerance_mm: float | None = 12.7) -> Lengths:
    spare_mm = None if supplied_mm is None else supplied_mm - 1485
    return Lengths(
        legs=(),
        need_mm=1451.0,
        cut_mm=1485.0,
        supplied_mm=supplied_mm,
        spare_mm=spare_mm,
        insertion_mm=22.0,
        trim_mm=10.0,
        cutting_tolerance_mm=tolerance_mm,
    )


@pytest.mark.parametrize(
    ("cut_over_mm", "told"), [(3.0, "1485 mm (+3/-0)"), (0.5, "1485 mm (+0.5/-0)"), (None, "1485 mm (never shorter)")]
)
def test_a_cut_is_never_allowed_to_be_too_short(cut_over_mm: float | None, told: str) -> None:
    assert cut_words(length_mm=1485, cut_over_mm=cut_over_mm) == told


def test_the_shop_s_word_on_its_cuts_reaches_the_plan_and_its_steps() -> None:
    step = WorkStep(id="cut", text="Cut to {cut_length_mm}.", why="", minutes=Minutes(least=1, likely=2, most=3))
    workshop = make_workshop(limits=make_limits(cut_over_mm=4.0), steps=(step,))
    plan = plan_job(job=make_job(make_lane_frame((8.0, 8.0))), workshop=workshop)
    assert plan.lengths is not None
    assert plan.lengths.cut_over_mm == 4.0
    assert [one.text for one in plan.steps] == [f"Cut to {plan.lengths.cut_mm:.0f} mm (+4/-0)."]


def test_the_supplier_s_table_tells_how_long_a_hose_to_order() -> None:
    told = order_words(lengths_of(supplied_mm=None))
    assert told == "a hose ordered to length comes within ±12.7 mm: order 1498 mm or more"
    assert order_words(lengths_of(supplied_mm=None, tolerance_mm=None)) is None
    assert order_words(lengths_of(supplied_mm=2100)) is None, "what is there was measured, not ordered"
