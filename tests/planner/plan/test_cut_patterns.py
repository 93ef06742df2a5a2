"""One length of stock filled as far as it goes: against every way of filling it."""

from itertools import product

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from planner.plan.cut_patterns import fill_fullest


def fullest(sizes: tuple[int, ...], left: tuple[int, ...], room: int) -> tuple[int, tuple[int, ...]]:
    """The most that can be filled, and among equally full ones the counts with the longest pieces."""
    ways = product(*(range(have + 1) for have in left))
    filled = ((sum(n * size for n, size in zip(way, sizes, strict=True)), way) for way in ways)
    return max((taken, way) for taken, way in filled if taken <= room)


@settings(max_examples=60, deadline=None)
@given(
    pieces=st.lists(st.tuples(st.integers(1, 30), st.integers(0, 3)), min_size=1, max_size=4, unique_by=lambda p: p[0]),
    room=st.integers(0, 90),
)
def test_a_length_of_stock_is_filled_as_far_as_any_way_of_filling_it(pieces: list[tuple[int, int]], room: int) -> None:
    pieces = sorted(pieces, reverse=True)
    sizes, left = tuple(size for size, _ in pieces), tuple(have for _, have in pieces)
    if not any(left):
        left = (1, *left[1:])
    counts = fill_fullest(sizes=sizes, left=left, room=room)
    taken, way = fullest(sizes, left, room)
    assert sum(n * size for n, size in zip(counts, sizes, strict=True)) == taken
    assert counts == way
    assert all(n <= have for n, have in zip(counts, left, strict=True))


@pytest.mark.parametrize(
    ("room", "counts"), [(699, (0, 0)), (700, (0, 1)), (1000, (1, 0)), (1399, (1, 0)), (1400, (0, 2))]
)
def test_a_length_of_stock_just_as_long_as_its_pieces_takes_them(room: int, counts: tuple[int, int]) -> None:
    assert fill_fullest(sizes=(1000, 700), left=(1, 2), room=room) == counts


def test_what_is_used_up_is_not_cut_again() -> None:
    assert fill_fullest(sizes=(1000, 700), left=(1, 0), room=900) == (0, 0)


def test_a_length_too_fine_to_be_looked_at_step_by_step_still_gets_its_longest_piece() -> None:
    """Pieces that leave less than a 50,000th of the room, and sizes without a common step."""
    assert fill_fullest(sizes=(1_000_003, 7), left=(1, 1), room=1_000_004) == (1, 0)
