"""The usual tolerance of a cut is the shop's word, and nobody else's."""

import pytest

from planner import plan_job
from planner.parts import LineEnd, LineKind, NewLine, OldLine
from planner.plan.cut_length import hose_cut_tolerance_mm
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
