"""Answers planted beforehand come out of the table, from frames of four holes to frames of two thousand."""

import pytest

from planner import book_of, decide_case, join_answers, look_of
from planner.verdicts import Outcome
from tests.planner.table.planted import planted, planted_brakes, planted_outcome, planted_workshop

WORKSHOP = planted_workshop()
BRAKES = planted_brakes(40)


@pytest.mark.parametrize(("ports_n", "frames_n", "every"), [(4, 10, 1), (40, 3, 3), (2000, 1, 12)])
def test_what_was_planted_is_found(ports_n: int, frames_n: int, every: int) -> None:
    brakes = BRAKES[::every]
    looks = tuple(map(look_of, brakes))
    book = book_of(looks, WORKSHOP)
    seen = set()
    for number in range(frames_n):
        frame = planted(number, ports_n=ports_n)
        answers = decide_case(case=frame.case, book=book)
        for look, brake in enumerate(brakes):
            way = answers.ways[answers.way_of[look]]
            row = join_answers(way=way, parts=answers.parts[answers.parts_of[look]], supplied_mm=None)
            expected = planted_outcome(frame, brake, running_mm=WORKSHOP.limits.running_clearance_mm)
            assert (row.way.outcome, row.decider.place_id) == (expected, frame.narrowest), brake.id
            seen.add(expected)
    assert seen == {Outcome.FITS, Outcome.TIGHT, Outcome.NO_FIT} or frames_n == 1
