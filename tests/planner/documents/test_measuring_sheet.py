"""The measuring sheet: every hole in order with what was told of it, or a blank one, and the tools that measure it."""

import pytest

from catalog import read_catalog
from planner.documents.paper.measuring_sheet import MOST_HOLES, measuring_sheet_pdf
from planner.parts import Measured
from tests.planner.documents.drawing_samples import make_frame
from tests.planner.documents.paper_reading import page_sizes_mm, text_of

MEASURES = read_catalog().workshop.measures


def test_holes_and_stretches_of_a_frame_stand_in_their_order_with_what_was_told() -> None:
    frame = make_frame()
    told = text_of(measuring_sheet_pdf(frame=frame, measures=MEASURES))
    places = [told.index(port.label) for port in frame.ports.values()]
    assert places == sorted(places)
    for words in ("slot 19 × 7 mm", "50°", "1.6 mm", "slot 10.2 × 5.4 mm in it", "round 6.5 mm", "L x W"):
        assert words in told


def test_a_blank_sheet_has_a_place_for_each_hole_and_one_stretch_more() -> None:
    told = text_of(measuring_sheet_pdf(hole_count=4, measures=()))
    assert told.count("how far the line leans in it, degrees") == 4
    assert told.count("____ mm ____ mm ____°") == 5


@pytest.mark.parametrize("holes", [0, -1, MOST_HOLES + 1])
def test_a_sheet_for_no_hole_or_too_many_is_refused(holes: int) -> None:
    with pytest.raises(ValueError, match="1 to 40"):
        measuring_sheet_pdf(hole_count=holes, measures=())


def test_the_largest_blank_sheet_is_printed() -> None:
    assert len(page_sizes_mm(measuring_sheet_pdf(hole_count=MOST_HOLES, measures=MEASURES))) > 5


def test_everything_that_is_asked_has_a_tool() -> None:
    assert {measure.of for measure in MEASURES} == set(Measured)
    told = text_of(measuring_sheet_pdf(measures=MEASURES))
    for measure in MEASURES:
        assert measure.tool.split(",")[0] in told


def test_the_same_frame_gives_the_same_bytes() -> None:
    assert measuring_sheet_pdf(measures=MEASURES) == measuring_sheet_pdf(measures=MEASURES)
