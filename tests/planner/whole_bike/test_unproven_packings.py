"""Where the work on a hole runs out, fewer things may be told worse than more: then no order is left out unseen.

In a hole of 10.59 the search sees at once how 5.2, 3.7, 3.7, 3.3 and 2.9 lie; without the 2.9 it starts from another
place, and 300 rows are not enough to see what must be so. So the hose goes in only beside the wire, though the wire
takes room from it.
"""

from dataclasses import replace

import pytest

from planner.outcomes import Outcome
from planner.parts import LeaderLine, LineEnd, LineKind, NewLine, OldLine, RoundOpening, StayingLine, Visit, VisitLine
from planner.whole_bike import way_search
from planner.whole_bike.place_book import PlaceBook
from planner.whole_bike.visit_search import find_visit_order
from tests.builders import make_lane_frame, make_limits, make_line, make_spoke, make_workshop

ROWS = 300
WAY = ("in-0", "out-0")
SHOP = make_workshop(
    make_spoke(),
    LeaderLine(
        id="thread",
        name="Thread",
        outer_diameter_mm=1.0,
        joint_diameter_mm=2.9,
        joint_length_mm=0.0,
        holds_n=20.0,
        setup_min=5.0,
    ),
    limits=make_limits(hole_work_rows=ROWS),
)


def visit() -> Visit:
    """A hose of 5.2 for one as thick, and a wire of 2.9 to go in beside it and three lines that stay."""
    frame = make_lane_frame((16.0, 40.0))
    hole = replace(frame.ports["in-0"], opening=RoundOpening(diameter_mm=10.59, tolerance_mm=0.0))
    hose = make_line(id="hose", outer_diameter_mm=5.2)
    wire = make_line(id="wire", outer_diameter_mm=2.9, bore_diameter_mm=None, kind=LineKind.ELECTRIC_WIRE)
    ends = {"from_end": LineEnd(), "to_end": LineEnd()}
    places = {"from_anchor_id": "start", "to_anchor_id": "end"}
    stays = (make_line(id=f"stays-{n}", outer_diameter_mm=size_mm) for n, size_mm in enumerate((3.7, 3.7, 3.3)))
    return Visit(
        id="visit",
        title="Visit",
        frame=replace(frame, ports={**frame.ports, "in-0": hole}),
        lines=(
            VisitLine(
                id="hose",
                old=OldLine(line=hose, through=WAY, **ends),
                new=NewLine(line=hose, **ends),
                **places,
            ),
            VisitLine(id="wire", old=None, new=NewLine(line=wire, **ends), **places),
        ),
        staying=tuple(StayingLine(line=line, through=("in-0",)) for line in stays),
        may_take_out_first=False,
    )


def outcome_of(sizes_mm: tuple[float, ...]) -> Outcome:
    room = find_room()
    return PlaceBook(limits=SHOP.limits).ask(room, [(size_mm, 0.05) for size_mm in sizes_mm], proves_no=False).outcome


def find_room():  # type: ignore[no-untyped-def]
    """The hole as the hose is asked to pass it."""
    _, search = find_visit_order(visit=visit(), workshop=SHOP)
    return next(room for room, _ in search.places.known if room.opening == visit().frame.ports["in-0"].opening)


def test_fewer_things_are_told_worse_than_more() -> None:
    assert outcome_of((5.2, 3.7, 3.7, 3.3, 2.9)) is Outcome.TIGHT
    assert outcome_of((5.2, 3.7, 3.7, 3.3)) is Outcome.UNKNOWN


def test_the_order_is_found_all_the_same(monkeypatch: pytest.MonkeyPatch) -> None:
    tried: list[bool] = []
    best = way_search._Branches.best

    def counted(self: way_search._Branches) -> way_search.Found:
        tried.append(self.prunes)
        return best(self)

    monkeypatch.setattr(way_search._Branches, "best", counted)
    answer, _ = find_visit_order(visit=visit(), workshop=SHOP)
    assert answer.outcome is Outcome.TIGHT
    assert answer.found.order is not None
    assert [answer.found.chosen[n].change.line_ids[0] for n in answer.found.order.places] == ["wire", "hose"]
    assert tried[-2:] == [True, False]  # with what cannot be better left out there is none
