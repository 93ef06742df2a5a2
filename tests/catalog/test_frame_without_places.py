"""A frame that is told by its holes: what may be left out, and what may not be told by halves."""

import pytest

from planner.parts import AnchorPart, FrameEnd, LengthBy, PortLooks, RiderSide
from tests.catalog.samples import catalog_of, example_with, problems_in

FRAME = """
format: 1
frames:
  - id: bench
    zones:
      - {id: tube, bore: 40}
    ports:
      - {id: in, joins: [outside, tube], opening: {shape: round, diameter: 7}, wall: 1.5, tilt: 40, looks: side}
      - {id: out, joins: [tube, outside], opening: {shape: round, diameter: 7}, wall: 1.5, looks: along}
    anchors:
      - {id: lever, is: lever, side: right, moves_with: bar}
      - {id: caliper, is: caliper, side: left, end: rear}
    runs:
      - {id: a, zone: outside, between: [lever, in], length: 420, reached: true}
      - {id: b, zone: tube, between: [in, out], length: 610, length_tolerance: 2, length_by: wire}
      - {id: c, zone: outside, between: [out, caliper]}
"""


def test_places_may_be_left_out() -> None:
    frame = catalog_of(FRAME).frames["bench"]
    assert frame.zones["tube"].path_mm == ()
    assert [(port.position_mm, port.heading, port.looks) for port in frame.ports.values()] == [
        (None, None, PortLooks.SIDE),
        (None, None, PortLooks.ALONG),
    ]
    lever, caliper = frame.anchors.values()
    assert (lever.part, lever.side, lever.end) == (AnchorPart.LEVER, RiderSide.RIGHT, None)
    assert (caliper.part, caliper.side, caliper.end) == (AnchorPart.CALIPER, RiderSide.LEFT, FrameEnd.REAR)


def test_a_run_says_how_long_it_is_and_how_that_was_found() -> None:
    a, b, c = catalog_of(FRAME).frames["bench"].runs.values()
    assert (a.length_mm, a.length_tolerance_mm, a.length_by, a.is_reached) == (420, 5, LengthBy.TAPE, True)
    assert (b.length_mm, b.length_tolerance_mm, b.length_by, b.is_reached) == (610, 2, LengthBy.WIRE, False)
    assert (c.length_mm, c.is_reached) == (None, False)


@pytest.mark.parametrize(
    ("before", "after", "told"),
    [
        (
            "        heading: [-0.48, -0.643, -0.60]\n",
            "",
            "port neck-left > at: at was given without heading, both, or neither",
        ),
        (
            "        at: [416, 24, 520]\n",
            "",
            "port neck-left > heading: heading was given without at, both, or neither",
        ),
    ],
)
def test_a_place_is_told_with_its_heading_or_not_at_all(before: str, after: str, told: str) -> None:
    (problem,) = problems_in(example_with(before, after))
    assert f"{problem.thing} > {problem.field}: {problem.given}, {problem.allowed}".endswith(told)
