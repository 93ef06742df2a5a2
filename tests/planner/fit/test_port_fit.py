"""What a check of a port says of its insert."""

import pytest

from planner.fit.port_fit import check_things_through_port
from planner.parts import Insert, RoundOpening
from planner.verdicts import State, Thing, ThingKind
from tests.builders import make_port

RUBBER = Insert(opening=RoundOpening(diameter_mm=5.5, tolerance_mm=0.1), is_removable=True)


@pytest.mark.parametrize(
    ("insert", "is_out", "note"), [(RUBBER, False, "insert"), (RUBBER, True, ""), (None, True, ""), (None, False, "")]
)
def test_a_check_names_the_insert_only_where_that_was_asked(insert: Insert | None, is_out: bool, note: str) -> None:
    check = check_things_through_port(
        port=make_port("hole", diameter_mm=8.0, insert=insert),
        state=State.DRAWING,
        things=[Thing(id="line", kind=ThingKind.LINE, diameter_mm=5.0, tolerance_mm=0.1)],
        is_insert_out=is_out,
        running_clearance_mm=0.5,
    )
    assert check.note == note
    assert check.available_mm == pytest.approx(5.5 if note else 8.0)
