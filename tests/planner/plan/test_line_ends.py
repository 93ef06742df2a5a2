"""Which ends of the new line lead, want a fitting, or can be cut: the whole table, by what a bench can do."""

from dataclasses import replace

import pytest

from planner.parts import Fitting, FittingStyle, JobEnd, LineEnd, LineKind, NewLine, SetBy
from planner.plan.line_ends import can_be_trimmed, ends_by_feed, is_cut_to_length, must_be_set
from tests.builders import make_job, make_lane_frame, make_line


def fitting(set_by: SetBy) -> Fitting:
    return Fitting(
        id=set_by.value,
        name=set_by.value,
        style=FittingStyle.COMPRESSION if set_by is SetBy.WORKSHOP else FittingStyle.CRIMPED,
        set_by=set_by,
        outer_diameter_mm=8.0,
        length_mm=12.0,
    )


BARE = LineEnd()
NUT_BESIDE = LineEnd(fitting=fitting(SetBy.WORKSHOP))
NUT_ON = LineEnd(fitting=fitting(SetBy.WORKSHOP), is_fitted=True)
CRIMP_BESIDE = LineEnd(fitting=fitting(SetBy.FACTORY))
CRIMP_ON = LineEnd(fitting=fitting(SetBy.FACTORY), is_fitted=True)


@pytest.mark.parametrize(
    ("end", "is_to_be_set", "is_to_be_cut"),
    [
        (BARE, False, True),
        (NUT_BESIDE, True, True),
        (NUT_ON, False, False),  # it sits there: nothing to set, and cutting it off is another matter
        (CRIMP_BESIDE, True, False),  # no workshop sets it, so an end that needs it must not be cut
        (CRIMP_ON, False, False),
    ],
)
def test_an_end_wants_its_fitting_or_a_cut(end: LineEnd, is_to_be_set: bool, is_to_be_cut: bool) -> None:
    assert must_be_set(end) is is_to_be_set
    assert can_be_trimmed(end) is is_to_be_cut


@pytest.mark.parametrize(
    ("ends", "is_cut"),
    [
        ((BARE, BARE), True),
        ((CRIMP_ON, NUT_BESIDE), True),
        ((NUT_BESIDE, CRIMP_ON), True),
        ((CRIMP_ON, CRIMP_ON), False),
        ((CRIMP_ON, NUT_ON), False),
    ],
)
def test_a_line_is_cut_where_one_end_can_be(ends: tuple[LineEnd, LineEnd], is_cut: bool) -> None:
    hose = NewLine(line=make_line(), from_end=ends[0], to_end=ends[1])
    assert is_cut_to_length(hose) is is_cut
    wire = replace(hose, line=make_line(kind=LineKind.ELECTRIC_WIRE))
    assert not is_cut_to_length(wire), "nobody cuts a wire with plugs"


@pytest.mark.parametrize("feed_from", JobEnd)
def test_the_leading_end_is_the_one_away_from_where_it_is_fed(feed_from: JobEnd) -> None:
    job = make_job(make_lane_frame((8.0, 8.0)))
    job = replace(job, new=replace(job.new, from_end=NUT_BESIDE, to_end=CRIMP_ON))
    expected = (CRIMP_ON, NUT_BESIDE) if feed_from is JobEnd.FROM else (NUT_BESIDE, CRIMP_ON)
    assert ends_by_feed(job=job, feed_from=feed_from) == expected
