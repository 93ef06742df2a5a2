# ruff: noqa: E501  (a message is easier to compare in one piece)
"""What a port or anchor says it rides on, held against what the rear end says of it."""

import pytest

from tests.catalog.samples import example_with, problems_in

REAR = "    rear: {kind: single_pivot, pivot: [12, 58], swing: 15, moves: [stay-front, stay-rear, caliper-rear]}\n"
MOVES = "moves: [stay-front, stay-rear, caliper-rear]"
FAULTS = {
    "an anchor on a rear end that the frame does not have": (
        REAR,
        "",
        "f.yaml:48: frame larkmoor-140 anchor caliper-rear > moves_with: rear was given on a frame without one, "
        "rear: how it moves, or moves_with left out",
    ),
    "an anchor on a rear end left empty": (
        REAR,
        "    rear:\n",
        "f.yaml:48: frame larkmoor-140 anchor caliper-rear > moves_with: rear was given on a frame without one, "
        "rear: how it moves, or moves_with left out",
    ),
    "an anchor on a rear end that does not name it": (
        MOVES,
        "moves: [stay-front, stay-rear]",
        "f.yaml:48: frame larkmoor-140 anchor caliper-rear > moves_with: rear was given, but rear moves does not name "
        "caliper-rear, caliper-rear in both or in neither",
    ),
    "an anchor on the bar and on the rear end": (
        MOVES,
        "moves: [stay-front, stay-rear, caliper-rear, bar-left]",
        "f.yaml:47: frame larkmoor-140 anchor bar-left > moves_with: bar was given, but rear moves names bar-left, "
        "one of the two: it rides on one thing",
    ),
    "a port on a rear end that does not name it": (
        "wall: 1.6\n        insert:",
        "wall: 1.6\n        moves_with: rear\n        insert:",
        "f.yaml:22: frame larkmoor-140 port neck-left > moves_with: rear was given, but rear moves does not name "
        "neck-left, neck-left in both or in neither",
    ),
    "a port on the bar and on the rear end": (
        "at: [-26, 40, 27]\n",
        "at: [-26, 40, 27]\n        moves_with: bar\n",
        "f.yaml:35: frame larkmoor-140 port stay-front > moves_with: bar was given, but rear moves names stay-front, "
        "one of the two: it rides on one thing",
    ),
    "a slip in the name of a moving anchor is told once": (
        MOVES,
        "moves: [stay-front, stay-rear, caliper-reer]",
        "f.yaml:56: frame larkmoor-140 > rear moves no. 3: there is no port or anchor caliper-reer, did you mean caliper-rear?",
    ),
    "a slip in another name does not hide an anchor that is not named": (
        MOVES,
        "moves: [stay-frnt, stay-rear]",
        "f.yaml:48: frame larkmoor-140 anchor caliper-rear > moves_with: rear was given, but rear moves does not name "
        "caliper-rear, caliper-rear in both or in neither",
        "f.yaml:56: frame larkmoor-140 > rear moves no. 1: there is no port or anchor stay-frnt, did you mean stay-front or stay-rear?",
    ),
}


@pytest.mark.parametrize("slip", FAULTS.values(), ids=FAULTS.keys())
def test_disagreement_is_told_at_the_anchor(slip: tuple[str, ...]) -> None:
    before, after, *messages = slip
    assert [str(problem) for problem in problems_in(example_with(before, after))] == messages


SOUND = {
    "a port that rides with the bar": (
        "wall: 1.6\n        insert:",
        "wall: 1.6\n        moves_with: bar\n        insert:",
    ),
    "an anchor that leaves it to the rear end to say so": (", moves_with: rear}", "}"),
    "an anchor that stands still on a frame whose rear moves": (
        MOVES,
        "moves: [stay-rear]",
        ", moves_with: rear}",
        "}",
    ),
    "a bar whose axis nobody measured": (
        "    bar: {axis_point: [405, 0, 612], axis: [-0.42, 0, 0.91], lock: 75}\n",
        "",
    ),
    "nothing that moves at the rear": (REAR, "", ", moves_with: rear}", "}"),
}


@pytest.mark.parametrize("change", SOUND.values(), ids=SOUND.keys())
def test_what_does_not_disagree_is_taken(change: tuple[str, ...]) -> None:
    text = example_with(*change[:2])
    for before, after in zip(change[2::2], change[3::2], strict=True):
        assert before in text
        text = text.replace(before, after)
    assert problems_in(text) == []


def test_a_broken_frame_still_tells_of_an_anchor_on_no_rear_end() -> None:
    text = example_with("    rear: {kind: single_pivot", "    raer: {kind: single_pivot")
    assert [problem.field for problem in problems_in(text)] == ["moves_with", "raer"]


def test_a_broken_rear_end_is_told_alone() -> None:
    assert [problem.field for problem in problems_in(example_with(MOVES, "mvoes: []"))] == ["rear mvoes"]
